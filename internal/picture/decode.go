package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"io"
	"math"
	"runtime"
)

// The bounds of memory: what a decoder may hold while it works, in bytes, and what comes of it, in pixels. With what a writer holds besides
// it is less than 200 MB; over an A3 sheet the pixels are still 270 to an inch.
const (
	mostDecoded = 100e6
	mostPixels  = 12e6
)

// Decode reads the pixels of a picture: upright, on white where they are transparent, and shrunk to 12 million where there are more. The
// error does not name the path; it says what is wrong with the file, or how many pixels it may have.
func Decode(path string) (*image.RGBA, error) {
	f, err := openRegular(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	defer runtime.GC() // what the decoder held is free before a writer needs as much
	return decode(f)
}

// DecodeBytes is Decode of a picture that is no file.
func DecodeBytes(data []byte) (*image.RGBA, error) { return decode(bytes.NewReader(data)) }

func decode(f io.ReadSeeker) (*image.RGBA, error) {
	h, err := readHeader(f)
	if err != nil {
		return nil, err
	}
	if most := mostDecoded / h.pixelSize; float64(h.Width)*float64(h.Height) > most {
		return nil, fmt.Errorf("%d x %d pixels are too many for a %s of this kind; want at most %.0f million: "+
			"save it smaller, or as a JPEG that is not progressive", h.Width, h.Height, h.Format, math.Floor(most/1e6))
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	stored, err := h.pixels(f)
	if err != nil || stored.Bounds().Size() != h.stored() {
		return nil, fmt.Errorf("a %s that is damaged or cut short", h.Format)
	}
	return upright(stored, h.Orientation, mostPixels), nil
}

// stored returns width and height as they are stored.
func (h Header) stored() image.Point {
	if h.Orientation > 4 {
		return image.Pt(h.Height, h.Width)
	}
	return image.Pt(h.Width, h.Height)
}

// pixels decodes a picture as it is stored. A panic of a decoder is a fault of the file.
func (h Header) pixels(f io.Reader) (stored image.Image, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("%v", v)
		}
	}()
	return h.kind.decode(f)
}

// upright returns the pixels turned as an orientation says, on white, and shrunk to at most so many pixels.
func upright(stored image.Image, orientation int, most float64) *image.RGBA {
	from := stored.Bounds()
	shrink := min(1, math.Sqrt(most/float64(from.Dx())/float64(from.Dy())))
	width := max(1, int(float64(from.Dx())*shrink))
	height := max(1, int(float64(from.Dy())*shrink))
	row := image.NewRGBA(image.Rect(0, 0, from.Dx(), 1))
	white := image.NewUniform(color.White)
	source := func(y int) []byte {
		draw.Draw(row, row.Rect, white, image.Point{}, draw.Src)
		draw.Draw(row, row.Rect, stored, from.Min.Add(image.Pt(0, y)), draw.Over)
		return row.Pix
	}
	whole := func(stored, wanted int) Axis { return NewAxis(stored, 0, int64(wanted)*Grid, 0, wanted) }
	sampler := newSampler(from.Dx(), source, whole(from.Dx(), width), whole(from.Dy(), height))
	out, start, right, down := canvas(width, height, orientation)
	line := make([]byte, 4*width)
	for y := range height {
		sampler.Row(y, line)
		for x := range width {
			copy(out.Pix[start+x*right+y*down:][:4], line[4*x:])
		}
	}
	return out
}

// canvas returns an image for a stored picture that is turned upright, where in it the first stored pixel lies, and how far apart its
// neighbours on the right and below lie there.
func canvas(width, height, orientation int) (out *image.RGBA, start, right, down int) {
	transposed := orientation > 4
	if transposed {
		out = image.NewRGBA(image.Rect(0, 0, height, width))
	} else {
		out = image.NewRGBA(image.Rect(0, 0, width, height))
	}
	x, y := 4, out.Stride // steps in the upright image
	last := image.Pt(out.Rect.Dx()-1, out.Rect.Dy()-1)
	// EXIF 2.32, 4.6.4 A: which side of the upright picture the stored first row and first column are.
	if o := orientation; o == 2 || o == 3 || o == 6 || o == 7 { // from the right
		start, x = start+last.X*x, -x
	}
	if o := orientation; o == 3 || o == 4 || o == 7 || o == 8 { // from the bottom
		start, y = start+last.Y*y, -y
	}
	if transposed {
		return out, start, y, x
	}
	return out, start, x, y
}

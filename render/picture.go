package render

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"

	"hubrule/internal/geom"
	"hubrule/internal/picture"
)

// Picture is a photograph that fills Box, stretched if its proportions are others. What a file holds of it is encoded anew from its
// pixels, so that nothing else of the photograph's own file gets there.
type Picture struct {
	Tagged
	Box      Box
	Pixels   *image.RGBA // opaque; not changed afterwards
	Mirrored bool        // left and right change places
	Fade     float64     // 0 to 1: how far it is lightened towards the white of the paper, so that lines stand out on it
}

// Sampler gives the rows of an image of the picture, mirrored and lightened.
func (p *Picture) Sampler(x, y picture.Axis) *picture.Sampler {
	s := picture.NewSampler(p.Pixels, x, y)
	s.Mirrored, s.White = p.Mirrored, uint32(math.Round(p.Fade*256))
	return s
}

// What files hold of pictures.
const (
	pictureDPI  = 300     // what good paper shows
	pictureSize = 7 << 20 // bytes; readers of XML refuse an attribute of ten megabytes, and base64 adds a third
)

// JPEG returns the picture for files that hold it as a JPEG, and its size in pixels: no more than it has, and than its place on paper
// shows at 300 dots an inch, so that files stay small. The encoder is the standard library's, which computes in whole numbers: the same
// bytes on every machine, though another release of Go may choose others.
func (p *Picture) JPEG() (data []byte, width, height int) {
	shown := func(pixels int, length geom.MM) int {
		return max(1, min(pixels, int(math.Ceil(Round(length)*pictureDPI/float64(geom.Inch)))))
	}
	size := p.Pixels.Rect.Size()
	width, height = shown(size.X, p.Box.Width()), shown(size.Y, p.Box.Height())
	whole := func(n, wanted int) picture.Axis { return picture.NewAxis(n, 0, int64(wanted)*picture.Grid, 0, wanted) }
	sampler, img := p.Sampler(whole(size.X, width), whole(size.Y, height)), image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		sampler.Row(y, img.Pix[y*img.Stride:])
	}
	var b bytes.Buffer
	for quality := 85; quality > 0; quality -= 20 { // noise alone needs more than one turn
		b.Reset()
		if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
			panic(err) // the buffer does not fail, and no side is too long
		}
		if b.Len() <= pictureSize {
			break
		}
	}
	return b.Bytes(), width, height
}

func checkPicture(p *Picture) error {
	b := p.Box
	if !inRange(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y) || thousandths(b.Width()) <= 0 || thousandths(b.Height()) <= 0 {
		return fmt.Errorf("picture from %v, %v to %v, %v", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	}
	if p.Pixels == nil || p.Pixels.Rect.Empty() || max(p.Pixels.Rect.Dx(), p.Pixels.Rect.Dy()) > picture.MaxSide {
		return fmt.Errorf("picture without pixels, or with more than %d on a side", picture.MaxSide)
	}
	if !(p.Fade >= 0 && p.Fade <= 1) {
		return fmt.Errorf("picture lightened by %v", p.Fade)
	}
	return nil
}

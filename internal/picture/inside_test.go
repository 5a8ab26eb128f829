package picture

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// TestLargePicturesShrink: to so many pixels, in proportion, and each is the mean of those that it stands for.
func TestLargePicturesShrink(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 1600, 160))
	for i := range m.Pix {
		m.Pix[i] = uint8(i % 1600 % 2 * 200)
	}
	got := upright(m, 1, 160_000)
	if got.Rect.Size() != image.Pt(1264, 126) {
		t.Fatalf("%v", got.Rect)
	}
	sum := 0
	for x := range 1264 {
		sum += int(got.Pix[60*got.Stride+4*x])
	}
	if mean := float64(sum) / 1264; math.Abs(mean-100) > .5 {
		t.Errorf("the mean is %v; want 100", mean)
	}
}

// TestAxes: the weights of every pixel are one together and lie on pixels that there are; a slope stays that slope, enlarged or shrunk,
// wherever the picture lies, but for half a pixel at its ends.
func TestAxes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		n, size := 1+random.IntN(300), 1+random.IntN(300)
		left := random.Int64N(400*Grid) - 200*Grid
		right := left + 1 + random.Int64N(500*Grid)
		for x, s := range NewAxis(n, left, right, 0, size) {
			sum, mean := uint64(0), 0.
			for k, w := range s.weights {
				sum += uint64(w)
				mean += float64(w) * (float64(s.first+k) + .5) / one
			}
			if sum != one || s.first < 0 || s.first+len(s.weights) > n {
				t.Fatalf("%d pixels from %d to %d: pixel %d is %+v", n, left, right, x, s)
			}
			long := float64(right-left) / float64(n) // of a pixel
			place := (float64(x*Grid+Grid/2) - float64(left)) / long
			tolerance := 1e-3
			if long < Grid { // within its first and last pixel a box takes all of it to be at its middle
				tolerance = .13
			}
			if inside := max(.5, Grid/2/long); place > inside && place < float64(n)-inside && math.Abs(mean-place) > tolerance {
				t.Fatalf("%d pixels from %d to %d: pixel %d shows place %v; want %v", n, left, right, x, mean, place)
			}
		}
	}
}

// A progressive JPEG of 16 x 16 grey pixels, written by ImageMagick.
const progressiveJPEG = "ffd8ffe000104a46494600010100000100010000ffdb0043000d090a0b0a080d0b0a0b0e0e0d0f13201513121213271c1e17202e2931302e292d2c33" +
	"3a4a3e333646372c2d405741464c4e525352323e5a615a50604a51524fffc2000b080010001001011100ffc400160001010100000000000000000000" +
	"000000000506ffda0008010100000001aacabfffc4001510010100000000000000000000000000000013ffda0008010100010502baebaeffc4001410" +
	"0100000000000000000000000000000020ffda0008010100063f021fffc4001510010100000000000000000000000000000071ffda0008010100013f" +
	"21b5ad6fffda00080101000000100fffc4001610000300000000000000000000000000000011f0ffda0008010100013f10b65b2d96cfffd9"

// TestScansOfJPEG: a picture of more scans than any has is given up, however small its file is.
func TestScansOfJPEG(t *testing.T) {
	data, err := hex.DecodeString(progressiveJPEG)
	if err != nil {
		t.Fatal(err)
	}
	refining := data[244:255] // one bit more of each block's mean
	for scans, want := range map[int]string{50: "<nil>", 250: "a JPEG that is damaged or cut short"} {
		_, err := decode(bytes.NewReader(slices.Concat(data[:len(data)-2], bytes.Repeat(refining, scans), []byte{0xff, 0xd9})))
		if fmt.Sprint(err) != want {
			t.Errorf("%d scans: %v; want %s", scans, err, want)
		}
	}
}

// Three WebP files of 3 x 2 pixels, written by ImageMagick: lossless, lossy, lossy with a mask.
var webpFiles = []string{
	"5249464620000000574542505650384c13000000" +
		"2f024000000f10f3bffff31f0e6e7010d1ff1000",
	"524946464600000057454250565038203a0000009001009d012a0300020002c04c25a80274ba00" +
		"039800feee44dfbc864bfa921b349c3455f36933bffd98935fb8bfeb43ffd3126bf717ea800000",
	"524946465a00000057454250565038580a00000010000000020000010000414c504807000000007f7f7f7f7f7f00565038" +
		"202c0000009001009d012a0300020002c04c25a00274ba00039800feee431fee6c738b7057ff6d0fff5a1ffeb43fe94000",
}

// FuzzPicture: whatever a file holds, it has a size that is kept or one line that says why not.
func FuzzPicture(f *testing.F) {
	m := image.NewNRGBA(image.Rect(0, 0, 17, 9))
	for i := range m.Pix {
		m.Pix[i] = byte(i * 7)
	}
	var plain, photo bytes.Buffer
	if err := png.Encode(&plain, m); err != nil {
		f.Fatal(err)
	}
	if err := jpeg.Encode(&photo, m, nil); err != nil {
		f.Fatal(err)
	}
	turned := "\xff\xd8\xff\xe1\x00\x22Exif\x00\x00II*\x00\x08\x00\x00\x00" +
		"\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"
	f.Add(plain.Bytes())
	f.Add(photo.Bytes())
	f.Add([]byte(turned + photo.String()[2:]))
	for _, s := range append(webpFiles, progressiveJPEG) {
		data, err := hex.DecodeString(s)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := readHeader(bytes.NewReader(data))
		if err == nil && (min(h.Width, h.Height) < 1 || max(h.Width, h.Height) > MaxSide || h.Orientation < 1 || h.Orientation > 8) {
			t.Fatalf("%+v", h)
		}
		if err == nil && h.Width*h.Height < 1e5 {
			pixels, failed := decode(bytes.NewReader(data))
			if err = failed; err == nil && pixels.Rect.Size() != image.Pt(h.Width, h.Height) {
				t.Fatalf("%v; the header says %+v", pixels.Rect, h)
			}
		}
		if err != nil && strings.ContainsAny(err.Error(), "\n\x00") {
			t.Fatalf("%q", err)
		}
	})
}

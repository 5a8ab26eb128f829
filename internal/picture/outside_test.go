package picture_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/picture"
)

// slope is a picture whose corners all differ, smooth enough that no codec changes it much.
func slope(width, height int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			m.SetNRGBA(x, y, color.NRGBA{R: uint8(250 * x / width), G: uint8(250 * y / height), B: uint8(250 * x * y / width / height), A: 255})
		}
	}
	return m
}

func pngBytes(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// orientations are ImageMagick's names of EXIF's orientations 1 to 8.
var orientations = strings.Fields("TopLeft TopRight BottomRight BottomLeft LeftTop RightTop RightBottom LeftBottom")

// TestOrientationsAsOthersSeeThem: pictures with EXIF by exiftool, a JPEG and a PNG, and a WebP by ImageMagick, in all eight orientations.
// Upright they are what ImageMagick makes of them; focal length and size are read alike.
func TestOrientationsAsOthersSeeThem(t *testing.T) {
	t.Parallel()
	outside.Need(t, "convert", "exiftool")
	const width, height = 61, 40
	base := outside.File(t, "base.png", pngBytes(t, slope(width, height)))
	dir := filepath.Dir(base)
	outside.Run(t, "convert", base, "-quality", "95", "-sampling-factor", "1x1", filepath.Join(dir, "base.jpg"))
	var tag, upright, webp []string
	for i, name := range orientations {
		for _, ending := range []string{"png", "jpg"} {
			tag = append(tag, "-n", fmt.Sprintf("-Orientation=%d", i+1), "-FocalLengthIn35mmFormat=85", "-GPSLatitude=48.5", "-o",
				fmt.Sprintf("%s/%d.%s", dir, i+1, ending), dir+"/base."+ending, "-execute")
		}
		file := fmt.Sprintf("%s/%d", dir, i+1)
		upright = append(upright, "(", "-clone", "0", "-orient", name, "-auto-orient", "-write", "rgb:"+file+".rgb", "+delete", ")")
		webp = append(webp, "(", file+".jpg", "-define", "webp:lossless=true", "-write", file+".webp", ")")
	}
	outside.Run(t, "exiftool", append([]string{"-q", "-q"}, tag[:len(tag)-1]...)...)
	outside.Run(t, "convert", append(append([]string{base, "-depth", "8"}, upright...), "null:")...)
	outside.Run(t, "convert", append(webp, "null:")...)
	for i := range orientations {
		want, err := os.ReadFile(fmt.Sprintf("%s/%d.rgb", dir, i+1))
		if err != nil {
			t.Fatal(err)
		}
		for ending, format := range map[string]string{"png": "PNG", "jpg": "JPEG", "webp": "WebP"} {
			path := fmt.Sprintf("%s/%d.%s", dir, i+1, ending)
			h, err := picture.Open(path)
			size := image.Pt(width, height)
			if i >= 4 {
				size = image.Pt(height, width)
			}
			if err != nil || h.Format != format || h.Width != size.X || h.Height != size.Y || h.Orientation != i+1 || h.Focal != 85 {
				t.Errorf("%d.%s: %+v, %v", i+1, ending, h, err)
				continue
			}
			pixels, err := picture.Decode(path)
			if err != nil || pixels.Rect.Size() != size {
				t.Errorf("%s: decoded %v", path, err)
				continue
			}
			const tolerance = 8 // levels, of a channel of any pixel; the slope has a step of 4 to 6
			if worst := furthest(pixels, want); worst > tolerance {
				t.Errorf("%d.%s: a pixel is %d levels from ImageMagick's", i+1, ending, worst)
			}
		}
	}
}

// furthest returns the largest difference of a level between a picture and rows of red, green, blue.
func furthest(m *image.RGBA, rgb []byte) int {
	worst := 0
	for i := range len(m.Pix) {
		if i%4 < 3 {
			worst = max(worst, abs(int(m.Pix[i])-int(rgb[i/4*3+i%4])))
		}
	}
	return worst
}

func abs(v int) int { return max(v, -v) }

// TestFocalLengthFromTheSensor: 50 mm on a sensor 22.2 mm wide, as its pixels say; not known of a picture that was made smaller, nor if 0.
func TestFocalLengthFromTheSensor(t *testing.T) {
	t.Parallel()
	outside.Need(t, "exiftool")
	base := outside.File(t, "base.png", pngBytes(t, slope(90, 60)))
	dir := filepath.Dir(base)
	sensor := []string{"-FocalLength=50", "-FocalPlaneXResolution=102.97", "-FocalPlaneResolutionUnit=2"} // pixels an inch
	var args []string
	for _, c := range [][]string{
		append(sensor, "-ExifImageWidth=90", "-o", dir+"/whole.png"), append(sensor, "-ExifImageWidth=180", "-o", dir+"/half.png"),
		{"-FocalLengthIn35mmFormat=0", "-o", dir + "/zero.png"}, {"-Orientation=9", "-FocalLengthIn35mmFormat=5000", "-o", dir + "/wrong.png"},
	} {
		args = append(append(args, "-n"), append(c, base, "-execute")...)
	}
	outside.Run(t, "exiftool", append([]string{"-q", "-q"}, args[:len(args)-1]...)...)
	// CALC: the diagonal is that of 22.2 x 14.8 mm, 26.68 mm; 50 mm · 43.267 ÷ 26.68 = 81.1 mm.
	for name, want := range map[string]float64{"whole": 81.1, "half": 0, "zero": 0, "wrong": 0} {
		if h, err := picture.Open(dir + "/" + name + ".png"); err != nil || h.Focal != want || h.Orientation != 1 {
			t.Errorf("%s: %+v, %v; want a focal length of %v", name, h, err, want)
		}
	}
}

package render_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/picture"
	"hubrule/render"
	"hubrule/render/png"
)

// waves is a picture of a size without any symmetry, in waves that any program shows alike.
func waves(width, height int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			u, v := float64(x)/float64(width), float64(y)/float64(height)
			level := func(f float64) uint8 { return uint8(128 + 100*math.Sin(f)) }
			m.SetRGBA(x, y, color.RGBA{R: level(9*u + 3*v), G: level(14*v*u + 2*u), B: level(5*v - 4*u), A: 255})
		}
	}
	return m
}

// photographed is a page with a picture under a line, in a place between pixels.
func photographed(pixels *image.RGBA) render.Page {
	box := boxOf(20.3, 15.7, 140.24, 95.81)
	return render.Page{Width: 160, Height: 120, Title: "photo", Guides: []render.Guide{{Name: "photo"}, {Name: "belt"}}, Marks: []render.Mark{
		&render.Picture{Tagged: render.Tagged{Guide: "photo", ID: "photo"}, Box: box, Pixels: pixels},
		&render.Stroke{Tagged: render.Tagged{Guide: "belt"}, Pen: render.Pen{Width: .5}, Path: render.Path{}.Move(box.Min).Line(box.Max)},
	}}
}

// with changes the picture of a page.
func with(p render.Page, change func(*render.Picture)) render.Page {
	m := *p.Marks[0].(*render.Picture)
	change(&m)
	p.Marks = append([]render.Mark{&m}, p.Marks[1:]...)
	return p
}

// TestPictureInFiles: SVG and PDF put the picture into the same box, under the line, without a transform in the SVG; its pixels are as
// many as it has, or as the paper shows.
func TestPictureInFiles(t *testing.T) {
	for _, c := range []struct{ width, height, wantWidth, wantHeight int }{{300, 200, 300, 200}, {3000, 500, 1417, 500}} {
		page := photographed(waves(c.width, c.height))
		elements := readSVG(t, svgOf(t, page))
		i := slices.IndexFunc(elements, func(e element) bool { return e.name == "image" })
		a := elements[i].attributes
		if got := strings.Join([]string{a["id"], a["x"], a["y"], a["width"], a["height"], a["preserveAspectRatio"], a["transform"]}, " "); got !=
			"photo 20.3 15.7 119.94 80.11 none " || elements[i-2].attributes["id"] != "guide-photo" {
			t.Errorf("the SVG has %s in %v", got, elements[i-2])
		}
		data := pdfOf(t, page, page)
		if content := pdfPages(t, data)[0]; !strings.Contains(content, "\nq 119.94 0 0 -80.11 20.3 95.81 cm\n/Picture1 Do Q\n") {
			t.Errorf("the PDF draws %q", content)
		}
		size := regexp.MustCompile(`/Subtype/Image/Width (\d+)/Height (\d+)/`).FindAllSubmatch(data, -1)
		if len(size) != 1 || fmt.Sprintf("%s %s", size[0][1], size[0][2]) != fmt.Sprint(c.wantWidth, c.wantHeight) {
			t.Errorf("the PDF has pictures of %q; want one of %d x %d", size, c.wantWidth, c.wantHeight)
		}
	}
}

// TestPicturesAreHeldOnce: however many pages and bases show a picture, a document has it once in each form.
func TestPicturesAreHeldOnce(t *testing.T) {
	pixels := waves(60, 40)
	page := photographed(pixels)
	base := page
	based := render.Page{Width: 160, Height: 120, Title: "based", Guides: page.Guides, Base: &base, Marks: photographed(waves(60, 40)).Marks}
	data := pdfOf(t, page, photographed(pixels), with(page, func(p *render.Picture) { p.Fade = .5 }), based)
	if n := bytes.Count(data, []byte("/Subtype/Image")); n != 3 {
		t.Errorf("%d pictures; want one, another lightened, and that of other pixels", n)
	}
	if !bytes.Equal(pdfOf(t, page), pdfOf(t, photographed(waves(60, 40)))) {
		t.Error("two PDFs of one picture differ")
	}
	outside.Need(t, "qpdf")
	outside.Run(t, "qpdf", "--check", outside.File(t, "photo.pdf", data))
}

// colourful draws a page by another program.
func colourful(t *testing.T, page render.Page, dpi int, program string) image.Image {
	t.Helper()
	if program == "librsvg" {
		d := fmt.Sprint(dpi)
		return decoded(t, outside.Run(t, "rsvg-convert", "-d", d, "-p", d, "-b", "white", outside.File(t, "page.svg", svgOf(t, page))))
	}
	path := outside.File(t, "page.pdf", pdfOf(t, page))
	outside.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-singlefile", "-png", path, path)
	data, err := os.ReadFile(path + ".png")
	if err != nil {
		t.Fatal(err)
	}
	return decoded(t, data)
}

// difference returns the mean difference of a channel of two images in an area, in levels.
func difference(a, b image.Image, area image.Rectangle) float64 {
	sum := 0.
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			r, g, b1, _ := a.At(x, y).RGBA()
			u, v, w, _ := b.At(x, y).RGBA()
			for _, d := range []float64{float64(r) - float64(u), float64(g) - float64(v), float64(b1) - float64(w)} {
				sum += math.Abs(d) / 257 / 3
			}
		}
	}
	return sum / float64(area.Dx()*area.Dy())
}

// TestPicturesLookAlike: what poppler shows of the PDF and librsvg of the SVG is what our own image has, enlarged and shrunk, mirrored and
// lightened, whole and through a window; and not what it has mirrored.
func TestPicturesLookAlike(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	small, large := photographed(waves(90, 60)), photographed(waves(1200, 500))
	window := boxOf(40, 30, 120, 80)
	cut := with(large, func(p *render.Picture) { p.Fade = .4 })
	cut.Clip = &window
	for name, page := range map[string]render.Page{
		"enlarged": small, "shrunk and mirrored": with(large, func(p *render.Picture) { p.Mirrored = true }), "lightened, through a window": cut,
	} {
		const dpi = 60
		ours := decoded(t, pngOf(t, page, png.Options{DPI: dpi}))
		turned := decoded(t, pngOf(t, with(page, func(p *render.Picture) { p.Mirrored = !p.Mirrored }), png.Options{DPI: dpi}))
		for _, program := range []string{"poppler", "librsvg"} {
			const tolerance = 3 // levels: others move the edges of a picture to whole pixels
			theirs := colourful(t, page, dpi, program)
			if d := difference(ours, theirs, ours.Bounds()); d > tolerance {
				t.Errorf("%s, %s: %.2f levels apart", name, program, d)
			}
			if d := difference(turned, theirs, ours.Bounds()); d < 2*tolerance {
				t.Errorf("%s, %s: mirrored it is only %.2f levels apart", name, program, d)
			}
		}
	}
}

// TestPictureKeepsColours: one colour stays that colour up to the picture's edge, is laid there in proportion, and is lightened in
// proportion; a picture as large as its image is its image; far beside the page there is none.
func TestPictureKeepsColours(t *testing.T) {
	plain := image.NewRGBA(image.Rect(0, 0, 7, 3))
	for i := range plain.Pix {
		plain.Pix[i] = []byte{10, 110, 210, 255}[i%4]
	}
	page := render.Page{Width: 40, Height: 30, Guides: []render.Guide{{Name: "photo"}}, Marks: []render.Mark{
		&render.Picture{Tagged: render.Tagged{Guide: "photo"}, Box: boxOf(-5, 10.5, 20.25, 20), Pixels: plain}}}
	o := png.Options{DPI: 25.4 * 2} // two pixels a millimetre
	img := decoded(t, pngOf(t, page, o))
	light := decoded(t, pngOf(t, with(page, func(p *render.Picture) { p.Fade = .5 }), o))
	for _, c := range []struct {
		img  image.Image
		x, y int
		want color.RGBA
	}{
		{img, 0, 21, color.RGBA{10, 110, 210, 255}}, {img, 39, 39, color.RGBA{10, 110, 210, 255}}, {img, 40, 30, color.RGBA{132, 182, 232, 255}},
		{img, 41, 30, color.RGBA{255, 255, 255, 255}}, {img, 0, 20, color.RGBA{255, 255, 255, 255}},
		{light, 5, 25, color.RGBA{132, 182, 232, 255}},
	} {
		if got := color.RGBAModel.Convert(c.img.At(c.x, c.y)); got != c.want {
			t.Errorf("pixel %d, %d is %v; want %v", c.x, c.y, got, c.want)
		}
	}
	same := waves(80, 60)
	for i, box := range []render.Box{boxOf(0, 0, 40, 30), boxOf(-5e5, -30, -50, -1), boxOf(900, 10, 1e6, 20), boxOf(-1e6, -1e6, 1e6, 1e6)} {
		img = decoded(t, pngOf(t, with(page, func(p *render.Picture) { p.Pixels, p.Box = same, box }), o))
		want := color.Color([]color.RGBA{same.RGBAAt(13, 7), {255, 255, 255, 255}, {255, 255, 255, 255}, same.RGBAAt(40, 30)}[i])
		if got := color.RGBAModel.Convert(img.At(13, 7)); i < 3 && got != want {
			t.Errorf("%v: %v; want %v", box, got, want)
		}
	}
}

// TestNothingOfAPhotographsFile: place, camera and words of the file are in none of ours, and neither are its bytes.
func TestNothingOfAPhotographsFile(t *testing.T) {
	t.Parallel()
	outside.Need(t, "exiftool")
	var b bytes.Buffer
	if err := jpeg.Encode(&b, waves(90, 60), nil); err != nil {
		t.Fatal(err)
	}
	path := outside.File(t, "side.jpg", b.Bytes())
	outside.Run(t, "exiftool", "-q", "-overwrite_original", "-n", "-Orientation=3",
		"-GPSLatitude=48.137", "-GPSLatitudeRef=N", "-Model=Plantedcam",
		"-ImageDescription=Plantedwords", "-XMP:City=Plantedtown", "-Comment=Plantedcomment", path)
	if out := string(outside.Run(t, "exiftool", path)); strings.Count(out, "Planted") != 4 || !strings.Contains(out, "GPS Latitude") {
		t.Fatalf("exiftool has not planted everything:\n%s", out)
	}
	pixels, err := picture.Decode(path)
	if err != nil {
		t.Fatal(err)
	}
	page := photographed(pixels)
	inside, _, _ := page.Marks[0].(*render.Picture).JPEG()
	var files []string
	for name, data := range map[string][]byte{
		"sheet.svg": svgOf(t, page), "sheet.pdf": pdfOf(t, page), "sheet.png": pngOf(t, page, png.Options{DPI: 60}), "picture.jpg": inside,
	} {
		files = append(files, outside.File(t, name, data))
		if bytes.Contains(data, []byte("Exif")) || bytes.Contains(data, []byte("Planted")) {
			t.Errorf("%s has metadata", name)
		}
	}
	if said := string(outside.Run(t, "exiftool", files...)); strings.Contains(said, "Planted") || strings.Contains(said, "GPS") {
		t.Errorf("the files say %s", said)
	}
}

// TestNoisyPicturesStaySmall: a picture of nothing but noise is held in coarser steps, so that programs open the SVG.
func TestNoisyPicturesStaySmall(t *testing.T) {
	noise := image.NewRGBA(image.Rect(0, 0, 2600, 2300))
	state := uint32(1)
	for i := range noise.Pix {
		state = state*1664525 + 1013904223
		noise.Pix[i] = byte(state >> 24)
	}
	p := &render.Picture{Box: boxOf(0, 0, geom.MM(400), 300), Pixels: noise}
	if data, _, _ := p.JPEG(); len(data) > 7<<20 || len(data) < 3<<20 {
		t.Errorf("%d bytes", len(data))
	}
}

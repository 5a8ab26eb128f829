package png_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	_ "image/png" // a second decoder
	"io"
	"math"
	"runtime"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/png"
)

func pngOf(t testing.TB, p render.Page, o png.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Write(&b, p, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// decoded reads a picture with Go's own decoder, which also checks every chunk's sum.
func decoded(t testing.TB, data []byte) image.Image {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// chunks returns the names of a PNG's chunks in order, and what each but the picture data holds.
func chunks(data []byte) (names []string, bodies map[string][]byte) {
	bodies = map[string][]byte{}
	for data = data[8:]; len(data) > 0; {
		n, name := binary.BigEndian.Uint32(data), string(data[4:8])
		names, bodies[name] = append(names, name), data[8:8+n]
		data = data[12+n:]
	}
	return names, bodies
}

// TestPNGSizeAndResolution: the sizes of ISO 216 at 25.4 mm an inch, and pixels a metre, all CALC.
func TestPNGSizeAndResolution(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		width, height geom.MM
		dpi           float64
		want          image.Point
		perMetre      uint32
	}{
		{420, 297, 300, image.Pt(4961, 3508), 11811},
		{297, 210, 300, image.Pt(3508, 2480), 11811},
		{210, 297, 150, image.Pt(1240, 1754), 5906},
		{139.7, 107.95, 600, image.Pt(3300, 2550), 23622},
		{420, 297, 30, image.Pt(496, 351), 1181},
		{420, 297, 72.5, image.Pt(1199, 848), 2854},
	} {
		page := testpage.Sample()
		page.Width, page.Height = tt.width, tt.height
		data := pngOf(t, page, png.Options{DPI: tt.dpi})
		if got := decoded(t, data).Bounds(); got != (image.Rectangle{Max: tt.want}) {
			t.Errorf("%v x %v mm at %v dpi: %v, want %v", tt.width, tt.height, tt.dpi, got, tt.want)
		}
		names, bodies := chunks(data)
		if got := strings.Join(names, " "); !strings.HasPrefix(got, "IHDR sRGB pHYs IDAT") || !strings.HasSuffix(got, "IDAT IEND") {
			t.Errorf("chunks %s", got)
		}
		want := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, tt.perMetre), tt.perMetre)
		if got := bodies["pHYs"]; !bytes.Equal(got, append(want, 1)) {
			t.Errorf("%v dpi: pHYs %v, want %d pixels a metre", tt.dpi, got, tt.perMetre)
		}
	}
}

// TestPNGAlpha: without paper only marks cover; laid on white they are the picture with paper, to a level or two of 255.
func TestPNGAlpha(t *testing.T) {
	t.Parallel()
	const dpi = 150
	white := decoded(t, pngOf(t, testpage.Sample(), png.Options{DPI: dpi}))
	clear, ok := decoded(t, pngOf(t, testpage.Sample(), png.Options{DPI: dpi, Transparent: true})).(*image.NRGBA)
	if !ok {
		t.Fatal("no alpha in the transparent picture")
	}
	at := func(x, y float64) (int, int) { return int(x * dpi / 25.4), int(y * dpi / 25.4) }
	for _, tt := range []struct {
		what string
		x, y float64
		want color.NRGBA
	}{
		{"nothing", 150, 250, color.NRGBA{}},
		{"the red disc", 60, 60, color.NRGBA{0xb2, 0x3c, 0x22, 0xff}},
		{"the wash of the ring", 255, 65, color.NRGBA{0xf7, 0xe8, 0xe3, 0xff}},
		{"the ring's hole", 275, 80, color.NRGBA{}},
		{"the ground", 50, 200, color.NRGBA{0x1f, 0x25, 0x2b, 0xff}},
		{"inside the front wheel", 100, 177, color.NRGBA{}},
	} {
		x, y := at(tt.x, tt.y)
		if got := clear.NRGBAAt(x, y); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.what, got, tt.want)
		}
	}
	for y := range clear.Rect.Max.Y {
		for x := range clear.Rect.Max.X {
			c := clear.NRGBAAt(x, y)
			r, _, b, a := white.At(x, y).RGBA()
			on := func(v uint8) float64 { return (float64(v)*float64(c.A) + 255*(255-float64(c.A))) / 255 }
			if math.Abs(on(c.R)-float64(r>>8)) > 2 || math.Abs(on(c.B)-float64(b>>8)) > 2 || a != 0xffff {
				t.Fatalf("at %d, %d: %v on white, but %v with paper", x, y, c, white.At(x, y))
			}
		}
	}
}

// TestPNGDoublesToo: twice as large at half the resolution is the same picture, but for the rounding of lengths in files.
func TestPNGDoublesToo(t *testing.T) {
	t.Parallel()
	one, two := decoded(t, pngOf(t, testpage.Sample(), png.Options{DPI: 300})), decoded(t, pngOf(t, testpage.Doubled(testpage.Sample()), png.Options{DPI: 150}))
	sum, most := 0., 0.
	red := one.(*image.RGBA).Pix
	for i := 0; i < len(red); i += 4 {
		d := math.Abs(float64(red[i]) - float64(two.(*image.RGBA).Pix[i]))
		sum, most = sum+d, max(most, d)
	}
	// Half a micrometre is a hundredth of a pixel: at most a few levels at an edge.
	if mean := sum / float64(one.Bounds().Dx()*one.Bounds().Dy()); mean > 0.001 || most > 12 {
		t.Errorf("pictures differ by %.5f levels on average, %.0f at most", mean, most)
	}
}

// TestPNGLeavesOutEmptyArcs: as in SVG and PDF, an arc to where it starts draws nothing.
func TestPNGLeavesOutEmptyArcs(t *testing.T) {
	at := render.Point{X: 60, Y: 60}
	draw := func(p render.Path) []byte {
		page := testpage.Sample()
		page.Marks = []render.Mark{&render.Stroke{Tagged: render.Tagged{Guide: "belt"}, Path: p.Line(render.Point{X: 70, Y: 60}), Pen: render.Pen{Width: 0.5}}}
		return pngOf(t, page, png.Options{DPI: 150})
	}
	with := draw(render.Path{}.Move(at).Arc(20, false, true, at).Arc(20, true, false, render.Point{X: 60, Y: 60.0001}))
	if !bytes.Equal(with, draw(render.Path{}.Move(at))) {
		t.Error("an arc to where it starts is drawn")
	}
}

func TestPNGSameBytesAgain(t *testing.T) {
	t.Parallel()
	for _, o := range []png.Options{{DPI: 300}, {DPI: 100, Transparent: true}} {
		if !bytes.Equal(pngOf(t, testpage.Sample(), o), pngOf(t, testpage.Sample(), o)) {
			t.Errorf("two pictures of one page differ: %+v", o)
		}
	}
}

// TestPNGOnEveryMachine: the bytes are those noted here, which programs built for amd64 (v1, v3) and arm64 wrote alike.
// They may change with the drawing, the packer or the rasteriser; then both kinds of machine have to be asked again.
func TestPNGOnEveryMachine(t *testing.T) {
	for name, tt := range map[string]struct {
		page render.Page
		o    png.Options
		want string
	}{
		"sample": {testpage.Sample(), png.Options{DPI: 90}, "82206b255d5509bdcf2392a160d2d58955c6431827b7ab215b56965b88815f7d"},
		"hard":   {testpage.Hard(), png.Options{DPI: 110, Transparent: true}, "53b8a6f04ac4db8f35ee60e61092c86d41a18f1e0ca694300019858df32ffce8"},
	} {
		if got := fmt.Sprintf("%x", sha256.Sum256(pngOf(t, tt.page, tt.o))); got != tt.want {
			t.Errorf("%s: SHA-256 %s, want %s", name, got, tt.want)
		}
	}
}

func TestPicturesThatCannotBeDrawn(t *testing.T) {
	t.Parallel()
	page := render.Page{Width: 420, Height: 297, Title: "p"}
	large := render.Page{Width: 2400, Height: 2400, Title: "p"}
	for _, tt := range []struct {
		page render.Page
		dpi  float64
		want string
	}{
		{page, 29.9, `page "p": 29.9 dpi; want 30 to 1200`},
		{page, 1201, `page "p": 1201 dpi; want 30 to 1200`},
		{page, 0, `page "p": 0 dpi; want 30 to 1200`},
		{page, math.NaN(), `page "p": NaN dpi; want 30 to 1200`},
		{render.Page{Title: "p", Height: 1}, 300, `page "p": size 0 x 1 mm`},
		{large, 1200, `page "p": 113386 x 113386 pixels at 1200 dpi are more than programs open; this paper goes up to 366 dpi`},
	} {
		if err := png.Write(io.Discard, tt.page, png.Options{DPI: tt.dpi}); err == nil || err.Error() != tt.want {
			t.Errorf("got %v, want %s", err, tt.want)
		}
	}
	size := len(pngOf(t, testpage.Sample(), png.Options{DPI: 150}))
	for _, room := range []int{0, 1, 40, 70_000, size - 1} {
		if err := png.Write(&testpage.FullDisk{Room: room}, testpage.Sample(), png.Options{DPI: 150}); !errors.Is(err, testpage.ErrFull) {
			t.Errorf("with room for %d bytes of %d: %v", room, size, err)
		}
	}
	if err := png.Write(&testpage.FullDisk{Room: size}, testpage.Sample(), png.Options{DPI: 150}); err != nil {
		t.Errorf("with just enough room: %v", err)
	}
}

// TestPNGMemory: everything that is ever allocated for a picture of A1 is a fraction of the picture's own 209 MB.
func TestPNGMemory(t *testing.T) {
	page := testpage.Busy()
	page.Width, page.Height = 841, 594 // A1 (ISO 216)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if err := png.Write(io.Discard, page, png.Options{DPI: 300}); err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	const bound = 32 << 20
	if used := after.TotalAlloc - before.TotalAlloc; used > bound {
		t.Errorf("%d bytes were allocated, want at most %d", used, bound)
	} else {
		t.Log(fmt.Sprint(used>>20, " MiB"))
	}
}

// A picture's texts stand before its pixels: as Latin-1 where that has their letters, else as UTF-8, each with its checksum.
func TestPNGTexts(t *testing.T) {
	for _, tt := range []struct{ author, chunk, body string }{
		{"Zoë", "tEXt", "Author\x00Zo\xeb"},
		{"Zdeněk", "iTXt", "Author\x00\x00\x00\x00\x00Zdeněk"},
	} {
		page := testpage.Sample()
		page.About = render.About{Author: tt.author, Program: "hubrule 1 <&>", Job: "kind: brief\n"}
		var b bytes.Buffer
		if err := png.Write(&b, page, png.Options{DPI: 50}); err != nil {
			t.Fatal(err)
		}
		found, order := false, ""
		for data := b.Bytes()[8:]; len(data) > 0; {
			n := binary.BigEndian.Uint32(data)
			name, body := string(data[4:8]), data[8:8+n]
			if sum := binary.BigEndian.Uint32(data[8+n:]); sum != crc32.ChecksumIEEE(data[4:8+n]) {
				t.Errorf("%s: wrong checksum", name)
			}
			order += name + " "
			found = found || name == tt.chunk && string(body) == tt.body
			data = data[12+n:]
		}
		if !found {
			t.Errorf("%s: no %s with %q", tt.author, tt.chunk, tt.body)
		}
		if before, _, _ := strings.Cut(order, "IDAT"); strings.Count(before, "EXt")+strings.Count(before, "TXt") != 4 {
			t.Errorf("%s: chunks %s; want four texts before the pixels", tt.author, order)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, dpi := range []float64{150, 300, 600} {
		b.Run(fmt.Sprint(dpi, "dpi"), func(b *testing.B) {
			page := testpage.Busy()
			b.ReportAllocs()
			for b.Loop() {
				if err := png.Write(io.Discard, page, png.Options{DPI: dpi}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

package render_test

import (
	"image"
	"image/color"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/png"
)

// windowed is the sample seen through a window, but for its words, which stand outside it.
func windowed(window render.Box) render.Page {
	page := testpage.Sample()
	page.Clip = &window
	page.Guides = slices.Clone(page.Guides)
	for i := range page.Guides {
		page.Guides[i].Unclipped = page.Guides[i].Name == "labels"
	}
	return page
}

func boxOf(left, top, right, bottom geom.MM) render.Box {
	return render.Box{Min: render.Point{X: left, Y: top}, Max: render.Point{X: right, Y: bottom}}
}

// TestWindowInFiles: SVG and PDF cut the same layers to the same rectangle, and the pen outlives it.
func TestWindowInFiles(t *testing.T) {
	page := windowed(boxOf(60.25, 50, 280, 190.125))
	var cut []string
	elements := readSVG(t, svgOf(t, page))
	for i, e := range elements {
		switch e.name {
		case "clipPath":
			rect := elements[i+1].attributes
			if got := []string{e.attributes["id"], rect["x"], rect["y"], rect["width"], rect["height"]}; !slices.Equal(got, []string{"window", "60.250", "50.000", "219.750", "140.125"}) {
				t.Errorf("the window is %v", got)
			}
		case "g":
			if e.attributes["clip-path"] == "url(#window)" {
				cut = append(cut, e.attributes["id"])
			}
		}
	}
	if want := []string{"guide-ground", "guide-wheels", "guide-belt"}; !slices.Equal(cut, want) {
		t.Errorf("cut are %v, want %v", cut, want)
	}
	content := pdfPages(t, pdfOf(t, page))[0]
	depth, windows, wordsInside := 0, 0, 0
	for _, op := range pdfOperations(content) {
		switch op.name {
		case "q":
			depth++
		case "Q":
			depth--
		case "re":
			windows++
			if got := strings.Join(op.operands, " "); got != "60.25 50 219.75 140.125" || depth != 1 {
				t.Errorf("the window is %s at depth %d", got, depth)
			}
		case "BT":
			wordsInside += depth
		}
	}
	if depth != 0 || windows != 3 || wordsInside != 0 {
		t.Errorf("%d windows, %d left open, %d words cut", windows, depth, wordsInside)
	}
	if err := page.Check(); err != nil {
		t.Error(err)
	}
}

// TestWindowOnPictures: poppler and librsvg see the same through the window as our own picture shows.
func TestWindowOnPictures(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	page := windowed(boxOf(60.3, 50.1, 280.77, 190.4))
	ours := readPNG(t, pngOf(t, page, png.Options{DPI: 100}), 100)
	checkAlike(t, "poppler", ours, poppler(t, pdfOf(t, page), 100))
	checkAlike(t, "librsvg", ours, librsvg(t, svgOf(t, page), 100))
}

// TestWindowCutsExactly: inside, the picture is the one without a window; outside there is paper; on its edge a pixel is
// covered by as much as lies inside.
func TestWindowCutsExactly(t *testing.T) {
	ink := render.Colour{}
	area := render.Path{}.Move(render.Point{X: -5, Y: -5}).Line(render.Point{X: 200, Y: -5}).Line(render.Point{X: 200, Y: 200}).Line(render.Point{X: -5, Y: 200}).Close()
	page := render.Page{Width: 100, Height: 80, Title: "cut", Guides: []render.Guide{{Name: "a"}}, Marks: []render.Mark{
		&render.Fill{Tagged: render.Tagged{Guide: "a"}, Path: area, Ink: ink}}}
	window := boxOf(10.25, 20.5, 70.75, 60)
	page.Clip = &window
	img := decoded(t, pngOf(t, page, png.Options{DPI: 25.4 * 2})) // two pixels a millimetre
	grey := func(x, y int) uint8 { return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y }
	for _, tt := range []struct {
		x, y int
		want uint8
	}{{19, 50, 255}, {20, 50, 127}, {21, 50, 0}, {60, 40, 255}, {60, 41, 0}, {60, 119, 0}, {60, 120, 255}, {141, 50, 127}, {142, 50, 255}, {140, 119, 0}} {
		if got := grey(tt.x, tt.y); got != tt.want {
			t.Errorf("pixel %d, %d is %d, want %d", tt.x, tt.y, got, tt.want)
		}
	}
	whole, cut := testpage.Sample(), windowed(boxOf(63.5, 50.8, 279.4, 190.5))
	o := png.Options{DPI: 100} // the window's edges lie between pixels
	a, b := decoded(t, pngOf(t, whole, o)), decoded(t, pngOf(t, cut, o))
	inside := image.Rect(250, 200, 1100, 750)
	for y := range a.Bounds().Max.Y {
		for x := range a.Bounds().Max.X {
			if image.Pt(x, y).In(inside) && a.At(x, y) != b.At(x, y) {
				t.Fatalf("pixel %d, %d inside is %v, without a window %v", x, y, b.At(x, y), a.At(x, y))
			}
		}
	}
}

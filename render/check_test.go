package render_test

import (
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/render/svg"
)

func TestWhatCannotBeWritten(t *testing.T) {
	nan, inf := geom.MM(math.NaN()), geom.MM(math.Inf(1))
	belt := render.Tagged{Guide: "belt", ID: "belt"}
	line := func(x geom.MM) render.Path {
		return render.Path{}.Move(render.Point{X: 1, Y: 2}).Line(render.Point{X: x, Y: 4})
	}
	words := func(text string, height geom.MM) render.Mark {
		return &render.Text{Tagged: belt, Spans: []render.Span{{Text: text, Height: height, Weight: render.Regular}}}
	}
	tests := []struct {
		name  string
		marks []render.Mark
		want  string
	}{
		{"no number", []render.Mark{&render.Stroke{Tagged: belt, Path: line(nan)}},
			`page "p": mark 1 "belt" of layer "belt": step 2 of the path is not on any paper`},
		{"infinite control point", []render.Mark{&render.Fill{Tagged: belt, Path: line(3).Curve(render.Point{X: inf}, render.Point{}, render.Point{})}},
			`page "p": mark 1 "belt" of layer "belt": step 3 of the path is not on any paper`},
		{"arc without radius", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3).Arc(0, true, true, render.Point{})}},
			`page "p": mark 1 "belt" of layer "belt": step 3 of the path is an arc of radius 0`},
		{"arc that does not reach", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3).Arc(1, false, true, render.Point{X: 8, Y: 4})}},
			`page "p": mark 1 "belt" of layer "belt": step 3 of the path is an arc of radius 1 between places 5 apart`},
		{"arc that does not reach from a shut run's start", []render.Mark{&render.Fill{Tagged: belt, Path: line(3).Close().Arc(1, false, true, render.Point{X: 1, Y: 6})}},
			`page "p": mark 1 "belt" of layer "belt": step 4 of the path is an arc of radius 1 between places 4 apart`},
		{"path that starts with a line", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3)[1:]}},
			`page "p": mark 1 "belt" of layer "belt": a path of 1 steps; want a move and at least one step more`},
		{"circle", []render.Mark{&render.Circle{Tagged: belt, R: -1}},
			`page "p": mark 1 "belt" of layer "belt": circle round 0, 0 of radius -1`},
		{"width", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3), Pen: render.Pen{Width: -0.1}}},
			`page "p": mark 1 "belt" of layer "belt": line width -0.1`},
		{"one dash", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3), Pen: render.Pen{Width: 1, Dash: []float64{3}}}},
			`page "p": mark 1 "belt" of layer "belt": dashes [3] of a line 1 wide`},
		{"dashes of nothing", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3), Pen: render.Pen{Width: 1, Dash: []float64{0, 0}}}},
			`page "p": mark 1 "belt" of layer "belt": dashes [0 0] of a line 1 wide`},
		{"picture of no height", []render.Mark{&render.Picture{Tagged: belt, Box: boxOf(1, 2, 3, 2), Pixels: waves(2, 2)}},
			`page "p": mark 1 "belt" of layer "belt": picture from 1, 2 to 3, 2`},
		{"picture of nothing", []render.Mark{&render.Picture{Tagged: belt, Box: boxOf(1, 2, 3, 4)}},
			`page "p": mark 1 "belt" of layer "belt": picture without pixels`},
		{"picture lighter than white", []render.Mark{&render.Picture{Tagged: belt, Box: boxOf(1, 2, 3, 4), Pixels: waves(2, 2), Fade: 1.5}},
			`page "p": mark 1 "belt" of layer "belt": picture lightened by 1.5`},
		{"letters of no height", []render.Mark{words("a", 0)}, `page "p": mark 1 "belt" of layer "belt": letters 0 high`},
		{"control character", []render.Mark{words("a\tb", 2.5)}, `page "p": mark 1 "belt" of layer "belt": "a\tb": a line of words cannot hold '\t'`},
		{"layer", []render.Mark{&render.Stroke{Tagged: render.Tagged{Guide: "roof"}, Path: line(3)}},
			`page "p": mark 1 "": layer "roof" is not among the page's`},
		{"id", []render.Mark{&render.Stroke{Tagged: belt, Path: line(3)}, &render.Stroke{Tagged: belt, Path: line(4)}},
			`page "p": two marks are called "belt"`},
	}
	for _, tt := range tests {
		page := render.Page{Width: 210, Height: 148, Title: "p", Guides: []render.Guide{{Name: "belt"}}, Marks: tt.marks}
		for format, err := range map[string]error{
			"SVG": svg.Write(io.Discard, page),
			"PDF": pdf.Write(io.Discard, render.Document{Pages: []render.Page{page}}),
			"PNG": png.Write(io.Discard, page, png.Options{DPI: 300}),
		} {
			if err == nil || !strings.HasPrefix(err.Error(), tt.want) {
				t.Errorf("%s: %s: got %v, want %s", tt.name, format, err, tt.want)
			}
		}
	}
}

func TestPagesThatCannotBeWritten(t *testing.T) {
	tests := []struct {
		page render.Page
		want string
	}{
		{render.Page{Title: "p", Height: 1}, `page "p": size 0 x 1 mm`},
		{render.Page{Title: "p", Width: 1, Height: geom.MM(math.Inf(1))}, `page "p": size 1 x +Inf mm`},
		{render.Page{Title: "p", Width: 1, Height: 1, Guides: []render.Guide{{Name: "a"}, {Name: "a"}}}, `page "p": layer "a" is listed twice`},
		{render.Page{Title: "p", Width: 1, Height: 1, Clip: &render.Box{Min: render.Point{X: 1}, Max: render.Point{Y: 1}}}, `page "p": window from 1, 0 to 0, 1`},
		{render.Page{Title: "p", Width: 1, Height: 1, Clip: &render.Box{Max: render.Point{X: 1, Y: 1}}, Guides: []render.Guide{{Name: "a"}}, Marks: []render.Mark{
			&render.Circle{Tagged: render.Tagged{Guide: "a", ID: "window"}, R: 1}}}, `page "p": two marks are called "window"`},
	}
	for _, tt := range tests {
		if err := tt.page.Check(); err == nil || err.Error() != tt.want {
			t.Errorf("Check() = %v, want %s", err, tt.want)
		}
	}
	if err := pdf.Write(io.Discard, render.Document{}); err == nil || err.Error() != "a PDF needs at least one page" {
		t.Errorf("an empty document: %v", err)
	}
}

func TestWriteErrorsAreReturned(t *testing.T) {
	svgSize, pdfSize := len(svgOf(t, testpage.Sample())), len(pdfOf(t, testpage.Sample()))
	for _, room := range []int{0, 1, 5000, svgSize - 1} {
		if err := svg.Write(&testpage.FullDisk{Room: room}, testpage.Sample()); !errors.Is(err, testpage.ErrFull) {
			t.Errorf("SVG with room for %d bytes of %d: %v", room, svgSize, err)
		}
	}
	for _, room := range []int{0, 1, 5000, pdfSize - 1} {
		doc := render.Document{Title: "Sämple (1)", About: render.About{Author: "A. \\ B."}, Pages: []render.Page{testpage.Sample()}}
		if err := pdf.Write(&testpage.FullDisk{Room: room}, doc); !errors.Is(err, testpage.ErrFull) {
			t.Errorf("PDF with room for %d bytes of %d: %v", room, pdfSize, err)
		}
	}
	if err := svg.Write(&testpage.FullDisk{Room: svgSize}, testpage.Sample()); err != nil {
		t.Errorf("SVG with just enough room: %v", err)
	}
}

// TestAFullDiskEndsALongRun: a handout of thousands of pages does not go on composing for nothing.
func TestAFullDiskEndsALongRun(t *testing.T) {
	p := pdf.New(&testpage.FullDisk{Room: 100_000}, "", render.About{})
	for range 1000 {
		if err := p.AddPage(testpage.Busy()); err != nil {
			if !errors.Is(err, testpage.ErrFull) {
				t.Errorf("AddPage: %v", err)
			}
			return
		}
	}
	t.Error("1000 pages went onto a full disk")
}

type stranger struct{ render.Tagged }

func TestAStrangeMarkPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a mark of no known kind is accepted")
		}
	}()
	svg.Write(io.Discard, render.Page{Width: 1, Height: 1, Marks: []render.Mark{&stranger{}}})
}

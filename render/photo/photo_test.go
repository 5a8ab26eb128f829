package photo_test

import (
	"fmt"
	"image"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/photo"
	"hubrule/segments"
	"hubrule/segments/reading"
)

const testdata = "../../testdata/reading"

func read(t *testing.T, name string) (*reading.File, reading.Reading) {
	t.Helper()
	file, err := reading.LoadMarks(filepath.Join(testdata, name), nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := file.Reading()
	if err != nil {
		t.Fatal(err)
	}
	return file, r
}

func page(t *testing.T, s photo.Sheet) render.Page {
	t.Helper()
	p, err := s.Page(job.Default().Setting, "")
	if err == nil {
		err = p.Check()
	}
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// words returns all words of a page, a line each.
func words(p render.Page) string {
	var out []string
	for _, m := range p.Marks {
		if text, ok := m.(*render.Text); ok {
			for _, s := range text.Spans {
				out = append(out, s.Text)
			}
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// markedWith returns the marks of a page with an id.
func markedWith[T render.Mark](t *testing.T, p render.Page, id string) T {
	t.Helper()
	for _, m := range p.Marks {
		if got, ok := m.(T); ok && m.Tag().ID == id {
			return got
		}
	}
	t.Fatalf("no mark %q", id)
	panic("unreachable")
}

// On every picture, whichever way it faces, the drawn tyres pass the marks that were set on them, and everything stays on the page.
func TestTyresPassTheirMarks(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(testdata, "*-exact.yaml"))
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, path := range files {
		file, r := read(t, filepath.Base(path))
		pixels := image.NewRGBA(image.Rect(0, 0, int(file.Marks.Width)/10, int(file.Marks.Height)/10))
		p := page(t, photo.Sheet{Reading: r, Pixels: pixels})
		picture := markedWith[*render.Picture](t, p, "photo")
		scale := float64(picture.Box.Width()) / (float64(picture.Pixels.Rect.Dx()) * 10)
		for i, id := range []string{"wheel-front", "wheel-rear"} {
			tyre := markedWith[*render.Ellipse](t, p, id).Shape
			for _, k := range file.Marks.Points[reading.TyreFront+reading.Name(i)] {
				// A mark lies on the ellipse that its distance from the centre in ellipse's own axes says: 1.
				corner := picture.Pixels.Rect.Min
				at := picture.Box.Min.Add(render.Point{
					X: geom.MM((float64(k.At.X) - 10*float64(corner.X)) * scale), Y: geom.MM((float64(k.At.Y) - 10*float64(corner.Y)) * scale),
				})
				d := at.Sub(tyre.Centre)
				sin, cos := math.Sincos(tyre.Angle)
				along := (float64(d.X)*cos + float64(d.Y)*sin) / float64(tyre.Long)
				over := (float64(d.Y)*cos - float64(d.X)*sin) / float64(tyre.Short)
				if off := math.Abs(math.Hypot(along, over)-1) * float64(tyre.Long); off > 1.3 { // pixels of the test's small picture
					t.Errorf("%s: a mark lies %.2f mm off %s", path, off, id)
				}
			}
		}
	}
}

// A vehicle that is held against itself as it was read lies on its own tyres, and nothing is to move.
func TestUnderlayOfItself(t *testing.T) {
	_, r := read(t, "plain-exact.yaml")
	profile, _, err := r.Profile()
	if err != nil {
		t.Fatal(err)
	}
	plan := layout.Typical(profile)
	p := page(t, photo.Sheet{Reading: r, Against: &plan, Name: "itself", Differences: r.AgainstPlan(plan)})
	if all := words(p); !strings.Contains(all, "all that was read lies as it should") {
		t.Errorf("something is to move:\n%s", all)
	}
	own, drawn := markedWith[*render.Ellipse](t, p, "wheel-rear").Shape, markedWith[*render.Ellipse](t, p, "wheel-rear-left").Shape
	if off := own.Centre.Sub(drawn.Centre).Len(); off > .2 {
		t.Errorf("the rear tyre of the underlay lies %.3f mm off", float64(off))
	}
}

// A table of several has a row for each, with what to move first.
func TestOverview(t *testing.T) {
	_, r := read(t, "plain-exact.yaml")
	suv, err := segments.Find("suv")
	if err != nil {
		t.Fatal(err)
	}
	plan := layout.Typical(suv)
	s := photo.Sheet{Reading: r, Against: &plan, Name: "suv", Differences: r.AgainstRange(plan)}
	pages := photo.Overview(slices.Repeat([]photo.Sheet{s}, 41), job.Default().Setting, "")
	if len(pages) != 2 {
		t.Fatalf("%d pages for 41 rows, want 2", len(pages))
	}
	all, rows := "", 0
	for _, p := range pages {
		if err := p.Check(); err != nil {
			t.Error(err)
		}
		all += words(p)
		for _, m := range p.Marks {
			if text, ok := m.(*render.Text); ok && text.Spans[0].Text == "plain-exact" {
				rows++
			}
		}
	}
	// wheels-between 3.26 lies .15 over the suv's 3.11, length 7.29 over its longest
	if rows != 41 || strings.Count(all, "+0.15") < 41 || !strings.Contains(all, "screen base 0.28 too far back") {
		t.Errorf("%d rows, want 41, each with what to move:\n%.600s", rows, all)
	}
}

// What follows from other figures is not said again, and the longest way comes first, angles last.
func TestWhatToMove(t *testing.T) {
	_, r := read(t, "plain-exact.yaml")
	suv, err := segments.Find("suv")
	if err != nil {
		t.Fatal(err)
	}
	plan := layout.Typical(suv)
	var off []reading.Difference
	for f, move := range map[segments.Figure]float64{segments.Length: -.3, segments.FrontOverhang: -.2, segments.Height: .25,
		segments.GreenhouseToBody: .1, segments.PillarRake: 8, segments.Sill: -.001} {
		off = append(off, reading.Difference{Figure: f, Read: r.Figures[f], Move: move})
	}
	p := page(t, photo.Sheet{Reading: r, Against: &plan, Name: "brief", Differences: off})
	all, from := words(p), 0
	for _, want := range []string{"off what was asked", "roof 0.25 low", "front overhang 0.2 long", "pillar rake 8° flat"} {
		at := strings.Index(all[from:], want)
		if at < 0 {
			t.Fatalf("%q does not follow in\n%s", want, all)
		}
		from += at
	}
	for _, never := range []string{"length 0.3", "ratio greenhouse to body 0.1 ", "sill 0 "} {
		if strings.Contains(all, never) {
			t.Errorf("%q is said", never)
		}
	}
}

// Every point of the marks has a number of its own.
func TestCheckNumbersPoints(t *testing.T) {
	file, _ := read(t, "plain-exact.yaml")
	p := photo.Check(&file.Marks, nil, job.Default().Setting, "")
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	all, i := "\n"+words(p), 0
	for _, n := range reading.Names() {
		points := len(file.Marks.Points[n])
		if points > 0 {
			i++
		}
		for k := range points {
			number := fmt.Sprintf("\n%d.%d\n", i, k+1)
			if points == 1 {
				number = fmt.Sprintf("\n%d\n", i)
			}
			if !strings.Contains(all, number) {
				t.Errorf("no%sfor %s", number, n)
			}
		}
	}
}

// Of a sketch the whole paper is shown: a cut through its words would help nobody.
func TestSketchShowsThePaper(t *testing.T) {
	file, err := reading.LoadMarks("../../docs/examples/school/sketch.yaml", nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := file.Reading()
	if err != nil {
		t.Fatal(err)
	}
	const width, height = 1600, 1130
	p := page(t, photo.Sheet{Reading: r, Pixels: image.NewRGBA(image.Rect(0, 0, width, height))})
	shown := markedWith[*render.Picture](t, p, "photo").Pixels.Rect
	for _, end := range file.Marks.Sheet.Ends { // of the centring marks: some 10 mm inside the edges of the paper
		if at := image.Pt(int(end.X), int(end.Y)); !at.In(shown.Inset(20)) {
			t.Errorf("the paper is cut near %v: %v is shown", at, shown)
		}
	}
	if shown.Dx() == width {
		t.Error("the desk beside the paper is shown")
	}
}

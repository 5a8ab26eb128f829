package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/tile"
	"hubrule/segments"
)

// ownMarks returns a tile's page with its own marks only, and without the lines that the map's names stand on.
func ownMarks(p render.Page) render.Page {
	p.Marks = slices.DeleteFunc(slices.Clone(p.Marks), func(m render.Mark) bool {
		id, onMap := strings.CutPrefix(m.Tag().ID, "map-")
		return m.Tag().Guide != string(request.Tile) || onMap && slices.Contains(tile.MappedIDs(), id)
	})
	return p
}

// On every paper, kind and facing: no words of a tile on other words or on lines, nothing outside the window nearer than 5 mm to the
// paper's edge, the window itself within the margins, a true bar on every page, no label twice, and words of every tile's neighbours.
func TestTilesOfEveryKind(t *testing.T) {
	t.Parallel()
	papers := append(papers(), testsheet.Paper(t, "A4").Portrait(), testsheet.Paper(t, "A3").Portrait(),
		request.Paper{Name: "least", Width: request.LeastWidth, Height: request.LeastHeight},
		request.Paper{Name: "900x200mm", Width: 900, Height: 200})
	for i, p := range papers {
		s := testsheet.Setting(t, "A4")
		s.Paper, s.Facing, s.Units = p, facingOnTurn(i), unitsOnTurn(i)
		s.Labels = []request.Labels{request.FullLabels, request.ShortLabels, request.NoLabels}[i%3]
		s.Scale, s.Tile = request.Scale{Wheel: p.Width * []geom.MM{.8, .5}[i%2]}, true
		for _, kinds := range onTurn(i/3, [][]request.Kind{{request.Full, request.Overlay}, {request.Trace, request.Practice}, {request.Answer, request.Full}}) {
			checkTiles(t, request.Request{Plans: []layout.Plan{testsheet.Plan(t, "van"), testsheet.Plan(t, "coupe")}, Kinds: kinds, Setting: s})
		}
	}
}

func checkTiles(t *testing.T, job request.Request) {
	t.Helper()
	s, p := job.Setting, job.Setting.Paper
	doc, told, err := Compose(job)
	if err != nil {
		t.Errorf("%s: %v", describe(s), err)
		return
	}
	sheets := 2 * len(job.Kinds)
	if slices.Contains(job.Kinds, request.Overlay) {
		sheets--
	}
	if len(told.Notes) < sheets {
		t.Errorf("%s: told %q", describe(s), told.Notes)
	}
	labels := map[string]bool{}
	for _, page := range doc.Pages {
		if page.Width != p.Width || page.Height != p.Height || labels[page.Label] || page.Label == "" {
			t.Errorf("%s: %q is %v x %v, called %q", describe(s), page.Title, page.Width, page.Height, page.Label)
		}
		labels[page.Label] = true
		for _, f := range testsheet.Faults(ownMarks(page)) {
			t.Errorf("%s, %s: %s", page.Title, describe(s), f)
		}
		file := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
		bar := file.Shapes["check-bar"]
		if got := bar.Num(t, "x2") - bar.Num(t, "x1"); bar.Group != "guide-tile" || math.Abs(got-100) > .0015 || file.Repeated != nil || file.Transforms != nil {
			t.Errorf("%s: a bar of %v mm in %s, ids twice %v, turned %v", page.Title, got, bar.Group, file.Repeated, file.Transforms)
		}
		if margin := (draft.Box{Max: draft.Point{X: p.Width, Y: p.Height}}).Grow(-draft.PrinterEdge); !margin.Contains(*page.Clip) {
			t.Errorf("%s: the window is %v", page.Title, *page.Clip)
		}
	}
}

// The title block tells which tile of how many, what to glue where, and the facts of the sheet; the first one's map names every tile and
// crosses those left out. A quarter of full size takes few tiles, full size too.
func TestTileWords(t *testing.T) {
	t.Parallel()
	job := request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: atScale(testsheet.Setting(t, "A3"), 4)}
	x := tilingOf(t, job)
	if len(x.tiles) > 8 {
		t.Errorf("a quarter of full size takes %d tiles of A3", len(x.tiles))
	}
	words := func(p render.Page) (out []string) {
		for _, w := range testsheet.WrittenOn(ownMarks(p)) {
			out = append(out, w.Text)
		}
		return out
	}
	got := words(*x.find(tile.Tile{Column: 1}))
	for _, want := range []string{"A2", "Sport utility, full", "tile 2 of 8", "wheel on paper 184.75 mm, scale 1 : 4", "100 mm  print at 100 %, then measure",
		"unit wheel", "side view, typical figures", "tyre 235/60R18", "height 1737 mm",
		"cut from dashed mark to dashed mark; this edge goes on A1",
		"glue A3 here, its cut edge on the heavy ticks", "glue B2 here, its cut edge on the heavy ticks"} {
		if !slices.Contains(got, want) {
			t.Errorf("A2 does not say %q: %q", want, got)
		}
	}
	job.Kinds, job.Setting = []request.Kind{request.Trace}, atScale(testsheet.Setting(t, "A1"), 1)
	x = tilingOf(t, job)
	if len(x.tiles) > 20 || len(x.blank) == 0 {
		t.Errorf("full size takes %d tiles of A1, %v left out", len(x.tiles), x.blank)
	}
	first := words(x.tiles[0])
	for _, at := range tilesOf(x.grid) {
		if slices.Contains(first, at.Name()) == slices.Contains(x.blank, at.Name()) {
			t.Errorf("the map says of %s: %v", at.Name(), first)
		}
	}
	for name, want := range map[string]string{"A1": "A1", "Z9": "Z9", "AA1": "AA1", "BA12": "BA12"} {
		row := map[string]int{"A1": 0, "Z9": 25, "AA1": 26, "BA12": 52}[name]
		var column int
		fmt.Sscanf(strings.TrimLeft(name, "ABZ"), "%d", &column)
		if got := (tile.Tile{Column: column - 1, Row: row}).Name(); got != want {
			t.Errorf("row %d, column %d is called %s, want %s", row, column, got, want)
		}
	}
}

// On the full sheet and on the trace sheet no words lie where tiles overlap, so each stands whole on one tile; no title block runs across
// them, and no unused part of a counted wheel takes room.
func TestWordsKeepOffSeams(t *testing.T) {
	t.Parallel()
	spare := fmt.Sprint(counting.SpareLine().Dash)
	for i, name := range segments.Names() {
		s := atScale(testsheet.Setting(t, []string{"A4", "A3", "A2"}[i%3]), []float64{4, 5, 2.5}[i/3%3])
		s.Facing, s.Units, s.Checks = facingOnTurn(i), unitsOnTurn(i), i%2 == 0
		x := tilingOf(t, request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Full, request.Trace}, Setting: s})
		step, overlap := x.grid.Step(), x.grid.Window().Width()-x.grid.Step().X
		on := func(lo, hi, step geom.MM, tiles int) bool {
			k := int(hi / step)
			return k > 0 && k < tiles && lo < step*geom.MM(k)+overlap
		}
		words := testsheet.WrittenOn(x.whole)
		for _, w := range words {
			if on(w.Box.Min.X, w.Box.Max.X, step.X, x.grid.Columns) || on(w.Box.Min.Y, w.Box.Max.Y, step.Y, x.grid.Rows) {
				t.Errorf("%s, %s: %q at %v lies on a seam", x.whole.Title, describe(s), w.Text, w.Box)
			}
		}
		if len(words) < 15 {
			t.Errorf("%s: only %d words", x.whole.Title, len(words))
		}
		for _, m := range x.whole.Marks {
			if k, ok := m.(*render.Stroke); m.Tag().Guide == "strip" || ok && fmt.Sprint(k.Pen.Dash) == spare {
				t.Errorf("%s: a part of a title block, or an unused part of a wheel: %v", x.whole.Title, m.Tag())
			}
		}
	}
}

// A full-size vehicle on A1: a sheet as long as the vehicle, wheels as large as its own.
func TestFullSizeOnA1(t *testing.T) {
	t.Parallel()
	p := testsheet.Plan(t, "suv")
	x := tilingOf(t, request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Trace}, Setting: atScale(testsheet.Setting(t, "A1"), 1)})
	for _, m := range x.whole.Marks {
		if c, ok := m.(*render.Circle); ok && m.Tag().ID == "wheel-front" {
			if got, want := 2*c.R, p.OnVehicle(1); math.Abs(float64(got-want)) > 1e-6 {
				t.Errorf("the wheel is %v mm on paper, %v on the vehicle", got, want)
			}
		}
	}
	if x.whole.Width < p.OnVehicle(p.Length()) || len(x.tiles) < 15 {
		t.Errorf("the sheet is %v mm wide, on %d tiles", x.whole.Width, len(x.tiles))
	}
}

// What fits on a page stays the page it is without tiles.
func TestOneTileIsAPage(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	s.Scale = request.Scale{Wheel: 30}
	job := request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full, request.Trace}, Setting: s}
	want, _, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	job.Setting.Tile = true
	got, told, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want.Pages {
		if string(testsheet.SvgOf(t, got.Pages[i])) != string(testsheet.SvgOf(t, want.Pages[i])) {
			t.Errorf("page %d differs", i+1)
		}
	}
	if len(got.Pages) != 2 || len(told.Notes) != 2 || !strings.HasSuffix(told.Notes[0], "one page of A3 holds it; nothing to glue") || len(told.Warnings) != 0 {
		t.Errorf("%d pages, told %q", len(got.Pages), told)
	}
}

// Every mark has an extent that holds what is drawn of it, and reaches no place far from it.
func TestReaches(t *testing.T) {
	t.Parallel()
	at := func(x, y geom.MM) draft.Point { return draft.Point{X: x, Y: y} }
	spot := func(x, y geom.MM) draft.Box { return draft.Box{Min: at(x, y), Max: at(x+1, y+1)} }
	square := render.Path{}.Move(at(0, 0)).Line(at(10, 0)).Line(at(10, 10)).Line(at(0, 10)).Close()
	pen := render.Pen{Width: 1}
	words := render.Text{At: at(50, 50), Anchor: render.End, Spans: []render.Span{{Text: "wheel", Height: 5, Weight: render.Regular}}}
	turned := words
	turned.Angle = 90
	for _, tt := range []struct {
		name string
		m    render.Mark
		r    draft.Box
		want bool
	}{
		{"line", &render.Stroke{Path: square, Pen: pen}, spot(4, -1.3), true},
		{"line's inside", &render.Stroke{Path: square, Pen: pen}, spot(4, 4), false},
		{"area's inside", &render.Fill{Path: square}, spot(4, 4), true},
		{"beside an area", &render.Fill{Path: square}, spot(10.5, 4), false},
		{"circle", &render.Circle{Centre: at(5, 5), R: 5, Pen: pen}, spot(9, 4.5), true},
		{"circle's inside", &render.Circle{Centre: at(5, 5), R: 5, Pen: pen}, spot(4.5, 4.5), false},
		{"disc's inside", &render.Circle{Centre: at(5, 5), R: 5, Fill: &render.Colour{}}, spot(4.5, 4.5), true},
		{"disc's corner", &render.Circle{Centre: at(5, 5), R: 5, Fill: &render.Colour{}}, spot(-1, -1), false},
		{"words", &words, spot(45, 47), true},
		{"behind words", &words, spot(51, 47), false},
		{"turned words", &turned, spot(47, 55), true},
		{"arc", &render.Stroke{Path: render.Path{}.Move(at(0, 0)).Arc(10, false, true, at(20, 0)), Pen: pen}, spot(9, -10.5), true},
		{"arc's chord", &render.Stroke{Path: render.Path{}.Move(at(0, 0)).Arc(10, false, true, at(20, 0)), Pen: pen}, spot(9, -2), false},
	} {
		if got := draft.ExtentOf(tt.m).Intersects(tt.r); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

// What cannot be cut into tiles is told.
func TestWhatIsNotTiled(t *testing.T) {
	t.Parallel()
	suv := []layout.Plan{testsheet.Plan(t, "suv")}
	frame := atScale(testsheet.Setting(t, "A3"), 4)
	frame.Frame = true
	fits := testsheet.Setting(t, "A3")
	fits.Tile = true
	tiny, huge, many := atScale(testsheet.Setting(t, "A3"), 100), atScale(testsheet.Setting(t, "A4"), .01), atScale(testsheet.Setting(t, "A4"), 1)
	wheels := many
	wheels.Scale = request.Scale{Wheel: 800}
	for _, tt := range []struct {
		kind request.Kind
		s    request.Setting
		want string
	}{
		{request.Steps, atScale(testsheet.Setting(t, "A3"), 4), "--tile: a sheet of the kind steps fills its own page; want full, trace, practice, answer or overlay"},
		{request.Spread, atScale(testsheet.Setting(t, "A3"), 4), "--tile: a sheet of the kind spread fills its own page; want full, trace, practice, answer or overlay"},
		{request.Thumbnails, atScale(testsheet.Setting(t, "A3"), 4), "--tile: a sheet of the kind thumbnails fills its own page; want full, trace, practice, answer or overlay"},
		{request.Full, fits, "--tile wants a scale, or one page would do: --scale 1:4 or --scale wheel=200mm"},
		{request.Full, frame, "--tile: a frame stands round one page; tiles have cut and glue marks instead"},
		{request.Full, tiny, "suv: a wheel of 7.39 mm on paper is too small to draw; want at least 10 mm"},
		{request.Full, many, "suv takes more than 200 tiles of A4 with a wheel of 739 mm; --scale 1:1.1 takes fewer"},
		{request.Full, huge, "suv takes more than 200 tiles of A4 with a wheel of 73900 mm; --scale 1:1.1 takes fewer"},
		{request.Full, wheels, "suv takes more than 200 tiles of A4 with a wheel of 800 mm; --scale wheel=707mm takes fewer"},
	} {
		_, _, err := Compose(request.Request{Plans: suv, Kinds: []request.Kind{tt.kind}, Setting: tt.s})
		if err == nil || err.Error() != tt.want {
			t.Errorf("got %v, want %s", err, tt.want)
		}
		// The scale that is named works.
		if _, said, ok := strings.Cut(tt.want, "--scale 1:"); ok && !strings.HasPrefix(tt.want, "--tile") {
			if _, err := fmt.Sscanf(said, "%f takes", &tt.s.Scale.Reduction); err != nil {
				t.Fatal(err)
			}
			if doc, _, err := Compose(request.Request{Plans: suv, Kinds: []request.Kind{tt.kind}, Setting: tt.s}); err != nil || len(doc.Pages) > tile.MostTiles {
				t.Errorf("at 1:%v: %d pages, %v", tt.s.Scale.Reduction, len(doc.Pages), err)
			}
		}
	}
}

// Tiles are cut 10 mm inside the paper's left, upper and right edge, beyond what printers leave free, and their windows overlap by 10 mm,
// enough for glue (common practice). Glued pictures do not show either, since they are cut wherever the marks are.
func TestCutMarks(t *testing.T) {
	t.Parallel()
	x := tilingOf(t, request.Request{Plans: []layout.Plan{testsheet.Plan(t, "city")}, Kinds: []request.Kind{request.Trace}, Setting: atScale(testsheet.Setting(t, "A4"), 6)})
	marks := 0
	for _, page := range x.tiles {
		f := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
		for id, want := range map[string][2]float64{"cut-left": {10, math.NaN()}, "cut-right": {287, math.NaN()}, "cut-top": {math.NaN(), 10}} {
			s, ok := f.Shapes[id]
			if !ok {
				continue
			}
			marks++
			for k, at := range want {
				for _, end := range []string{"1", "2"} {
					if got := s.Num(t, "xy"[k:k+1]+end); !math.IsNaN(at) && math.Abs(got-at) > .001 {
						t.Errorf("%s: %s is at %v mm, want %v", page.Title, id, got, at)
					}
				}
			}
		}
	}
	if marks < len(x.tiles) {
		t.Errorf("only %d cut marks on %d tiles", marks, len(x.tiles))
	}
	if step := x.grid.Step(); step.X != 267 || step.Y != x.grid.Window().Height()-10 {
		t.Errorf("windows begin %v mm apart", step)
	}
	if w := x.grid.Window(); w.Min != draft.Pt(10, 10) || w.Max != draft.Pt(287, 183) {
		t.Errorf("the window of an A4 tile is %v", w)
	}
}

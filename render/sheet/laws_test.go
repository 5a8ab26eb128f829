package sheet

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Facing right is the mirror image about the middle of the drawing space (A3: x 215); words keep their
// reading direction and take the mirrored place. The strip stays where it is.
func TestFacingRightIsTheMirrorImage(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		left := testsheet.Setting(t, "A3")
		right := left
		right.Facing = request.Right
		pages := map[request.Facing]render.Page{}
		for _, s := range []request.Setting{left, right} {
			doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Full}, Setting: s})
			if err != nil {
				t.Fatal(err)
			}
			pages[s.Facing] = doc.Pages[0]
		}
		const axis = 215
		for i, m := range pages[request.Left].Marks {
			if g := m.Tag().Guide; g == "strip" || g == "frame" {
				continue
			}
			once := draft.Mirrored(m, axis)
			if got, want := fmt.Sprintf("%+v", once), fmt.Sprintf("%+v", pages[request.Right].Marks[i]); got != want {
				t.Fatalf("%s: mark %d facing right is\n%s\nwant\n%s", name, i, want, got)
			}
		}
		// Twice mirrored is the same file, byte for byte.
		twice := pages[request.Left]
		twice.Marks = nil
		for _, m := range pages[request.Left].Marks {
			twice.Marks = append(twice.Marks, draft.Mirrored(draft.Mirrored(m, axis), axis))
		}
		if !bytes.Equal(testsheet.SvgOf(t, twice), testsheet.SvgOf(t, pages[request.Left])) {
			t.Errorf("%s: twice mirrored is another file", name)
		}
	}
}

// The same law in the written files, read by a reader that knows nothing of mirroring: x becomes 430 − x, radii and
// heights stay, an arc turns the other way round, and words take the mirrored box with the other end as their anchor.
func TestFacingRightInTheFile(t *testing.T) {
	t.Parallel()
	const twice = 430.
	other := map[string]string{"start": "end", "end": "start", "middle": "middle", "": "end"}
	for _, name := range segments.Names() {
		left, right := testsheet.Setting(t, "A3"), testsheet.Setting(t, "A3")
		right.Facing = request.Right
		a, b := sheetsOf(t, testsheet.Plan(t, name), left, request.Full)[0], sheetsOf(t, testsheet.Plan(t, name), right, request.Full)[0]
		off := func(v, w float64) bool { return math.Abs(twice-v-w) > .0015 }
		for id, s := range a.Shapes {
			m := b.Shapes[id]
			if s.Group == "guide-strip" || s.Group == "guide-frame" || s.Element == "g" {
				continue
			}
			for _, k := range []string{"x1", "x2", "cx"} {
				if s.At[k] != "" && off(s.Num(t, k), m.Num(t, k)) {
					t.Errorf("%s: %s of %s: %s and %s", name, k, id, s.At[k], m.At[k])
				}
			}
			for _, k := range []string{"y1", "y2", "cy", "r"} {
				if s.At[k] != m.At[k] {
					t.Errorf("%s: %s of %s: %s and %s", name, k, id, s.At[k], m.At[k])
				}
			}
			mirroredPath(t, s.At["d"], m.At["d"], name+" "+id)
		}
		for i, w := range a.Texts {
			m := b.Texts[i]
			if w.Group == "guide-strip" || w.Group == "guide-frame" {
				continue
			}
			if w.Words != m.Words || w.Y != m.Y || off(w.X, m.X) || other[w.Anchor] != m.Anchor && !(other[w.Anchor] == "start" && m.Anchor == "") {
				t.Errorf("%s: %+v and %+v", name, w, m)
			}
		}
	}
}

func mirroredPath(t *testing.T, a, b, what string) {
	t.Helper()
	one, two := testsheet.PathSteps(t, a), testsheet.PathSteps(t, b)
	if len(one) != len(two) {
		t.Errorf("%s: %d and %d steps", what, len(one), len(two))
		return
	}
	for i, s := range one {
		for k, v := range s.Numbers {
			w := two[i].Numbers[k]
			bad := math.Abs(v-w) > .0015
			switch {
			case s.Kind(k) == 'x':
				bad = math.Abs(430-v-w) > .0015
			case s.Verb == 'A' && k%7 == 4: // the sweep turns over
				bad = v+w != 1
			}
			if bad {
				t.Errorf("%s: step %d: %v and %v", what, i, s, two[i])
			}
		}
	}
}

// Doubling the scale doubles every coordinate of the guides, measured from the ground below the front axle.
func TestDoublingTheScale(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		s := testsheet.Setting(t, "A1")
		s.Labels, s.Outline = request.NoLabels, request.OutlineOn
		s.Guides = []request.Guide{"roof", "belt", "sill", "clearance", "between", "stack", "overhangs", "arches", "lamps", "wheels", "outline"}
		var pages []testsheet.SVG
		var raw [][]byte
		for _, wheel := range []geom.MM{30, 60} {
			s.Scale = request.Scale{Wheel: wheel}
			doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Trace}, Setting: s})
			if err != nil {
				t.Fatal(err)
			}
			raw = append(raw, testsheet.SvgOf(t, doc.Pages[0]))
			pages = append(pages, testsheet.ReadSVG(t, raw[len(raw)-1]))
		}
		origin := func(f testsheet.SVG) (x, y float64) {
			c := f.Shapes["wheel-front"]
			return c.Num(t, "cx"), c.Num(t, "cy") + c.Num(t, "r")
		}
		x1, y1 := origin(pages[0])
		x2, y2 := origin(pages[1])
		compared := 0
		for id, a := range pages[0].Shapes {
			if a.Group == "guide-strip" || a.Group == "guide-frame" {
				continue
			}
			b := pages[1].Shapes[id]
			for _, k := range []string{"x1", "x2", "cx", "y1", "y2", "cy"} {
				if a.At[k] == "" || id == "belt-pivot" || id == "pillar-mark" {
					continue
				}
				va, vb := a.Num(t, k)-x1, b.Num(t, k)-x2
				if strings.Contains(k, "y") {
					va, vb = a.Num(t, k)-y1, b.Num(t, k)-y2
				}
				compared++
				if math.Abs(vb-2*va) > .004 {
					t.Errorf("%s: %s of %s: %.3f, doubled %.3f", name, k, id, va, vb)
				}
			}
			if a.At["r"] != "" && math.Abs(b.Num(t, "r")-2*a.Num(t, "r")) > .004 {
				t.Errorf("%s: r of %s: %s, doubled %s", name, id, a.At["r"], b.At["r"])
			}
			compared += doubledPath(t, a.At["d"], b.At["d"], [4]float64{x1, y1, x2, y2}, name+" "+id)
		}
		if compared < 200 {
			t.Errorf("%s: only %d coordinates compared", name, compared)
		}
	}
}

// doubledPath compares the numbers of two paths' d attributes, measured from each file's own origin, and counts them.
func doubledPath(t *testing.T, a, b string, origins [4]float64, what string) int {
	t.Helper()
	one, two := testsheet.PathSteps(t, a), testsheet.PathSteps(t, b)
	if len(one) != len(two) {
		t.Errorf("%s: %d and %d steps", what, len(one), len(two))
		return 0
	}
	n := 0
	for i, s := range one {
		if s.Verb != two[i].Verb || len(s.Numbers) != len(two[i].Numbers) {
			t.Errorf("%s: step %d: %v, doubled %v", what, i, s, two[i])
			continue
		}
		for k, v := range s.Numbers {
			w := two[i].Numbers[k]
			switch s.Kind(k) {
			case 'x':
				v, w = v-origins[0], w-origins[2]
			case 'y':
				v, w = v-origins[1], w-origins[3]
			case 'f':
				w *= 2 // a flag stays as it is
			}
			if n++; math.Abs(w-2*v) > .004 {
				t.Errorf("%s: step %d: %v, doubled %v", what, i, s, two[i])
			}
		}
	}
	return n
}

// Sheets of one command register: a trace sheet stands exactly where the full one does, and all segments of one
// command have one wheel.
func TestSheetsRegister(t *testing.T) {
	t.Parallel()
	job := request.Request{Kinds: []request.Kind{request.Full, request.Trace, request.Practice, request.Answer}, Setting: testsheet.Setting(t, "A3")}
	job.Setting.Given = request.GivenMost
	for _, name := range segments.Names() {
		job.Plans = append(job.Plans, testsheet.Plan(t, name))
	}
	doc, _, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	if want := len(job.Plans) * len(job.Kinds); len(doc.Pages) != want {
		t.Fatalf("%d pages, want %d", len(doc.Pages), want)
	}
	wheel := ""
	for i := 0; i < len(doc.Pages); i += 4 {
		full := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[i]))
		for _, other := range doc.Pages[i+1 : i+4] {
			registers(t, full, testsheet.ReadSVG(t, testsheet.SvgOf(t, other)), other.Title)
		}
		if r := full.Shapes["wheel-front"].At["r"]; wheel == "" {
			wheel = r
		} else if r != wheel {
			t.Errorf("%s: wheel radius %s, the others %s", doc.Pages[i].Title, r, wheel)
		}
	}
}

// registers tells what does not lie on one place on two sheets; a practice sheet may lack a guide.
func registers(t *testing.T, full, other testsheet.SVG, title string) {
	t.Helper()
	for _, id := range []string{"wheel-front", "wheel-rear", "ground", "roof", "pillar", "nose", "tail", "arch-rear", "centre-left"} {
		a := full.Shapes[id]
		b, there := other.Shapes[id]
		if !there && id == "pillar" && strings.HasSuffix(title, "practice") {
			continue
		}
		for _, k := range []string{"cx", "cy", "r", "x1", "y1", "y2"} {
			if a.At[k] != b.At[k] {
				t.Errorf("%s: %s of %s is %s on full, %s here", title, k, id, a.At[k], b.At[k])
			}
		}
	}
}

// A trace sheet alone is larger than one that shares its place with a full sheet.
func TestTraceAloneUsesItsPage(t *testing.T) {
	t.Parallel()
	for i, name := range segments.Names() {
		for _, paper := range onTurn(i, papers()) {
			both := saidWheel(t, sheetsOf(t, testsheet.Plan(t, name), on(paper), request.Full, request.Trace)[1])
			alone := saidWheel(t, sheetsOf(t, testsheet.Plan(t, name), on(paper), request.Trace)[0])
			if alone <= both {
				t.Errorf("%s on %s: a wheel of %g mm alone, %g with the full sheet", name, paper.Name, alone, both)
			}
		}
	}
}

// The vehicle fills the width of the page: what is left beside it is for ghost wheels, rule and words.
func TestVehicleFillsTheWidth(t *testing.T) {
	t.Parallel()
	upright := testsheet.Paper(t, "A4").Portrait()
	for _, name := range segments.Names() {
		for _, c := range []struct {
			paper request.Paper
			kind  request.Kind
			least float64 // of the width inside the margins
		}{
			{testsheet.Paper(t, "A3"), request.Full, .78}, {testsheet.Paper(t, "A3"), request.Trace, .9},
			{testsheet.Paper(t, "A4"), request.Full, .7}, {testsheet.Paper(t, "A4"), request.Trace, .88}, {upright, request.Full, .7},
		} {
			p := testsheet.Plan(t, name)
			wheel := saidWheel(t, sheetsOf(t, p, on(c.paper), c.kind)[0])
			if share := wheel * float64(p.Length()) / float64(c.paper.Width-30); share < c.least {
				t.Errorf("%s, %s on %s: %.0f %% of the width, want %.0f", name, c.kind, c.paper.Name, 100*share, 100*c.least)
			}
		}
	}
}

// Fit is the largest even wheel: two millimetres more do not fit, and the error then names a scale that does.
func TestFitIsLargest(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		p, s := testsheet.Plan(t, name), testsheet.Setting(t, "A3")
		best := saidWheel(t, sheetsOf(t, p, s, request.Full)[0])
		s.Scale = request.Scale{Wheel: geom.MM(best + 2)}
		_, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s})
		want := fmt.Sprintf("--scale wheel=%gmm (1:", best)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s at %g mm: %v; want an error with %q", name, best+2, err, want)
			continue
		}
		_, after, _ := strings.Cut(err.Error(), "(1:")
		var reduction float64
		if _, err := fmt.Sscanf(after, "%f", &reduction); err != nil {
			t.Fatal(err)
		}
		s.Scale = request.Scale{Reduction: reduction}
		if _, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s}); err != nil {
			t.Errorf("%s: the scale 1:%g that the error names does not fit: %v", name, reduction, err)
		}
	}
}

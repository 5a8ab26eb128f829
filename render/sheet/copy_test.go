package sheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/pdf"
	"hubrule/render/request"
)

// A hard copy keeps nothing but black and white. The grey full sheet, drawn by poppler at 600 dpi and cut at
// 158 of 255 as an office copier does (the threshold is judged by eye), keeps every guide and its dashes.
func TestHardCopyKeepsEveryGuide(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm")
	for _, name := range []string{"suv"} {
		s := testsheet.Setting(t, "A3")
		s.Ink, s.Checks = request.Grey, true
		doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Full}, Setting: s})
		if err != nil {
			t.Fatal(err)
		}
		page := doc.Pages[0]
		copied := hardCopy(t, doc)
		kept, lines := map[string]tally{}, linesByMark(page)
		for i, m := range page.Marks {
			// The outline is too pale for a copy on purpose; hair rims and ticks have no pattern to keep.
			g := m.Tag().Guide
			if m.Tag().ID == "" || strings.HasPrefix(m.Tag().ID, "tick") || g == "outline" || g == "labels" || g == "strip" || g == "frame" {
				continue
			}
			k := kept[g]
			k.add(copied.follow(m, others(lines, i)))
			kept[g] = k
		}
		for _, g := range request.SideView.Guides() {
			k, ok := kept[string(g)]
			switch {
			case g == "outline":
			case !ok || k.right+k.wrong < 40:
				t.Errorf("%s: %s: only %d places looked at", name, g, k.right+k.wrong)
			case float64(k.wrong) > .04*float64(k.right+k.wrong):
				t.Errorf("%s: %s: %d of %d places are not as drawn", name, g, k.wrong, k.right+k.wrong)
			}
		}
	}
}

// Guides that lie along each other must differ in their dashes: no two patterns of the construction are alike.
func TestDashesTellGuidesApart(t *testing.T) {
	t.Parallel()
	seen := map[string]string{}
	for what, k := range map[string]draft.LineStyle{
		"counted": counting.CountedLine(), "spare": counting.SpareLine(), "axle": counting.AxleLine(), "roof": counting.RoofLine(),
		"sill": counting.SillLine(), "clearance": counting.ClearanceLine(), "glass": counting.GlassLine(), "aim": counting.AimLine(), "angle": counting.AngleLine(), "belt": counting.GuideLine(),
	} {
		pattern := fmt.Sprint(k.Dash)
		if other, twice := seen[pattern]; twice {
			t.Errorf("%s and %s share the dashes %s", what, other, pattern)
		}
		seen[pattern] = what
	}
}

type tally struct{ right, wrong int }

func (t *tally) add(u tally) { t.right, t.wrong = t.right+u.right, t.wrong+u.wrong }

// bitmap is a page in grey at 600 dpi.
type bitmap struct {
	width, height int
	grey          []byte
}

const (
	copyDPI       = 600
	copyThreshold = 158
)

func hardCopy(t testing.TB, doc render.Document) bitmap {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, doc); err != nil {
		t.Fatal(err)
	}
	path := outside.File(t, "page.pdf", b.Bytes())
	outside.Run(t, "pdftoppm", "-r", fmt.Sprint(copyDPI), "-gray", "-singlefile", path, path) // a pipe is slower than a file
	pgm, err := os.ReadFile(path + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var m bitmap
	var depth int
	if _, err := fmt.Sscanf(string(pgm[:40]), "P5\n%d %d\n%d", &m.width, &m.height, &depth); err != nil {
		t.Fatal(err)
	}
	m.grey = pgm[len(pgm)-m.width*m.height:]
	return m
}

// black reports whether the copy is black within a pixel of p.
func (m bitmap) black(p draft.Point) bool {
	x, y := int(float64(p.X)*copyDPI/25.4), int(float64(p.Y)*copyDPI/25.4)
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if i, j := x+dx, y+dy; i >= 0 && j >= 0 && i < m.width && j < m.height && m.grey[j*m.width+i] < copyThreshold {
				return true
			}
		}
	}
	return false
}

// follow walks along a mark and compares the copy with the mark's own dashes, away from everything else drawn
// and from the dashes' ends.
func (m bitmap) follow(mark render.Mark, around []draft.Segment) (out tally) {
	runs, pen := linesOf(mark)
	const step, end = .05, .12 // mm; a pixel is 0.042 mm
	for _, run := range runs {
		along := 0.0
		for i := 1; i < len(run); i++ {
			long := float64(run[i].Sub(run[i-1]).Len())
			for at := 0.0; at < long; at += step {
				p := run[i-1].Lerp(run[i], at/long)
				on, edge := dashAt(pen, along+at)
				if edge < end || crowded(p, around) {
					continue
				}
				if m.black(p) == on {
					out.right++
				} else {
					out.wrong++
				}
			}
			along += long
		}
	}
	return out
}

// dashAt says whether a pen is down after a length, and how far the next end of a dash is.
func dashAt(pen render.Pen, at float64) (on bool, edge float64) {
	if pen.Dash == nil {
		return true, math.Inf(1)
	}
	period := 0.0
	for _, d := range pen.Dash {
		period += d * float64(pen.Width)
	}
	at = math.Mod(at, period)
	for i, d := range pen.Dash {
		d *= float64(pen.Width)
		if at < d {
			return i%2 == 0, math.Min(at, d-at)
		}
		at -= d
	}
	return true, 0
}

func linesOf(m render.Mark) ([][]draft.Point, render.Pen) {
	switch m := m.(type) {
	case *render.Stroke:
		return m.Path.Flatten(64), m.Pen
	case *render.Circle:
		var run []draft.Point
		for _, c := range geom.CircleCubics(m.Centre, m.R) {
			for i := range 64 {
				run = append(run, c.At(float64(i)/64))
			}
		}
		return [][]draft.Point{append(run, run[0])}, m.Pen
	}
	return nil, render.Pen{}
}

// linesByMark returns every mark of a page as straight pieces, but for the outline, which is gone in a copy.
func linesByMark(p render.Page) [][]draft.Segment {
	out := make([][]draft.Segment, len(p.Marks))
	for i, m := range p.Marks {
		if m.Tag().Guide != "outline" {
			out[i], _ = testsheet.DrawnOn(render.Page{Marks: []render.Mark{m}})
		}
	}
	return out
}

// others returns what the other marks draw near to mark i.
func others(lines [][]draft.Segment, i int) (out []draft.Segment) {
	if len(lines[i]) == 0 {
		return nil
	}
	around := draft.Box{Min: lines[i][0].A, Max: lines[i][0].A}
	for _, s := range lines[i] {
		for _, p := range []draft.Point{s.A, s.B} {
			around.Min = draft.Point{X: min(around.Min.X, p.X), Y: min(around.Min.Y, p.Y)}
			around.Max = draft.Point{X: max(around.Max.X, p.X), Y: max(around.Max.Y, p.Y)}
		}
	}
	for k, pieces := range lines {
		for _, s := range pieces {
			if k != i && s.Intersects(around.Grow(2*clearOf)) {
				out = append(out, s)
			}
		}
	}
	return out
}

// clearOf is how far others' lines are from a place that is looked at.
const clearOf geom.MM = .8

// crowded reports whether another line comes that near to p.
func crowded(p draft.Point, around []draft.Segment) bool {
	b := draft.Box{Min: p, Max: p}.Grow(clearOf)
	for _, s := range around {
		if s.Intersects(b) {
			return true
		}
	}
	return false
}

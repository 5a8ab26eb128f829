package sheet

import (
	"math"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/tile"
)

// Lines meet: what two neighbours show of one mark stands apart by the step of their windows, as written.
func TestLinesMeetAcrossJoints(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"A4", "letter"} {
		s := atScale(testsheet.Setting(t, name), 5.3)
		s.Outline = request.OutlineOn
		x := tilingOf(t, request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: s})
		step, pairs := x.grid.Step(), 0
		for _, at := range tilesOf(x.grid) {
			for _, next := range []tile.Tile{{Column: at.Column + 1, Row: at.Row}, {Column: at.Column, Row: at.Row + 1}} {
				a, b := x.find(at), x.find(next)
				if a == nil || b == nil {
					continue
				}
				by := map[byte]float64{'x': float64(step.X) * float64(next.Column-at.Column), 'y': float64(step.Y) * float64(next.Row-at.Row)}
				pairs += meet(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, *a)), testsheet.ReadSVG(t, testsheet.SvgOf(t, *b)), by)
			}
		}
		t.Logf("%s: %d marks cross a joint", name, pairs)
		if pairs < 60 {
			t.Errorf("%s: only %d marks cross a joint", name, pairs)
		}
	}
}

// meet compares the marks that two files share, and returns how many these are. What is the tile's own begins anew on each.
func meet(t *testing.T, a, b testsheet.SVG, by map[byte]float64) (shared int) {
	t.Helper()
	const micron = .0011 // two roundings
	for id, s := range a.Shapes {
		o, there := b.Shapes[id]
		if !there || s.Group == "" || s.Group == "guide-"+string(request.Tile) || s.Element == "g" {
			continue
		}
		shared++
		for key, v := range s.At {
			axis := strings.TrimLeft(strings.TrimRight(key, "12"), "c")
			switch {
			case key == "d":
				p, q := testsheet.PathSteps(t, v), testsheet.PathSteps(t, o.At["d"])
				for i := range p {
					for k, n := range p[i].Numbers {
						if d := n - q[i].Numbers[k] - by[p[i].Kind(k)]; math.Abs(d) > micron {
							t.Fatalf("%s, step %d: %v and %v do not meet", id, i, p[i], q[i])
						}
					}
				}
			case axis == "x" || axis == "y":
				if d := s.Num(t, key) - o.Num(t, key) - by[axis[0]]; math.Abs(d) > micron {
					t.Errorf("%s: %s is %v and %v, which do not meet", id, key, v, o.At[key])
				}
			case key != "id" && v != o.At[key]:
				t.Errorf("%s: %s is %s and %s", id, key, v, o.At[key])
			}
		}
	}
	return shared
}

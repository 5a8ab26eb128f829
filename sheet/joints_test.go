package sheet

import (
	"math"
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/render/request"
)

// Lines meet: what two neighbours show of one mark stands apart by the step of their windows, as written.
func TestLinesMeetAcrossJoints(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"A4", "letter"} {
		s := atScale(setting(t, name), 5.3)
		s.Outline = request.On
		x := tilingOf(t, request.Request{Plans: []layout.Plan{plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: s})
		step, pairs := x.grid.step(), 0
		for _, at := range x.grid.tiles() {
			for _, next := range []tile{{at.column + 1, at.row}, {at.column, at.row + 1}} {
				a, b := x.find(at), x.find(next)
				if a == nil || b == nil {
					continue
				}
				by := map[byte]float64{'x': float64(step.X) * float64(next.column-at.column), 'y': float64(step.Y) * float64(next.row-at.row)}
				pairs += meet(t, readSVG(t, svgOf(t, *a)), readSVG(t, svgOf(t, *b)), by)
			}
		}
		t.Logf("%s: %d marks cross a joint", name, pairs)
		if pairs < 60 {
			t.Errorf("%s: only %d marks cross a joint", name, pairs)
		}
	}
}

// meet compares the marks that two files share, and returns how many these are. What is the tile's own begins anew on each.
func meet(t *testing.T, a, b svgFile, by map[byte]float64) (shared int) {
	t.Helper()
	const micron = .0011 // two roundings
	for id, s := range a.shapes {
		o, there := b.shapes[id]
		if !there || s.group == "" || s.group == "guide-"+string(tileGuide) || s.element == "g" {
			continue
		}
		shared++
		for key, v := range s.at {
			axis := strings.TrimLeft(strings.TrimRight(key, "12"), "c")
			switch {
			case key == "d":
				p, q := pathSteps(t, v), pathSteps(t, o.at["d"])
				for i := range p {
					for k, n := range p[i].numbers {
						if d := n - q[i].numbers[k] - by[p[i].kind(k)]; math.Abs(d) > micron {
							t.Fatalf("%s, step %d: %v and %v do not meet", id, i, p[i], q[i])
						}
					}
				}
			case axis == "x" || axis == "y":
				if d := s.num(t, key) - o.num(t, key) - by[axis[0]]; math.Abs(d) > micron {
					t.Errorf("%s: %s is %v and %v, which do not meet", id, key, v, o.at[key])
				}
			case key != "id" && v != o.at[key]:
				t.Errorf("%s: %s is %s and %s", id, key, v, o.at[key])
			}
		}
	}
	return shared
}

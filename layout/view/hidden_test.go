package view

import (
	"math"
	"slices"
	"testing"

	"hubrule/internal/geom"
)

// The tolerances of hiding, at the outer face of a tyre, which is a true plane: a line that stands free counts as on it up to bias
// behind it, and a vertex of a surface, which is tested lift before it, up to both together. .001 w are less than a millimetre on the
// vehicle, and .01 w are told apart by the eye on the largest paper.
func TestToleranceOfHiding(t *testing.T) {
	t.Parallel()
	sc := shotOf(t, "suv", "side")
	w := sc.solid.Wheels()[0]
	for _, c := range []struct {
		behind     float64 // the face
		free, tied bool    // hidden
	}{{-.01, false, false}, {.001, false, false}, {.005, true, false}, {.01, true, true}} {
		z := float64(w.Centre.Z) - c.behind
		v := vertex{point3(float64(w.Centre.X)-.1, float64(w.Centre.Y)+.1, z), Point3{}}
		if got := (&look{sc.Scene, &Line{}, nothing}).isHidden(v); got != c.free {
			t.Errorf("a free line %g w behind a tyre's face: hidden is %v", c.behind, got)
		}
		v.normal = Point3{Z: 1}
		if got := (&look{sc.Scene, &Line{}, nothing}).isHidden(v); got != c.tied {
			t.Errorf("a surface %g w behind a tyre's face: hidden is %v", c.behind, got)
		}
	}
}

// The mesh hides nothing of the surface that it stands for. lift is the physical tolerance: facets lie outside the surface where it is
// hollow, and bias alone would not do where the surface is seen at a flat angle.
func TestMeshDoesNotHideItsSurface(t *testing.T) {
	t.Parallel()
	const flat = -.1 // cosine of the angle between normal and sight, from where on the surface counts as facing the eye
	for _, name := range []string{"suv", "pickup"} {
		for _, camera := range []string{"front-quarter", "rear-quarter"} {
			sc := shotOf(t, name, camera)
			looked, wrong := 0, 0
			for _, p := range sc.panels {
				if !p.arched {
					continue
				}
				for i := 0; i+1 < len(p.nodes); i += 2 {
					for j := 1; j+2 < len(p.nodes[i]); j += 3 {
						v := p.at(p.nodes[i][j].q.mix(p.nodes[i+1][j+1].q, .5), noBoundary)
						if v.p.Z < .05 || sc.facing(v)/float64(sc.Camera.sightLine(v.p).Len()) > flat || !sc.isOpen(v) {
							continue
						}
						looked++
						if (&look{sc.Scene, &Line{arched: true}, nothing}).isHidden(v) {
							wrong++
						}
					}
				}
			}
			if looked < 300 || wrong > 0 {
				t.Errorf("%s, %s: the mesh hides %d of %d places of its surface", name, camera, wrong, looked)
			}
		}
	}
}

// isOpen reports whether nothing stands between the eye and v, by the half-width function and the fittings alone. Places in the arches and on the
// bonnet under the screen's bow, which is no part of that function, count as covered.
func (sc shot) isOpen(v vertex) bool {
	const step, beside = .02, .01
	s, sight := sc.solid, sc.Camera.sightLine(v.p).Unit()
	if x := float64(v.p.X); s.inArch(place{x, float64(v.p.Y)}) || x > s.places.screenFoot.x && x < s.places.cowl.x {
		return false
	}
	for way := step; way < 3; way += step {
		q := v.p.Sub(sight.Times(way))
		x, y := float64(q.X), float64(q.Y)
		if slices.ContainsFunc(s.fittings(), func(e superEllipsoid) bool { return e.holds(q) }) {
			return false
		}
		if half := max(s.halfOf(x, y, false), float64(s.HalfWidth(point{X: q.X, Y: q.Y}))); math.Abs(float64(q.Z)) < half+beside {
			return false
		}
	}
	return true
}

// From behind, side glass round the roof's corner and a lid on the deck lie all but edge-on: no sliver
// of them is drawn. From above both are.
func TestEdgeOnLines(t *testing.T) {
	t.Parallel()
	s := solidOf(t, "sedan-large")
	rear, top := NewScene(s, Rear()), NewScene(s, Top())
	for _, l := range s.Lines() {
		if l.Name != "glass-left" && l.Name != "lid" {
			continue
		}
		for _, run := range rear.Visible(l) {
			box := geom.BoxOf(run.Points[0], run.Points...)
			if float64(-box.Min.Y) > s.places.foot.y-.02 {
				t.Errorf("%s is seen from behind up to %.2f", l.Name, -box.Min.Y)
			}
		}
		if len(top.Visible(l)) == 0 {
			t.Errorf("%s is not seen from above", l.Name)
		}
	}
}

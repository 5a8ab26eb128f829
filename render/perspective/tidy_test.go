package perspective

import (
	"math"
	"slices"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// doubled returns the longest stretch of the contour that lies on another line of the body, and the shortest open piece of all, in mm.
func doubled(d *drawing, lines []lineRuns) (longest, shortest geom.MM) {
	shortest = geom.MM(math.Inf(1))
	var runs [][]draft.Point
	var contours []int
	for _, l := range lines {
		if _, drawn := rank[l.kind]; !drawn || l.kind == view.PillarLine {
			continue
		}
		for _, run := range l.seen {
			if l.kind == view.ContourLine {
				contours = append(contours, len(runs))
			}
			at := d.onPage(d.fine(run))
			runs = append(runs, at)
			if p := d.newPiece(0, l.kind, run); at[0].Sub(at[len(at)-1]).Len() > .01 {
				shortest = min(shortest, p.length)
			}
		}
	}
	all := index{}
	for i, run := range runs {
		all.add(i, run)
	}
	for _, c := range contours {
		length, run := geom.MM(0), runs[c]
		for i := 1; i < len(run); i++ {
			if middle := run[i-1].Lerp(run[i], .5); onOther(all, c, middle, run[i].Sub(run[i-1])) {
				length += run[i].Sub(run[i-1]).Len()
			} else {
				length = 0
			}
			longest = max(longest, length)
		}
	}
	return longest, shortest
}

// onOther reports whether p lies within a tenth of a millimetre of another run of the same direction, to 8°.
func onOther(all index, own int, p, direction draft.Point) bool {
	return slices.ContainsFunc(all.near(p), func(s chord) bool {
		along, off := s.B.Sub(s.A), p.Sub(s.A)
		at := float64(off.Dot(along.Unit()))
		return s.piece != own && math.Abs(float64(along.Unit().Dot(direction.Unit()))) > .99 &&
			math.Abs(float64(along.Unit().Cross(off))) < .1 && at >= 0 && at <= float64(along.Len())
	})
}

// The contour is not drawn over an edge, and no piece of a line is so short that it reads as a dash. Untidied pictures have both.
func TestCleanLines(t *testing.T) {
	t.Parallel()
	var worst, least geom.MM = 0, 100
	for i, name := range []string{"sedan", "coupe", "suv"} {
		spec := view.Presets()[2*i]
		s, err := newProjection(testsheet.Plan(t, name), spec)
		if err != nil {
			t.Fatal(err)
		}
		d := testDrawing(s)
		raw, short := doubled(d, d.lines())
		worst, least = max(worst, raw), min(least, short)
		if along, piece := doubled(d, d.tidied()); along > 2 || piece < 1.5 {
			t.Errorf("%s, %s: the contour runs along a line for %.1f mm; the shortest piece is %.1f mm", name, spec.Name, along, piece)
		}
	}
	if worst < 10 || least > 1 {
		t.Errorf("untidied: %.1f mm doubled, a piece of %.1f mm: too little to test with", worst, least)
	}
}

// What the body hides of the far A-pillar, and the far wheel behind the doors, are drawn only where they are asked for.
func TestHiddenPartsOnDemand(t *testing.T) {
	t.Parallel()
	for camera, ids := range map[string][]string{"rear-quarter": {"pillar-right", "wheel-front-right"}, "front-quarter": {"wheel-rear-right"}} {
		spec, _ := view.FindPreset(camera)
		s, err := newProjection(testsheet.Plan(t, "sedan"), spec)
		if err != nil {
			t.Fatal(err)
		}
		dashed := func(guides []request.Guide) map[string]bool {
			set := testsheet.Setting(t, "A3")
			set.Guides = guides
			d := testDrawing(s)
			d.full(set)
			out := map[string]bool{}
			for _, m := range d.Marks {
				switch m := m.(type) {
				case *render.Stroke:
					out[m.ID] = out[m.ID] || m.Pen.Dash != nil
				case *render.Ellipse:
					out[m.ID] = out[m.ID] || m.Pen.Dash != nil
				}
			}
			return out
		}
		unasked, asked := dashed(nil), dashed([]request.Guide{"outline", "pillar", "wheels"})
		for _, id := range ids {
			if unasked[id] || !asked[id] {
				t.Errorf("%s: hidden parts of %s: %v unasked, %v asked for", camera, id, unasked[id], asked[id])
			}
		}
	}
}

// testDrawing is a drawing with a near wheel of 60 mm.
func testDrawing(s *projection) *drawing {
	d := newDrawing(draft.NewSurface(draft.Box{Min: draft.Pt(-500, -500), Max: draft.Pt(500, 500)}, draft.InksOf(request.Dark)), s, request.Wheels, 1)
	d.mapping = mapping{focal: 60 / geom.MM(s.nearHeight())}
	return d
}

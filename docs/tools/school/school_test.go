package main

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/segments"
	"hubrule/segments/reading"
)

const root = "../../.."

// The marks beside the pictures are the tool's own.
func TestMarksAreFresh(t *testing.T) {
	const cropped = 7
	c := cars()[cropped]
	p, err := c.plan()
	if err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile(filepath.Join(root, folder, "photos", c.name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if fresh := c.marksFile(cropped, newRelief(p), c.shot.camera(p)); fresh != string(old) {
		t.Errorf("%s.yaml is not the tool's; run make docs:\n%s", c.name, fresh)
	}
}

// heights are the figures that fall with the body when tyres are flattened.
var heights = map[segments.Figure]bool{
	segments.Sill: true, segments.Height: true, segments.Belt: true, segments.PillarAim: true,
	segments.FrontLamp: true, segments.RearLamp: true,
}

// truth is a figure of the vehicle as it was painted: a segment's lamps stand a little over or under their figure.
func truth(p layout.Plan, f segments.Figure) float64 {
	ends := func(l outline.Lens) (low, high geom.Wheels) {
		return min(l.LowOuter.Y, l.LowInner.Y), max(l.HighOuter.Y, l.HighInner.Y)
	}
	low, high := ends(outline.Of(p).FrontLamp)
	switch f {
	case segments.FrontLamp:
		return float64(low)
	case segments.LampDepth:
		return float64(high - low)
	case segments.LampOffset:
		return float64(low - 1 - p.ArchGap())
	case segments.RearLamp:
		low, _ = ends(outline.Of(p).RearLamp)
		return float64(low)
	}
	return p.Value(f)
}

// What the program reads off the marks on the school's pictures is true: at least nine of ten figures lie within their ±, and no ± is so
// wide that this says nothing.
func TestReadingsAreTrue(t *testing.T) {
	held, all := 0, 0
	for _, c := range cars() {
		p, err := c.plan()
		if err != nil {
			t.Fatal(err)
		}
		file, err := reading.LoadMarks(filepath.Join(root, folder, "photos", c.name+".yaml"), nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := file.Reading()
		if err != nil {
			t.Fatal(err)
		}
		for f := range segments.FigureCount {
			v := r.Figures[f]
			if v.State != reading.Read {
				continue
			}
			want := truth(p, f)
			if heights[f] {
				want -= c.shot.sunk
			}
			if all++; math.Abs(v.Value-want) <= v.PM {
				held++
			} else {
				t.Logf("%s: %s is %.3f ± %.3f, in truth %.3f", c.name, f, v.Value, v.PM, want)
			}
			if f == segments.WheelsBetween && v.PM > .08 || f == segments.Height && v.PM > .08 {
				t.Errorf("%s: %s is read to ± %.3f only", c.name, f, v.PM)
			}
		}
	}
	if all < 9*18 || 10*held < 9*all {
		t.Errorf("%d of %d figures lie within their ±; want nine of ten", held, all)
	}
	t.Logf("%d of %d", held, all)
}

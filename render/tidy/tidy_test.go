package tidy

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// doubled returns the longest stretch of the contour that lies on another line of the body, and the shortest open piece of all, in mm.
func doubled(c Canvas, lines []Line) (longest, shortest geom.MM) {
	shortest = geom.MM(math.Inf(1))
	var runs [][]view.ImagePoint
	var contours []int
	for _, l := range lines {
		if _, drawn := rank[l.Kind]; !drawn || l.Kind == view.PillarLine {
			continue
		}
		for _, run := range l.Runs {
			if l.Kind == view.ContourLine {
				contours = append(contours, len(runs))
			}
			runs = append(runs, c.fine(run))
			if p := c.newPiece(0, l.Kind, run); c.length(run[0].Sub(run[len(run)-1]).Len()) > .01 {
				shortest = min(shortest, p.length)
			}
		}
	}
	var pieces []piece
	for _, l := range lines {
		for _, run := range l.Runs {
			pieces = append(pieces, c.newPiece(0, l.Kind, run))
		}
	}
	all := c.newIndex(pieces)
	for i, run := range runs {
		all.add(i, run)
	}
	for _, i := range contours {
		length, run := geom.MM(0), runs[i]
		for k := 1; k < len(run); k++ {
			a, b := c.toPage(run[k-1]), c.toPage(run[k])
			if onOther(all, i, a.Lerp(b, .5), b.Sub(a)) {
				length += b.Sub(a).Len()
			} else {
				length = 0
			}
			longest = max(longest, length)
		}
	}
	return longest, shortest
}

// onOther reports whether p lies within a tenth of a millimetre of another run of the same direction, to 8°.
func onOther(all *index, own int, p, direction draft.Point) bool {
	for s := range all.near(p) {
		along, off := s.B.Sub(s.A), p.Sub(s.A)
		at := float64(off.Dot(along.Unit()))
		if s.piece != own && math.Abs(float64(along.Unit().Dot(direction.Unit()))) > .99 &&
			math.Abs(float64(along.Unit().Cross(off))) < .1 && at >= 0 && at <= float64(along.Len()) {
			return true
		}
	}
	return false
}

// seen returns what one of the presets sees of a typical vehicle, on a canvas with a near wheel of 60 mm.
func seen(t *testing.T, name string, spec view.CameraSpec) (Canvas, []Line) {
	t.Helper()
	plan := testsheet.Plan(t, name)
	camera, err := spec.Camera(plan)
	if err != nil {
		t.Fatal(err)
	}
	solid, c, high := view.NewSolid(plan), Canvas{Wheel: 60}, view.ImageLength(0)
	for _, w := range solid.Wheels() {
		image, err := camera.WheelImage(w)
		if err != nil {
			t.Fatal(err)
		}
		high = max(high, 2*image.Outer.Half.Y)
		for _, e := range []view.Ellipse{image.Outer, image.Inner} {
			var run []view.ImagePoint
			for k := range 97 {
				run = append(run, e.At(2*math.Pi*float64(k)/96))
			}
			c.Others = append(c.Others, run)
		}
	}
	c.Focal = 60 / geom.MM(high)
	scene, at, lines := view.NewScene(solid, camera), map[string]int{}, []Line(nil)
	for _, l := range append(solid.Lines(), scene.Contour()...) {
		i, known := at[l.Name]
		if !known {
			i, lines = len(lines), append(lines, Line{Kind: l.Kind, Fixed: l.Kind == view.PillarLine})
			at[l.Name] = i
		}
		for _, run := range scene.Visible(l) {
			lines[i].Runs = append(lines[i].Runs, run.Points)
		}
	}
	return c, lines
}

// The contour is not drawn over an edge, and no piece of a line is so short that it reads as a dash. Untidied pictures have both.
func TestCleanLines(t *testing.T) {
	t.Parallel()
	var worst, least geom.MM = 0, 100
	for i, name := range []string{"sedan", "coupe", "suv"} {
		spec := view.Presets()[2*i]
		c, lines := seen(t, name, spec)
		raw, short := doubled(c, lines)
		worst, least = max(worst, raw), min(least, short)
		for k, runs := range c.Lines(lines) {
			lines[k].Runs = runs
		}
		if along, piece := doubled(c, lines); along > 2 || piece < 1.5 {
			t.Errorf("%s, %s: the contour runs along a line for %.1f mm; the shortest piece is %.1f mm", name, spec.Name, along, piece)
		}
	}
	if worst < 10 || least > 1 {
		t.Errorf("untidied: %.1f mm doubled, a piece of %.1f mm: too little to test with", worst, least)
	}
}

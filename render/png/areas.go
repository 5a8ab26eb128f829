package png

import (
	"fmt"
	"image"
	"math"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
)

// area is what one mark covers in an image, in one ink. Inside is what the loops wind round; with evenOdd, what an odd
// number of the loops holds, none of which then crosses itself.
type area struct {
	loops   []loop
	boxes   []geom.Box[pixel] // of each loop
	box     geom.Box[pixel]   // of all
	ink     render.Colour
	evenOdd bool
	clip    image.Rectangle // what is seen of it, in steps of the rasteriser's grid
	shown   *shown          // in place of the ink; or nil
}

// areas turns the marks of page into areas of an image of a size, in the order of painting. Scale is in pixels a millimetre.
func areas(page render.Page, scale float64, size image.Point) []area {
	s := scene{scale: scale, size: size}
	for g, marks := range page.Layers() {
		s.clip = image.Rect(math.MinInt32, math.MinInt32, math.MaxInt32, math.MaxInt32)
		if page.Clips(g) {
			steps := func(l geom.MM) int { return int(math.Round(float64(l) * scale * grid)) }
			at, to := page.ClipCorners()
			s.clip = image.Rect(steps(at.X), steps(at.Y), steps(to.X), steps(to.Y))
		}
		for _, m := range marks {
			s.mark(m)
		}
	}
	return s.areas
}

// scene collects areas.
type scene struct {
	scale float64
	size  image.Point
	areas []area
	clip  image.Rectangle // of the marks that follow
}

// inPixels carries page millimetres into pixels; toPixels carries them as files spell them.
func (s *scene) inPixels(p render.Point) pixelPoint {
	return pixelPoint{X: pixel(p.X), Y: pixel(p.Y)}.Times(s.scale)
}
func (s *scene) toPixels(p render.Point) pixelPoint { return s.inPixels(render.RoundPoint(p)) }

func (s *scene) mark(m render.Mark) {
	switch m := m.(type) {
	case *render.Stroke:
		s.stroke(flatten(m.Path, s.toPixels), m.Pen)
	case *render.Fill:
		var loops []loop
		for _, c := range flatten(m.Path, s.toPixels) {
			loops = append(loops, simpleLoops(c.points)...)
		}
		s.add(area{loops: loops, ink: m.Ink, evenOdd: true})
	case *render.Circle:
		lines := flatten(m.Outline(), s.toPixels)
		if m.Fill != nil {
			s.fill(lines, *m.Fill)
		}
		s.stroke(lines, m.Pen)
	case *render.Ellipse:
		s.stroke(flatten(m.Outline(), s.toPixels), m.Pen)
	case *render.Text:
		for i, letters := range m.Outlines() { // they are not rounded first
			s.fill(flatten(letters, s.inPixels), m.Spans[i].Ink)
		}
	case *render.Picture:
		s.picture(m)
	default:
		panic(fmt.Sprintf("png: cannot draw %T", m))
	}
}

// stroke adds what a pen draws along the lines. A pen of no width draws nothing.
func (s *scene) stroke(lines []polyline, p render.Pen) {
	if render.Round(p.Width) == 0 {
		return
	}
	pattern := slice.Map(p.Dash, func(d float64) float64 { return float64(render.Round(d*float64(p.Width)) * s.scale) })
	var loops []loop
	for _, line := range lines {
		dashes := []polyline{line}
		if pattern != nil {
			dashes = line.dashed(pattern)
		}
		for _, d := range dashes {
			loops = append(loops, d.outline(float64(render.Round(p.Width)*s.scale)/2)...)
		}
	}
	s.add(area{loops: loops, ink: p.Ink})
}

// fill adds what the lines wind round.
func (s *scene) fill(lines []polyline, ink render.Colour) {
	a := area{ink: ink}
	for _, line := range lines {
		a.loops = append(a.loops, line.points)
	}
	s.add(a)
}

// add appends a with its boxes, snapped to the rasteriser's grid; what covers nothing is left out.
func (s *scene) add(a area) {
	if len(a.loops) == 0 {
		return
	}
	for i, l := range a.loops {
		a.loops[i] = make(loop, len(l)) // the points of a line may be drawn twice
		for k, p := range l {
			a.loops[i][k] = snapped(p)
		}
		b := geom.BoxOf(a.loops[i][0], a.loops[i][1:]...)
		if i == 0 {
			a.box = b
		}
		a.boxes = append(a.boxes, b)
		a.box = geom.BoxOf(a.box.Min, a.box.Max, b.Min, b.Max)
	}
	a.clip = s.clip
	s.areas = append(s.areas, a)
}

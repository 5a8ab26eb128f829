package png

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
)

// pixel is a length in pixels of an image.
type pixel float64

// pixelPoint is a place in an image: pixels, x right and y down from its top left corner.
type pixelPoint = geom.Point[pixel]

// polyline is a polyline in an image. Neighbours are at least near apart, the ends of a closed one included.
type polyline struct {
	points []pixelPoint
	closed bool
}

// flatness is how far, in pixels, a chord may run from its curve: far less than an eye sees.
const flatness = 0.04

// coincident is the distance, in pixels, under which two points are one: a step as short as this has no direction to rely on.
const coincident = 1. / 64

// flattener turns the steps of a path into polylines.
type flattener struct {
	lines []polyline
	run   []pixelPoint
}

// flatten returns the runs of p, carried into the image, as polylines. Runs of a single point are left out: they draw nothing.
func flatten(p render.Path, at func(render.Point) pixelPoint) []polyline {
	var c flattener
	var start, from render.Point
	for _, s := range p {
		switch s.Verb {
		case geom.MoveTo:
			c.end(false)
			start = s.To
		case geom.LineTo:
			c.to(at(from), at(s.To))
		case geom.CurveTo:
			c.curve(geom.Cubic[pixel]{at(from), at(s.C1), at(s.C2), at(s.To)})
		case geom.ArcTo:
			if render.RoundPoint(from) == render.RoundPoint(s.To) {
				break // as in SVG, an arc back to where it starts is none
			}
			arc := render.Path{{Verb: geom.MoveTo, To: from}, s}
			for _, q := range arc.Cubics()[0] {
				c.curve(geom.Cubic[pixel]{at(q[0]), at(q[1]), at(q[2]), at(q[3])})
			}
		case geom.Close:
			c.end(true)
			s.To = start
		default:
			panic(fmt.Sprintf("png: no verb %d", s.Verb))
		}
		from = s.To
	}
	c.end(false)
	return c.lines
}

// to goes straight on; a first step starts the run at from.
func (c *flattener) to(from, to pixelPoint) {
	if len(c.run) == 0 {
		c.run = append(c.run, from)
	}
	if length(to.Sub(c.run[len(c.run)-1])) >= coincident {
		c.run = append(c.run, to)
	}
}

// curve goes on in chords that stay within flat of q (Wang's bound on the second differences).
func (c *flattener) curve(q geom.Cubic[pixel]) {
	bend := max(length(q[0].Add(q[2]).Sub(q[1].Times(2))), length(q[1].Add(q[3]).Sub(q[2].Times(2))))
	n := max(1, int(math.Ceil(math.Sqrt(0.75*bend/flatness))))
	for i := 1; i <= n; i++ {
		c.to(q[0], q.At(float64(i)/float64(n)))
	}
}

// end finishes the run, if there is one.
func (c *flattener) end(closed bool) {
	run := c.run
	c.run = nil
	if closed {
		for len(run) > 1 && length(run[len(run)-1].Sub(run[0])) < coincident {
			run = run[:len(run)-1]
		}
	}
	if len(run) > 1 {
		c.lines = append(c.lines, polyline{run, closed})
	}
}

// length returns the length of v. math.Hypot is not the same to the last bit on every machine; a square root is.
func length(v pixelPoint) float64 { return math.Sqrt(v.Dot(v)) }

// unit returns v at length 1. v is not zero.
func unit(v pixelPoint) pixelPoint { return v.Times(1 / length(v)) }

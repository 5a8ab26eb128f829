package sheet

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
)

// spot is a place for a numeral near the centre of a counted wheel, in wheels.
type spot struct{ dx, dy float64 }

// grid is the distance of the places that are tried, in wheels.
const grid = .05

// high is the grid's half height, in twentieths.
const high = 8

// search says where a numeral may stand: wanted first, then outwards on a grid of a twentieth of a wheel.
type search struct {
	wanted  spot
	within  float64     // of the wheel's centre; 0: anywhere on the grid
	wide    int         // the grid's half width, in twentieths
	ceiling geom.Wheels // its top stays below this height; 0: no ceiling
}

// numeral writes l at the free spot nearest to the wanted one and reports whether there was one.
func (d *drawing) numeral(l label, c layout.Point, s search) bool {
	best, found := math.Inf(1), point{}
	// No box that is tried below reaches further than this.
	centre, across, up := d.onPage(c), d.long(geom.Wheels(max(float64(s.wide)*grid, math.Abs(s.wanted.dx)))), d.long(geom.Wheels(max(high*grid, math.Abs(s.wanted.dy))))
	reach := point{X: across + l.width/2 + 1, Y: up + l.height/2 + 1}
	around := d.near(box{Min: centre.Sub(reach), Max: centre.Add(reach)})
	for _, p := range s.spots() {
		far := math.Hypot(p.dx-s.wanted.dx, p.dy-s.wanted.dy)
		if far >= best {
			continue
		}
		at := d.onPage(c.Add(layout.Point{X: geom.Wheels(p.dx), Y: geom.Wheels(p.dy)}))
		at.Y -= l.height / 2
		if s.ceiling > 0 && at.Y < d.y(s.ceiling)+.4 {
			continue
		}
		if around.free(l.box(at.X, at.Y, render.Middle), .6) {
			best, found = far, at
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	d.write("labels", l, found.X, found.Y, render.Middle)
	return true
}

// spots lists the places to try: the wanted one, then the grid's.
func (s search) spots() []spot {
	out := append(make([]spot, 0, (2*s.wide+1)*(2*high+1)+1), s.wanted)
	for i := -s.wide; i <= s.wide; i++ {
		for j := -high; j <= high; j++ {
			p := spot{float64(i) * grid, float64(j) * grid}
			if s.within == 0 || math.Hypot(p.dx, p.dy) <= s.within {
				out = append(out, p)
			}
		}
	}
	return out
}

// numerals counts: in the upper half of each wheel, clear of axle line, sill and outline.
func (d *drawing) numerals() error {
	if d.wants("between") {
		for k := 1; k <= wholeWheels(d.plan.WheelsBetween()); k++ {
			found := d.countIn(k, layout.Point{X: geom.Wheels(k), Y: .5}, search{wanted: spot{0, .25}, within: .38, wide: 8})
			if !found && d.way.near {
				return tight("the counts between the wheels")
			}
		}
	}
	if d.wants("stack") {
		return d.stackNumerals()
	}
	return nil
}

// countIn writes the count k into a wheel, in smaller lettering where the larger finds no room.
func (d *drawing) countIn(k int, c layout.Point, s search) bool {
	for _, height := range []geom.MM{medium, small} {
		if d.numeral(newLabel([]word{{text: fmt.Sprint(k), height: height, weight: render.Medium, role: words}}), c, s) {
			return true
		}
	}
	return false
}

// stackNumerals counts the stack. A left-over is written inside its used part, smaller if need be, or else beside it on a leader.
func (d *drawing) stackNumerals() error {
	p := d.plan
	// A rear tyre of another size is no counted wheel: the strip says what the counts are in.
	if d.wants("wheels") && p.TyreRatio() == 1 {
		found := d.countIn(1, layout.Point{X: p.Wheelbase(), Y: .5}, search{wanted: spot{.15, .2}, within: .4, wide: 8})
		if !found && d.way.near {
			return tight("the counts of the stack")
		}
	}
	for k := 1; float64(k) < float64(p.Height())-leastRest; k++ {
		c := layout.Point{X: p.Wheelbase(), Y: geom.Wheels(k) + .5}
		part := min(1, p.Height()-geom.Wheels(k))
		if part >= .995 {
			if !d.countIn(k+1, c, search{wanted: spot{0, .12}, within: .46, wide: 8}) && d.way.near {
				return tight("the counts of the stack")
			}
			continue
		}
		if !d.leftOver(c, part) {
			return tight("what is left over of the stack")
		}
	}
	return nil
}

// leftOver writes how much of the stack's last wheel, round c, is used.
func (d *drawing) leftOver(c layout.Point, part geom.Wheels) bool {
	for _, height := range []geom.MM{medium, small} {
		l := newLabel([]word{{text: "+ " + d.length(part), height: height, weight: render.Medium, role: words}})
		inside := search{wanted: spot{0, float64(part)/2 - .5}, within: .46, wide: 8, ceiling: d.plan.Height()}
		if d.numeral(l, c, inside) {
			return true
		}
	}
	return d.besideStack(newLabel([]word{value("+ " + d.length(part))}), layout.Point{X: c.X, Y: c.Y - .5 + part/2})
}

// besideStack writes l beside the stack, at the end of a leader from the used part at p: the nearest free place wins.
func (d *drawing) besideStack(l label, p layout.Point) bool {
	from := d.onPage(p)
	best := math.Inf(1)
	var line segment
	var side render.Anchor
	for _, anchor := range []render.Anchor{render.Start, render.End} {
		out := geom.MM(1)
		if anchor == render.End {
			out = -1
		}
		for along := geom.MM(3); along < d.long(1.5); along++ {
			for up := -d.long(.6); up < d.long(1.2); up++ {
				end := point{X: from.X + out*along, Y: from.Y - up}
				far := float64(end.Sub(from).Len())
				b := l.box(end.X+geom.MM(out*.9), end.Y-l.lift(), anchor)
				post := segment{from, end}
				if far < best && d.space.Contains(b) && d.free(b, .9) && d.clears(post) {
					best, line, side = far, post, anchor
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	out := geom.MM(.9)
	if side == render.End {
		out = -out
	}
	d.leader(line.a, line.b)
	d.write("labels", l, line.b.X+out, line.b.Y-l.lift(), side)
	return true
}

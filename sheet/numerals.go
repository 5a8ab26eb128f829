package sheet

import (
	"fmt"
	"math"

	"hubrule/geom"
	"hubrule/layout"
	"hubrule/render"
)

// spot is a place for a numeral near the centre of a counted wheel, in wheels.
type spot struct{ dx, dy float64 }

// grid is the distance of the places that are tried, in wheels.
const grid = .05

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
	reach := geom.Wheels(float64(s.wide)*grid + 1)
	around := d.near(box{
		Min: d.onPage(layout.Point{X: c.X - reach, Y: c.Y + 1}),
		Max: d.onPage(layout.Point{X: c.X + reach, Y: c.Y - 1}),
	})
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
	const high = 8
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
		for k := 1; k <= wholeWheels(d.plan.WheelsBetween); k++ {
			l := newLabel([]word{count(fmt.Sprint(k))})
			found := d.numeral(l, layout.Point{X: geom.Wheels(k), Y: .5}, search{wanted: spot{0, .25}, within: .38, wide: 8})
			if !found && d.way.near {
				return tight("the counts between the wheels")
			}
		}
	}
	if d.wants("stack") {
		d.stackNumerals()
	}
	return nil
}

// stackNumerals counts the stack. A left-over is written inside its used part, smaller if need be, or else beside it;
// never in the unused part.
func (d *drawing) stackNumerals() {
	p := d.plan
	if d.wants("wheels") && p.Q == 1 {
		d.numeral(newLabel([]word{count("1")}), layout.Point{X: p.Wheelbase, Y: .5}, search{wanted: spot{.15, .2}, within: .32, wide: 8})
	}
	for k := 1; float64(k) < float64(p.Height)-leastRest; k++ {
		c := layout.Point{X: p.Wheelbase, Y: geom.Wheels(k) + .5}
		part := min(1, p.Height-geom.Wheels(k))
		text, wanted, ceiling := fmt.Sprint(k+1), spot{0, .12}, geom.Wheels(0)
		if part < .995 {
			text, wanted, ceiling = "+ "+d.length(part), spot{0, float64(part)/2 - .5}, p.Height
		}
		for _, try := range []struct {
			height geom.MM
			within float64
			wide   int
		}{{medium, .46, 8}, {small, .46, 8}, {medium, 0, 22}, {small, 0, 22}} {
			l := newLabel([]word{{text, try.height, render.Medium, words}})
			if d.numeral(l, c, search{wanted, try.within, try.wide, ceiling}) {
				break
			}
		}
	}
}

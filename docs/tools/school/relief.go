package main

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/layout/view"
)

// relief is a body as a table of half-widths over the side view, in wheels.
type relief struct {
	plan   layout.Plan
	solid  *view.Solid
	wheels [4]view.Wheel
	arches [2]outline.Arch
	x0     float64
	widest float64
	half   [][]float64 // by x, then y
}

// grain is how far apart the table's places are.
const grain = .006

func newRelief(p layout.Plan) *relief {
	solid := view.NewSolid(p)
	o := outline.Of(p)
	side := o.Line("body").Flatten(24)[0]
	r := &relief{plan: p, solid: solid, wheels: solid.Wheels(), x0: float64(p.Nose()) - 2*grain}
	r.arches = [2]outline.Arch{o.FrontArch, o.RearArch}
	columns, rows := int(float64(p.Length())/grain)+4, int(float64(p.Height())/grain)+3
	for i := range columns {
		column := make([]float64, rows)
		x := geom.Wheels(r.x0 + float64(i)*grain)
		edges := crossings(side, x)
		for j := range column {
			at := layout.Point{X: x, Y: geom.Wheels(float64(j) * grain)}
			if below, _ := slices.BinarySearch(edges, at.Y); below%2 == 1 {
				column[j] = float64(solid.HalfWidth(at))
				r.widest = math.Max(r.widest, column[j])
			}
		}
		r.half = append(r.half, column)
	}
	return r
}

// crossings returns the heights, in order, at which an upright line crosses a closed one.
func crossings(loop []layout.Point, x geom.Wheels) []geom.Wheels {
	var out []geom.Wheels
	for i, b := range loop {
		if a := loop[(i+len(loop)-1)%len(loop)]; (a.X > x) != (b.X > x) {
			out = append(out, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
		}
	}
	slices.Sort(out)
	return out
}

// at returns the half-width over a place of the side view; 0 where there is no body.
func (r *relief) at(x, y float64) float64 {
	u, v := (x-r.x0)/grain, y/grain
	i, j := int(math.Floor(u)), int(math.Floor(v))
	if i < 0 || j < 0 || i+1 >= len(r.half) || j+1 >= len(r.half[0]) {
		return 0
	}
	u, v = u-float64(i), v-float64(j)
	a, b := r.half[i], r.half[i+1]
	return (1-u)*((1-v)*a[j]+v*a[j+1]) + u*((1-v)*b[j]+v*b[j+1])
}

// inArch reports whether a place of the side view lies in a wheel arch.
func (r *relief) inArch(x, y float64) bool {
	for _, a := range r.arches {
		if math.Hypot(x-float64(a.Centre.X), y-float64(a.Centre.Y)) < float64(a.Radius) {
			return true
		}
	}
	return false
}

// part is what a line of sight meets.
type part uint8

const (
	nothing part = iota
	body
	house // a wheel house
	nearTyre
	farTyre
)

// hit is where a line of sight meets the vehicle.
type hit struct {
	part  part
	t     float64 // along the ray
	p     view.Point3
	wheel int
}

// meet follows a line of sight to the first thing that it meets.
func (r *relief) meet(eye, ray view.Point3, sunk float64) hit {
	best := hit{t: math.Inf(1)}
	take := func(part part, z geom.Wheels, wheel int, inside func(p view.Point3) bool) {
		t := float64((z - eye.Z) / ray.Z)
		if p := eye.Add(ray.Times(t)); t > 0 && t < best.t && inside(p) {
			best = hit{part, t, p, wheel}
		}
	}
	const discs = 7 // a tyre is so many, which is enough from nearly square-on
	for i, w := range r.wheels {
		disc := func(p view.Point3) bool {
			return math.Hypot(float64(p.X-w.Centre.X), float64(p.Y-w.Centre.Y)) < float64(w.Radius) && float64(p.Y) > sunk
		}
		outer, part := w.Centre, nearTyre
		inner := w.Inner
		if i > 1 {
			outer, inner, part = w.Inner, w.Centre, farTyre
		}
		for k := range discs {
			take(part, outer.Lerp(inner, float64(k)/(discs-1)).Z, i, disc)
		}
	}
	take(house, geom.Wheels(r.widest-.5), 0, func(p view.Point3) bool {
		return r.inArch(float64(p.X), float64(p.Y)) && float64(p.Y) > float64(r.plan.Sill())*.8
	})
	if t, ok := r.meetBody(eye, ray, best.t); ok {
		best = hit{part: body, t: t, p: eye.Add(ray.Times(t))}
	}
	return best
}

// meetBody marches from the vehicle's near side to its far one.
func (r *relief) meetBody(eye, ray view.Point3, limit float64) (float64, bool) {
	const stride = .04
	inside := func(t float64) bool {
		p := eye.Add(ray.Times(t))
		x, y := float64(p.X), float64(p.Y)
		return r.at(x, y) > math.Abs(float64(p.Z)) && !r.inArch(x, y)
	}
	from := (r.widest + .01 - float64(eye.Z)) / float64(ray.Z)
	to := math.Min(limit, (-r.widest-float64(eye.Z))/float64(ray.Z))
	step := stride / math.Abs(float64(ray.Z))
	for t := from; t < to; t += step {
		if inside(t) {
			lo, hi := t-step, t
			for range 12 {
				if mid := (lo + hi) / 2; inside(mid) {
					hi = mid
				} else {
					lo = mid
				}
			}
			return hi, true
		}
	}
	return 0, false
}

// normal returns the surface's direction at a place of it.
func (r *relief) normal(p view.Point3) view.Point3 {
	const d = 2 * grain
	x, y := float64(p.X), float64(p.Y)
	slope := func(a, b float64) float64 {
		if a == 0 || b == 0 { // the outline: the surface turns away there
			return 3 * (b - a) / (2 * d)
		}
		return (b - a) / (2 * d)
	}
	gx, gy := slope(r.at(x-d, y), r.at(x+d, y)), slope(r.at(x, y-d), r.at(x, y+d))
	return view.Point3{X: geom.Wheels(-gx), Y: geom.Wheels(-gy), Z: geom.Wheels(math.Copysign(1, float64(p.Z)))}.Unit()
}

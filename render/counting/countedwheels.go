package counting

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/request"
)

// The counting grammar, the same along and up: a counted wheel is dashed; of a wheel that is used only
// in part, the rest is dotted.

// usedPart is the part of a counted wheel that counts, from lo to hi along one axis, in plan space.
type usedPart struct {
	lo, hi geom.Wheels
	up     bool        // measured along y
	cut    geom.Wheels // where the unused part ends; +∞ for the whole circle, 0: it is not drawn
}

// countedWheel draws one unit wheel round c of which only part u is used.
func (d *Drawing) countedWheel(guide request.Guide, id string, c layout.Point, u usedPart) {
	middle, turn := c.X, 0.0
	if u.up {
		middle, turn = c.Y, math.Pi/2
	}
	angle := func(at geom.Wheels) float64 {
		return math.Acos(math.Max(-1, math.Min(1, float64(at-middle)/.5)))
	}
	used := func(from, to float64) { d.arc(CountedLine().For(guide, id), arc{c, .5, from + turn, to + turn}) }
	spare := func(from, to float64) { d.arc(SpareLine().For(guide, ""), arc{c, .5, from + turn, to + turn}) }
	if d.Tiled {
		u.cut = 0
	}
	const hairsbreadth = 1e-6
	fromStart, toEnd := u.lo <= middle-.5+hairsbreadth, u.hi >= middle+.5-hairsbreadth
	switch {
	case fromStart && toEnd:
		d.wheelAt(CountedLine().For(guide, id), c, .5)
	case fromStart:
		a, b := angle(u.hi), angle(u.cut)
		used(a, 2*math.Pi-a)
		switch {
		case u.cut == 0 || b >= a-hairsbreadth:
		case u.up: // enough to say that the wheel goes on
			spare(max(a-spareShown, 0), a)
			spare(-a, min(spareShown-a, 0))
		case b < hairsbreadth:
			spare(-a, a)
		default:
			spare(b, a)
			spare(-a, -b)
		}
	default:
		a := angle(u.lo)
		used(-a, a)
		if u.cut != 0 {
			spare(a, 2*math.Pi-a)
		}
	}
}

// spareShown is how much of the unused part of the last stacked wheel is drawn on either side, in radians.
const spareShown = math.Pi / 6

var whole = geom.Wheels(math.Inf(1))

// Row is a row of counted wheels from one tyre to another along a level of the plan.
type Row struct {
	From, To geom.Wheels // the tyres' edges
	Y        geom.Wheels // of the wheels' centres
	Least    geom.Wheels // the least remainder that is drawn
	Cut      geom.Wheels // where the unused part of the last wheel ends; 0: it is not drawn
}

// Whole returns how many whole wheels the row holds.
func (r Row) Whole() int { return WholeWheels(float64(r.To - r.From)) }

// Rest returns the remainder.
func (r Row) Rest() geom.Wheels { return r.To - r.From - geom.Wheels(r.Whole()) }

// Centre returns the centre of wheel i, from 0.
func (r Row) Centre(i int) layout.Point { return planPt(r.From+geom.Wheels(i)+.5, r.Y) }

// BetweenTyres returns the row between front and rear tyre.
func (d *Drawing) BetweenTyres() Row {
	return Row{From: .5, To: geom.Wheels(.5 + d.Plan.WheelsBetween()), Y: .5, Least: LeastRest}
}

// Between counts the wheels that fit between the tyres, from the front tyre; the left-over stops at the rear tyre.
func (d *Drawing) Between() { d.DrawRow(d.BetweenTyres()) }

// DrawRow draws the wheels of a row, the remainder as an arc.
func (d *Drawing) DrawRow(r Row) {
	n := r.Whole()
	for i := range n {
		d.wheelAt(CountedLine().For("between", fmt.Sprintf("between-%d", i+1)), r.Centre(i), .5)
	}
	if r.Rest() > r.Least {
		d.countedWheel("between", "between-rest", r.Centre(n), usedPart{lo: r.From + geom.Wheels(n), hi: r.To, cut: r.Cut})
	}
}

// Stack counts wheels upwards from the rear tyre, which is the first, to the roof.
func (d *Drawing) Stack() {
	for k := 1; float64(k)+1e-9 < float64(d.Plan.Height()); k++ {
		id := fmt.Sprintf("stack-%d", k+1)
		if float64(k+1) > float64(d.Plan.Height())+1e-9 {
			id = "stack-rest"
		}
		used := usedPart{lo: geom.Wheels(k), hi: d.Plan.Height(), up: true, cut: whole}
		d.countedWheel("stack", id, planPt(d.Plan.Wheelbase(), geom.Wheels(k)+.5), used)
	}
}

// Overhangs draws ghost wheels, nose and tail.
func (d *Drawing) Overhangs() {
	d.Ghosts()
	d.Ends()
}

// Ghosts lays wheels against the outer edges of both tyres; nose and tail cut them.
func (d *Drawing) Ghosts() {
	p := d.Plan
	ghost := func(id string, i int, c geom.Wheels, u usedPart) {
		if u.cut = whole; i > 0 {
			id, u.cut = fmt.Sprintf("%s-%d", id, i+1), 0
		}
		d.countedWheel("overhangs", id, planPt(c, .5), u)
	}
	for i := range int(math.Ceil(float64(p.FrontOverhang()) - 1e-9)) {
		edge := -.5 - geom.Wheels(i)
		ghost("overhang-front", i, edge-.5, usedPart{lo: p.Nose(), hi: edge})
	}
	for i := range int(math.Ceil(float64(p.RearOverhang()) - 1e-9)) {
		edge := p.RearEdge() + geom.Wheels(i)
		ghost("overhang-rear", i, edge+.5, usedPart{lo: edge, hi: p.Tail()})
	}
}

// Ends draws the uprights at nose and tail.
func (d *Drawing) Ends() {
	p := d.Plan
	d.Upright(GuideLine().For("overhangs", "nose"), p.Nose(), 0, max(1, p.FrontLamp()+p.LampDepth())+.06)
	d.Upright(GuideLine().For("overhangs", "tail"), p.Tail(), 0, max(1, p.RearLamp()+p.LampDepth())+.06)
}

// LeastRest is the least left-over that is drawn: thinner than a line on any paper.
const LeastRest = .004

// WholeWheels returns how many whole wheels v holds.
func WholeWheels(v float64) int { return int(v + 1e-9) }

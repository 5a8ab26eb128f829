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

// UsedPart is the part of a counted wheel that counts, from lo to hi along one axis, in plan space.
type UsedPart struct {
	Lo, Hi geom.Wheels
	up     bool        // measured along y
	Cut    geom.Wheels // nothing is drawn beyond this; +∞ for the whole circle
	Spare  bool        // draw the unused part too
}

// CountedWheel draws one unit wheel round c of which only part u is used.
func (d *Drawing) CountedWheel(guide request.Guide, id string, c layout.Point, u UsedPart) {
	middle, turn := c.X, 0.0
	if u.up {
		middle, turn = c.Y, math.Pi/2
	}
	angle := func(at geom.Wheels) float64 {
		return math.Acos(math.Max(-1, math.Min(1, float64(at-middle)/.5)))
	}
	const hairsbreadth = 1e-6
	fromStart, toEnd := u.Lo <= middle-.5+hairsbreadth, u.Hi >= middle+.5-hairsbreadth
	switch {
	case fromStart && toEnd:
		d.WheelAt(CountedLine().For(guide, id), c, .5)
	case fromStart:
		a := angle(u.Hi)
		d.arc(CountedLine().For(guide, id), c, .5, a+turn, 2*math.Pi-a+turn)
		b := angle(u.Cut)
		if u.Spare && b < a-hairsbreadth {
			if b < hairsbreadth {
				d.arc(SpareLine().For(guide, ""), c, .5, -a+turn, a+turn)
			} else {
				d.arc(SpareLine().For(guide, ""), c, .5, b+turn, a+turn)
				d.arc(SpareLine().For(guide, ""), c, .5, -a+turn, -b+turn)
			}
		}
	default:
		a := angle(u.Lo)
		d.arc(CountedLine().For(guide, id), c, .5, -a+turn, a+turn)
		if u.Spare {
			d.arc(SpareLine().For(guide, ""), c, .5, a+turn, 2*math.Pi-a+turn)
		}
	}
}

var whole = geom.Wheels(math.Inf(1))

// Between counts the wheels that fit between the tyres, from the front tyre; the left-over stops at the rear tyre.
func (d *Drawing) Between() {
	p := d.Plan
	n := WholeWheels(p.WheelsBetween())
	for i := 1; i <= n; i++ {
		d.WheelAt(CountedLine().For("between", fmt.Sprintf("between-%d", i)), layout.Point{X: geom.Wheels(i), Y: .5}, .5)
	}
	if rest := p.WheelsBetween() - float64(n); rest > LeastRest {
		end := geom.Wheels(.5 + p.WheelsBetween())
		c := layout.Point{X: geom.Wheels(n + 1), Y: .5}
		d.CountedWheel("between", "between-rest", c, UsedPart{Lo: geom.Wheels(n) + .5, Hi: end, Cut: end})
	}
}

// Stack counts wheels upwards from the rear tyre, which is the first, to the roof.
func (d *Drawing) Stack() {
	for k := 1; float64(k)+1e-9 < float64(d.Plan.Height()); k++ {
		id := fmt.Sprintf("stack-%d", k+1)
		if float64(k+1) > float64(d.Plan.Height())+1e-9 {
			id = "stack-rest"
		}
		c := layout.Point{X: d.Plan.Wheelbase(), Y: geom.Wheels(k) + .5}
		d.CountedWheel("stack", id, c, UsedPart{Lo: geom.Wheels(k), Hi: d.Plan.Height(), up: true, Cut: whole, Spare: true})
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
	for i := range int(math.Ceil(float64(p.FrontOverhang()) - 1e-9)) {
		at := geom.Wheels(i)
		u := UsedPart{Lo: p.Nose(), Hi: -.5 - at, Cut: whole, Spare: i == 0}
		d.CountedWheel("overhangs", ghostID("overhang-front", i), layout.Point{X: -1 - at, Y: .5}, u)
	}
	for i := range int(math.Ceil(float64(p.RearOverhang()) - 1e-9)) {
		at := p.RearEdge() + geom.Wheels(i)
		u := UsedPart{Lo: at, Hi: p.Tail(), Cut: whole, Spare: i == 0}
		d.CountedWheel("overhangs", ghostID("overhang-rear", i), layout.Point{X: at + .5, Y: .5}, u)
	}
}

// Ends draws the uprights at nose and tail.
func (d *Drawing) Ends() {
	p := d.Plan
	d.Upright(GuideLine().For("overhangs", "nose"), p.Nose(), 0, max(1, p.FrontLamp()+p.LampDepth())+.06)
	d.Upright(GuideLine().For("overhangs", "tail"), p.Tail(), 0, max(1, p.RearLamp()+p.LampDepth())+.06)
}

func ghostID(id string, i int) string {
	if i == 0 {
		return id
	}
	return fmt.Sprintf("%s-%d", id, i+1)
}

// LeastRest is the least left-over that is drawn: thinner than a line on any paper.
const LeastRest = .004

// WholeWheels returns how many whole wheels v holds.
func WholeWheels(v float64) int { return int(v + 1e-9) }

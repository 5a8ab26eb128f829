package sheet

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/request"
)

// The counting grammar, the same along and up: a counted wheel is dashed; of a wheel that is used only
// in part, the rest is dotted.

// used is the part of a counted wheel that counts, from lo to hi along one axis, in plan space.
type used struct {
	lo, hi geom.Wheels
	up     bool        // measured along y
	cut    geom.Wheels // nothing is drawn beyond this; +∞ for the whole circle
	spare  bool        // draw the unused part too
}

// counted draws one unit wheel round c of which only part u is used.
func (d *drawing) counted(guide request.Guide, id string, c layout.Point, u used) {
	middle, turn := c.X, 0.0
	if u.up {
		middle, turn = c.Y, math.Pi/2
	}
	angle := func(at geom.Wheels) float64 {
		return math.Acos(math.Max(-1, math.Min(1, float64(at-middle)/.5)))
	}
	const hairsbreadth = 1e-6
	fromStart, toEnd := u.lo <= middle-.5+hairsbreadth, u.hi >= middle+.5-hairsbreadth
	switch {
	case fromStart && toEnd:
		d.wheelAt(guide, id, countedLine(), c, .5)
	case fromStart:
		a := angle(u.hi)
		d.arc(guide, id, countedLine(), c, .5, a+turn, 2*math.Pi-a+turn)
		b := angle(u.cut)
		if u.spare && b < a-hairsbreadth {
			if b < hairsbreadth {
				d.arc(guide, "", spareLine(), c, .5, -a+turn, a+turn)
			} else {
				d.arc(guide, "", spareLine(), c, .5, b+turn, a+turn)
				d.arc(guide, "", spareLine(), c, .5, -a+turn, -b+turn)
			}
		}
	default:
		a := angle(u.lo)
		d.arc(guide, id, countedLine(), c, .5, -a+turn, a+turn)
		if u.spare {
			d.arc(guide, "", spareLine(), c, .5, a+turn, 2*math.Pi-a+turn)
		}
	}
}

var whole = geom.Wheels(math.Inf(1))

// between counts the wheels that fit between the tyres, from the front tyre; the left-over stops at the rear tyre.
func (d *drawing) between() {
	p := d.plan
	n := wholeWheels(p.WheelsBetween())
	for i := 1; i <= n; i++ {
		d.wheelAt("between", fmt.Sprintf("between-%d", i), countedLine(), layout.Point{X: geom.Wheels(i), Y: .5}, .5)
	}
	if rest := p.WheelsBetween() - float64(n); rest > leastRest {
		end := geom.Wheels(.5 + p.WheelsBetween())
		d.counted("between", "between-rest", layout.Point{X: geom.Wheels(n + 1), Y: .5}, used{lo: geom.Wheels(n) + .5, hi: end, cut: end})
	}
}

// stack counts wheels upwards from the rear tyre, which is the first, to the roof.
func (d *drawing) stack() {
	for k := 1; float64(k)+1e-9 < float64(d.plan.Height()); k++ {
		id := fmt.Sprintf("stack-%d", k+1)
		if float64(k+1) > float64(d.plan.Height())+1e-9 {
			id = "stack-rest"
		}
		c := layout.Point{X: d.plan.Wheelbase(), Y: geom.Wheels(k) + .5}
		d.counted("stack", id, c, used{lo: geom.Wheels(k), hi: d.plan.Height(), up: true, cut: whole, spare: true})
	}
}

// overhangs draws ghost wheels, nose and tail.
func (d *drawing) overhangs() {
	d.ghosts()
	d.ends()
}

// ghosts lays wheels against the outer edges of both tyres; nose and tail cut them.
func (d *drawing) ghosts() {
	p := d.plan
	for i := range int(math.Ceil(float64(p.FrontOverhang()) - 1e-9)) {
		at := geom.Wheels(i)
		d.counted("overhangs", ghostID("overhang-front", i), layout.Point{X: -1 - at, Y: .5}, used{lo: p.Nose(), hi: -.5 - at, cut: whole, spare: i == 0})
	}
	for i := range int(math.Ceil(float64(p.RearOverhang()) - 1e-9)) {
		at := p.RearEdge() + geom.Wheels(i)
		u := used{lo: at, hi: p.Tail(), cut: whole, spare: i == 0}
		d.counted("overhangs", ghostID("overhang-rear", i), layout.Point{X: at + .5, Y: .5}, u)
	}
}

// ends draws the uprights at nose and tail.
func (d *drawing) ends() {
	p := d.plan
	d.upright("overhangs", "nose", guideLine(), p.Nose(), 0, max(1, p.FrontLamp()+p.LampDepth())+.06)
	d.upright("overhangs", "tail", guideLine(), p.Tail(), 0, max(1, p.RearLamp()+p.LampDepth())+.06)
}

func ghostID(id string, i int) string {
	if i == 0 {
		return id
	}
	return fmt.Sprintf("%s-%d", id, i+1)
}

// leastRest is the least left-over that is drawn: thinner than a line on any paper.
const leastRest = .004

// wholeWheels returns how many whole wheels v holds.
func wholeWheels(v float64) int { return int(v + 1e-9) }

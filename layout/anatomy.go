package layout

import "hubrule/internal/geom"

// Anatomy is the drawn outline with the names of its places: what other views of the vehicle stand on.
// All of it lives in plan space and is rounded to 1e-6 w. Corners are the theoretical ones, before they are softened.
type Anatomy struct {
	Outline Outline

	Cowl, Header, RoofEnd Point // ends of screen and roof
	SillFront, SillRear   Point // ends of the lower edge between the arches
	FrontArch, RearArch   Arch
	FrameTop              Point // open: top of the screen frame, on the A-pillar's line
	CockpitEnd            Point // open
	FrontLamp, RearLamp   geom.Box[geom.Wheels]
}

// Arch is the true arc of a wheel arch, from angle From up to angle To (radians, counter-clockwise).
type Arch struct {
	Centre   Point
	Radius   geom.Wheels
	From, To float64
}

// Anatomy draws the outline of p and names its places.
func (p Plan) Anatomy() Anatomy {
	b := p.body()
	round := func(q Point) Point { return Point{X: grain(q.X), Y: grain(q.Y)} }
	front, rear := b.frontArch(), b.rearArch()
	a := Anatomy{
		Outline: b.draw().rounded(),
		Cowl:    round(b.bonnet[2]), Header: round(b.header), RoofEnd: round(b.roofEnd(b.foot)),
		SillFront: round(front.at(front.from)), SillRear: round(rear.at(rear.to)),
		FrontArch: Arch{front.centre, front.radius, front.from, front.to},
		RearArch:  Arch{rear.centre, rear.radius, rear.from, rear.to},
		FrontLamp: bounds(b.frontLamp()), RearLamp: bounds(b.rearLamp()),
	}
	if b.isOpen() {
		top, _, _ := b.frame()
		a.FrameTop, a.CockpitEnd = round(top), round(b.cockpitEnd())
	}
	return a
}

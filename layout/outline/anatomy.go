package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
)

// Anatomy is the drawn outline with the names of its places: what other views of the vehicle stand on.
// All of it lives in plan space and is rounded to 1e-6 w. Corners are the theoretical ones, before they are softened.
type Anatomy struct {
	Outline Outline

	Cowl, Header, RoofEnd layout.Point // ends of screen and roof
	SillFront, SillRear   layout.Point // ends of the lower edge between the arches
	FrontArch, RearArch   Arch
	FrameTop              layout.Point // open: top of the screen frame, on the A-pillar's line
	CockpitEnd            layout.Point // open
	FrontLamp, RearLamp   geom.Box[geom.Wheels]
}

// AnatomyOf draws the outline of p and names its places.
func AnatomyOf(p layout.Plan) Anatomy {
	b := drawBody(p)
	front, rear := b.frontArch(), b.rearArch()
	a := Anatomy{
		Outline: b.draw().quantised(),
		Cowl:    quantise(b.bonnet[2]), Header: quantise(b.header), RoofEnd: quantise(b.roofEnd(b.foot)),
		SillFront: quantise(front.at(front.From)), SillRear: quantise(rear.at(rear.To)),
		FrontArch: front, RearArch: rear,
		FrontLamp: bounds(b.frontLamp()), RearLamp: bounds(b.rearLamp()),
	}
	if b.isOpen() {
		top, _, _ := b.frame()
		a.FrameTop, a.CockpitEnd = quantise(top), quantise(b.cockpitEnd())
	}
	return a
}

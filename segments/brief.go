package segments

import (
	"cmp"
	"slices"

	"hubrule/internal/geom"
)

// Brief is what a designer is asked for: a segment, tweaks of it, and figures that are fixed.
// The order of tweaks, pins and keeps is irrelevant.
type Brief struct {
	Profile *Profile
	Source  string // the name or path that the profile was found by; "": its name
	Tweaks  []AppliedTweak
	Pins    []Pin // each figure at most once
	Keeps   []Keep
}

// Keep asks for a figure as it would be without the tweaks.
type Keep struct {
	Figure Figure
	Origin Origin
}

// Pin returns the pin of a figure.
func (b Brief) Pin(f Figure) (Pin, bool) {
	i := slices.IndexFunc(b.Pins, func(p Pin) bool { return p.Figure == f })
	if i < 0 {
		return Pin{}, false
	}
	return b.Pins[i], true
}

// sortedPins returns the pins in the figures' fixed order.
func (b Brief) sortedPins() []Pin {
	out := slices.Clone(b.Pins)
	slices.SortFunc(out, func(p, q Pin) int { return cmp.Compare(p.Figure, q.Figure) })
	return out
}

// FittedProfile returns the brief's profile on the tyres that the brief pins. A pinned wheel stands at both ends unless the rear one
// is pinned too.
func (b Brief) FittedProfile() *Profile {
	front, isFront := b.Pin(Wheel)
	rear, isRear := b.Pin(RearWheel)
	if !isFront && !isRear {
		return b.Profile
	}
	p := *b.Profile
	if isFront {
		p.Wheel = front.tyre.like(b.Profile.Wheel)
		p.RearWheel = p.Wheel
	}
	if isRear {
		p.RearWheel = rear.tyre.like(b.Profile.RearWheel)
	}
	p.Figures[Wheel].Value, p.Figures[RearWheel].Value = float64(p.Wheel.Diameter), float64(p.RearWheel.Diameter)
	if isFront && front.tyre.RimDiameter > 0 {
		p.Figures[Rim].Value = float64(p.Wheel.RimDiameter / p.Wheel.Diameter)
	}
	return &p
}

// like returns t; known only by its diameter, it has the proportions of another tyre.
func (t Tyre) like(other Tyre) Tyre {
	if t.Name == "" && other.Diameter > 0 {
		by := t.Diameter / other.Diameter
		t.SectionWidth, t.RimDiameter = geom.MM(by*other.SectionWidth), geom.MM(by*other.RimDiameter)
	}
	return t
}

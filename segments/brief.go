package segments

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// Brief is what a designer is asked for: a segment, tweaks of it, and figures that are fixed.
// The order of tweaks, pins and keeps is irrelevant.
type Brief struct {
	Profile *Profile
	Source  string // the name or path that the profile was found by; "": its name
	Title   string // what sheets of several vehicles call it; "": after its segment and what bends it
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
	return slice.Find(b.Pins, func(p Pin) bool { return p.Figure == f })
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

// CannotPin says why figure f cannot be pinned or kept on the brief's segment; "" where it can, or where there is no profile to tell.
func (b Brief) CannotPin(f Figure) string {
	switch {
	case f.Info().Unit == AsWord:
		return wordPinned
	case b.Profile != nil && !b.Profile.Form.Has(f):
		return f.String() + ": a " + string(b.Profile.Form) + " has none"
	}
	return ""
}

// Pinnable lists the figures that can be pinned or kept on the brief's segment, or on some segment if the brief has none.
func (b Brief) Pinnable() []string {
	names, _ := figuresWithout(b.CannotPin)
	return names
}

// Refusal returns why a tweak of the brief makes no sense on its segment, nil where all do.
func (b Brief) Refusal() error {
	if words := b.sentences((*Tweak).Refusal); words != nil {
		return errors.New(strings.Join(words, "\n"))
	}
	return nil
}

// Notes returns remarks on the brief's tweaks: those that change nothing, and those that conflict.
func (b Brief) Notes() []string {
	return slices.Concat(b.Profile.Notes, b.sentences((*Tweak).NoEffect), Conflicts(b.Tweaks))
}

// sentences collects a sentence for each applied tweak, prefixed with the segment's name.
func (b Brief) sentences(of func(*Tweak, *Profile) string) []string {
	var out []string
	for _, t := range b.Tweaks {
		if words := of(t.Tweak, b.Profile); words != "" && t.Strength != 0 {
			out = append(out, b.Profile.Name+": "+words)
		}
	}
	return out
}

// Summary describes the brief in one line: "sporty 0.8, length 4600mm, height kept"; "" where nothing but a segment is asked for.
func (b Brief) Summary() string {
	var out []string
	for _, d := range b.Tweaks {
		if d.Strength != 0 {
			out = append(out, strings.TrimSuffix(d.Tweak.Name+" "+strict.FormatNumber(d.Strength), " 1"))
		}
	}
	for _, p := range b.sortedPins() {
		out = append(out, p.Figure.String()+" "+p.display())
	}
	for _, k := range b.Keeps {
		out = append(out, k.Figure.String()+" kept")
	}
	return strings.Join(out, ", ")
}

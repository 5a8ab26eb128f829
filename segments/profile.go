package segments

import (
	"slices"

	"hubrule/internal/geom"
)

// Range is how far a figure may move, in the figure's own unit. The zero Range holds only 0; Lo > Hi is empty.
type Range struct{ Lo, Hi float64 }

// HalfWidth returns half the width of r: the unit in which moves and distances of a figure are counted.
func (r Range) HalfWidth() float64 { return (r.Hi - r.Lo) / 2 }

// contains reports whether v lies in r, ends included.
func (r Range) contains(v float64) bool { return v >= r.Lo && v <= r.Hi }

// Entry is a profile's value of one figure, in the figure's own unit.
// Given figures have no range (zero Range) and no basis unless the file gives one.
type Entry struct {
	Value float64
	Range Range
	Basis string // "M …" measured, "C …" common practice, "R …" remembered or judged by eye
}

// Values holds one number a figure, each in its own unit; a figure the form lacks is NaN.
type Values [FigureCount]float64

// Profile is one segment: what its vehicles share and how far each figure may move.
type Profile struct {
	Name    string // the catalogue's name, or the file's stem
	Title   string // "Sport utility"
	Summary string // one line that describes the segment
	Form    Form
	Extends string   // the segment that it builds on; "" if none
	Aliases []string // everyday words for the segment, as people say them; none of a profile outside the catalogue

	Wheel, RearWheel Tyre
	Figures          [FigureCount]Entry // derived figures are zero; so are those the form lacks
	Pins             []Pin              // derived figures that the file fixes, in any brief that does not pin them otherwise
	Shape            Shape              // the outline's shape numbers, complete
	Solid            Solid              // the numbers of the body across, complete

	Notes []string // what whoever draws it should know, in whole sentences; only of a profile that was made from something else

	// GlassFromFront: the side glass keeps its distance from the front axle when the wheelbase changes.
	GlassFromFront bool
	refuse         map[string]string // tweak → sentence: what makes no sense
	noChange       map[string]string // tweak → sentence: what is so already
	inCatalogue    bool
}

// InCatalogue reports whether p is a segment of the catalogue, on whatever tyres, and not a file of its name.
func (p *Profile) InCatalogue() bool { return p.inCatalogue }

// Extended returns a copy of p under another name, outside the catalogue, as a file is that extends p and says nothing else.
func (p *Profile) Extended(name string) *Profile {
	out := *p
	if p.inCatalogue {
		out.Extends = p.Name
	}
	out.Name, out.Aliases, out.inCatalogue = name, nil, false
	out.Pins = slices.Clone(p.Pins)
	return &out
}

// SetTyres puts p on other tyres. One known only by its diameter leaves the front rim its share of the tyre.
func (p *Profile) SetTyres(front, rear Tyre) {
	p.Wheel, p.RearWheel = front, rear
	p.Figures[Wheel] = Entry{Value: float64(front.Diameter)}
	p.Figures[RearWheel] = Entry{Value: float64(rear.Diameter)}
	if front.RimDiameter > 0 {
		p.Figures[Rim] = Entry{Value: float64(front.RimDiameter / front.Diameter)}
	}
}

// RearRatio returns rear ÷ front tyre diameter, q in the formulas.
func (p *Profile) RearRatio() float64 { return float64(p.RearWheel.Diameter / p.Wheel.Diameter) }

// Tyre is a tyre read from its designation, or only a diameter.
type Tyre struct {
	Name         string  // "235/60R18", or "" for a bare diameter
	Diameter     geom.MM // outside
	SectionWidth geom.MM // 0 if not known
	RimDiameter  geom.MM // 0 if not known
}

// HasLoadBox reports whether a load box without side glass stands behind the cab, in one box with it.
func (p *Profile) HasLoadBox() bool { return p.GlassFromFront && p.Form == OneBox }

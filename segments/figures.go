// Package segments holds the figures that describe a vehicle's side view, the
// segment profiles that give them typical values and ranges, and the catalogue of
// profiles that comes with the program.
package segments

// Figure is one named proportion. The zero Figure is Wheel.
type Figure uint8

// The figures in their fixed order: given, declared, derived.
const (
	Wheel Figure = iota
	RearWheel
	Rim
	formFigure
	BeltRise
	TailRake
	HeaderDrop

	WheelsBetween
	FrontOverhang
	RearOverhang
	Sill
	Height
	GreenhouseToBody
	Clearance
	Chin
	ChinSetback
	TailLow
	TailSetback
	PillarAim
	PillarRake
	ScreenBase
	GlassEnd
	ArchGap
	LampDepth
	LampOffset
	BonnetEdge
	Cowl
	Deck
	TailFoot
	Width
	Track
	Tumblehome

	Wheelbase
	Length
	FrontOverhangAxle
	RearOverhangAxle
	Belt
	BodySide
	Greenhouse
	PillarFoot
	PillarHead
	FrontLamp
	RearLamp

	FigureCount
)

// Role says who sets a figure.
type Role uint8

// Given figures are moved by tweaks and pins only; Declared ones have a range and take part in the solve; Derived ones follow.
const (
	Given Role = iota
	Declared
	Derived
)

// Unit is the unit in which a figure's value is held and reported.
type Unit string

// The units of figures, written as in the JSON contract.
const (
	InWheels  Unit = "w"
	InMM      Unit = "mm"
	AsRatio   Unit = "ratio"
	AsCount   Unit = "count"
	InDegrees Unit = "deg"
	AsWord    Unit = ""
)

// FigureInfo is what the table of figures knows of one figure.
type FigureInfo struct {
	Name    string
	Role    Role
	Unit    Unit
	Lo, Hi  float64 // numbers out of these make no sense for any vehicle, in Unit
	Meaning string
}

// The bounds are sense, not taste: wide enough for anything on wheels (judged by eye).
var figureInfos = [FigureCount]FigureInfo{
	Wheel:      {"wheel", Given, InMM, 200, 3000, "outside diameter of the front tyre: the unit w"},
	RearWheel:  {"rear-wheel", Given, InMM, 200, 3000, "outside diameter of the rear tyre"},
	Rim:        {"rim", Given, AsRatio, .3, .95, "rim diameter ÷ tyre diameter"},
	formFigure: {"form", Given, AsWord, 0, 0, "what the outline and the rear guides follow"},
	BeltRise:   {"belt-rise", Given, InDegrees, -10, 10, "belt line rising rearwards, turned about mid-wheelbase"},
	TailRake:   {"tail-rake", Given, InDegrees, 5, 90, "rear screen or tailgate from the horizontal"},
	HeaderDrop: {"header-drop", Given, InWheels, .02, .5, "header below the roof"},

	WheelsBetween:    {"wheels-between", Declared, AsCount, .5, 12, "clear gap between the tyres, counted in wheels"},
	FrontOverhang:    {"front-overhang", Declared, InWheels, 0, 4, "nose ahead of the front tyre's front edge"},
	RearOverhang:     {"rear-overhang", Declared, InWheels, 0, 6, "tail behind the rear tyre's rear edge"},
	Sill:             {"sill", Declared, InWheels, .02, 2, "ground to the lower edge of the body side"},
	Height:           {"height", Declared, InWheels, 1, 5, "ground to the roof"},
	GreenhouseToBody: {"greenhouse-to-body", Declared, AsRatio, .1, 2, "greenhouse ÷ body side, belt taken at mid-wheelbase"},
	Clearance:        {"clearance", Declared, InWheels, .02, 2, "ground to the lowest underbody point between the axles"},
	Chin:             {"chin", Declared, InWheels, .05, 2, "height of the lower front corner"},
	ChinSetback:      {"chin-setback", Declared, InWheels, 0, 1, "lower front corner behind the nose"},
	TailLow:          {"tail-low", Declared, InWheels, .05, 2, "height of the lower rear corner"},
	TailSetback:      {"tail-setback", Declared, InWheels, 0, 1, "lower rear corner ahead of the tail"},
	PillarAim:        {"pillar-aim", Declared, InWheels, -2, 3, "where the A-pillar's line crosses the front axle's vertical"},
	PillarRake:       {"pillar-rake", Declared, InDegrees, 15, 85, "A-pillar from the horizontal"},
	ScreenBase:       {"screen-base", Declared, InWheels, -4, 6, "the screen's foot on the centre line, behind the front axle"},
	GlassEnd:         {"glass-end", Declared, InWheels, -6, 3, "end of the side glass behind the rear tyre's rear edge (negative: ahead)"},
	ArchGap:          {"arch-gap", Declared, InWheels, 0, .6, "arch radius − tyre radius"},
	LampDepth:        {"lamp-depth", Declared, InWheels, .03, .8, "depth of a lamp"},
	LampOffset:       {"lamp-offset", Declared, InWheels, -.8, .8, "front lamp's base above (below) the arch top"},
	BonnetEdge:       {"bonnet-edge", Declared, InWheels, .3, 3, "height of the bonnet's front edge"},
	Cowl:             {"cowl", Declared, InWheels, .4, 3.5, "height of the screen's base"},
	Deck:             {"deck", Declared, InWheels, .4, 3.5, "height of the boot lid or bed rail"},
	TailFoot:         {"tail-foot", Declared, InWheels, -1.5, 3, "base of the rear screen behind the rear axle"},
	Width:            {"width", Declared, InWheels, 1, 5, "overall width without mirrors"},
	Track:            {"track", Declared, InWheels, .8, 4.8, "between the tyres' centre lines, at the ground"},
	Tumblehome:       {"tumblehome", Declared, InDegrees, 2, 50, "side glass from the upright, at the belt"},

	Wheelbase:         {"wheelbase", Derived, InWheels, 1.5, 13, "axle to axle"},
	Length:            {"length", Derived, InWheels, 2, 20, "nose to tail"},
	FrontOverhangAxle: {"front-overhang-axle", Derived, InWheels, .5, 4.5, "nose ahead of the front wheel's centre (ISO 612)"},
	RearOverhangAxle:  {"rear-overhang-axle", Derived, InWheels, .25, 7, "tail behind the rear wheel's centre (ISO 612)"},
	Belt:              {"belt", Derived, InWheels, .3, 4, "ground to the belt line at mid-wheelbase"},
	BodySide:          {"body-side", Derived, InWheels, .1, 4, "sill to belt at mid-wheelbase"},
	Greenhouse:        {"greenhouse", Derived, InWheels, .05, 3, "belt to roof at mid-wheelbase"},
	PillarFoot:        {"pillar-foot", Derived, InWheels, -4, 6, "A-pillar's line at the belt, behind the front axle"},
	PillarHead:        {"pillar-head", Derived, InWheels, -3, 9, "A-pillar's line at the header, behind the front axle"},
	FrontLamp:         {"front-lamp", Derived, InWheels, .1, 3, "front lamp's base above the ground"},
	RearLamp:          {"rear-lamp", Derived, InWheels, .1, 3.5, "rear lamp's base above the ground"},
}

// Info returns what is known of f. It panics on a figure out of the table.
func (f Figure) Info() FigureInfo { return figureInfos[f] }

// String returns the figure's name as it is written in files and flags.
func (f Figure) String() string { return figureInfos[f].Name }

// Lookup finds a figure by its name.
func Lookup(name string) (Figure, bool) {
	for f := range FigureCount {
		if figureInfos[f].Name == name {
			return f, true
		}
	}
	return 0, false
}

// Form is the kind of body that outline and rear guides follow.
type Form string

// The six forms.
const (
	OneBox   Form = "one-box"
	TwoBox   Form = "two-box"
	ThreeBox Form = "three-box"
	Fastback Form = "fastback"
	Bed      Form = "bed"
	Open     Form = "open"
)

// Forms lists all forms in display order.
func Forms() []Form { return []Form{OneBox, TwoBox, ThreeBox, Fastback, Bed, Open} }

// Has reports whether a vehicle of form m has figure f: deck and tail-foot exist only where there is one.
func (m Form) Has(f Figure) bool {
	switch f {
	case Deck:
		return m == ThreeBox || m == Open || m == Fastback || m == Bed
	case TailFoot:
		return m == ThreeBox || m == Open
	}
	return true
}

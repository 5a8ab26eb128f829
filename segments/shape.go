package segments

import "hubrule/internal/geom"

// Shape holds the few numbers of the outline that are no figures; docs/outline.md says what each does.
// Chin, tail-low, their set-backs and tail-foot are figures: they place face and tail, so no number here repeats them.
type Shape struct {
	FaceLean  geom.Wheels // the bonnet's edge behind the nose
	BonnetBow geom.Wheels // rise of the bonnet's middle above its chord, as all bows
	ScreenBow geom.Wheels

	Apex     float64     // roof's peak behind the pillar's head, in quarter wheelbases
	Crown    geom.Wheels // drop of the roof a quarter wheelbase behind its peak
	GlassBow geom.Wheels // bow of the rear screen or tailgate
	CabBack  geom.Wheels // bed: foot of the cab's back behind the side glass
	Cockpit  geom.Wheels // open: end of the cockpit behind the side glass
	DeckBow  geom.Wheels
	DeckFall geom.Wheels // tail's upper edge below the deck

	TailLean geom.Wheels // tail's upper edge ahead of the tail
	Shoulder float64     // one- and two-box: tail's upper edge as a share of the body side

	PillarWidth geom.Wheels  // A-pillar and screen edge, across the line
	Rail        geom.Wheels  // roof above the side glass
	GlassRake   geom.Degrees // rear edge of the side glass from the horizontal
	Pillars     []PillarHint

	LampLength, LampDepth         geom.Wheels // the drawn lens, not the guide's box
	LampTail                      float64     // depth of the front lens's rear end, as a share of LampDepth
	RearLampLength, RearLampDepth geom.Wheels

	ShoulderDrop  geom.Wheels  // shoulder line below the belt
	ShoulderWedge geom.Degrees // its rise beyond the belt's
	Rocker        geom.Wheels  // rocker line above the sill
	Cladding      geom.Wheels  // width of the arches' cladding; 0: none

	Doors   int       // on this side and the other: 0, 2 or 4
	DoorEnd float64   // rear shut line of a two-door, as a share of the wheelbase
	Slide   Range     // rail of a sliding door, in wheelbases; the zero Range: none
	Seats   []float64 // open: head restraints, as shares of the way from header to glass end
	Intake  bool      // an air intake ahead of the rear arch

	Soften Softening
}

// PillarHint is one pillar behind the A-pillar.
type PillarHint struct {
	At    float64     // share of the way from header to glass end
	Width geom.Wheels // along x
	Tilt  float64     // x per unit of height; negative leans forward
}

// Soft is the pair of set-backs that soften one corner.
type Soft = geom.Setback[geom.Wheels]

func soft(before, after geom.Wheels) Soft { return Soft{Before: before, After: after} }

// Softening says how soft each corner of the outline is, from the chin over the roof to the heel.
type Softening struct {
	Chin, Edge, Cowl, Header, Roof, Base, Deck, Heel Soft

	Glass [4]Soft // side glass, from its upper front corner clockwise with the nose to the left
}

// High is the stance of a tall vehicle: a blunt face, a flatter bonnet, clad arches.
const High = "high"

// ShapeFor returns the shape numbers of a form before a profile sets its own:
// the defaults, over them what the form shares, over that the stance ("" or High).
func ShapeFor(form Form, stance string) Shape {
	s := commonShape()
	switch form {
	case ThreeBox:
		s.threeBox()
	case Fastback:
		s.fastback()
	case Open:
		s.open()
	case Bed:
		s.bed()
	}
	if stance == High {
		s.high()
	}
	return s
}

// commonShape is a family hatchback's; every number is judged by eye.
func commonShape() Shape {
	return Shape{
		FaceLean: .14, BonnetBow: .045, ScreenBow: .012,
		Apex: .45, Crown: .03, GlassBow: .02, CabBack: .14, DeckBow: .02, DeckFall: .01,
		TailLean: .10, Shoulder: .86,
		PillarWidth: .075, Rail: .125, GlassRake: 62,
		Pillars:    []PillarHint{{.14, .05, -.12}, {.66, .05, -.16}},
		LampLength: .50, LampDepth: .18, LampTail: .4, RearLampLength: .30, RearLampDepth: .20,
		ShoulderDrop: .17, ShoulderWedge: .4, Rocker: .12,
		Doors: 4, DoorEnd: .90,
		Soften: Softening{
			Chin: soft(.16, .18), Edge: soft(.17, .28), Cowl: soft(.22, .16), Header: soft(.32, .50),
			Roof: soft(.20, .14), Base: soft(.25, .25), Deck: soft(.14, .12), Heel: soft(.16, .18),
			Glass: [4]Soft{soft(.10, .16), soft(.14, .12), soft(.08, .08), soft(.03, .05)},
		},
	}
}

func (s *Shape) threeBox() {
	s.Crown, s.ScreenBow, s.GlassBow, s.Rail = .075, .018, 0, .105
	s.DeckFall, s.DeckBow = .03, 0
	s.Soften.Roof, s.Soften.Base, s.Soften.Deck = soft(.60, .60), soft(.55, .40), soft(.18, .13)
	s.Soften.Glass[1], s.Soften.Glass[2] = soft(.20, .18), soft(.25, .25)
}

func (s *Shape) fastback() {
	s.Crown, s.ScreenBow, s.Rail, s.GlassRake = .06, .018, .09, 24
	s.Pillars, s.Doors = nil, 2
	s.Soften.Cowl, s.Soften.Header, s.Soften.Base = soft(.40, .30), soft(.58, .36), soft(.10, .08)
	s.Soften.Glass[1], s.Soften.Glass[2] = soft(.20, .16), soft(.20, .28)
}

func (s *Shape) open() {
	s.Crown, s.DeckBow, s.DeckFall, s.Rail, s.GlassRake, s.Cockpit = .06, .02, .05, .10, 36, .05
	s.Pillars, s.Doors = nil, 2
	s.Soften.Roof, s.Soften.Base, s.Soften.Deck = soft(.50, .50), soft(.18, .36), soft(.16, .14)
}

func (s *Shape) bed() {
	s.Apex, s.Crown, s.TailLean, s.DeckFall, s.DeckBow = .42, .026, .025, 0, .004
	s.GlassRake, s.Pillars, s.DoorEnd = 77, []PillarHint{{.36, .05, -.04}}, .95
	s.LampLength, s.RearLampLength, s.RearLampDepth = .30, .14, .32
	s.Soften.Edge, s.Soften.Cowl, s.Soften.Roof = soft(.14, .19), soft(.10, .10), soft(.26, .26)
	s.Soften.Base, s.Soften.Deck = soft(.16, .20), soft(.08, .08)
}

func (s *Shape) high() {
	s.FaceLean, s.BonnetBow, s.Cladding, s.Rocker = .07, .035, .07, .16
	s.Soften.Edge, s.Soften.Cowl, s.Soften.Roof = soft(.16, .24), soft(.12, .12), soft(.18, .12)
}

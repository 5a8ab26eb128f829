package segments

import "hubrule/internal/geom"

// Shape holds the numbers of the outline that are not figures; docs/outline.md explains each.
// Chin, tail-low, their set-backs and tail-foot are figures: they place face and tail, so no number here repeats them.
type Shape struct {
	FaceLean  geom.Wheels `number:"face-lean,0,.8"`  // the bonnet's edge behind the nose
	BonnetBow geom.Wheels `number:"bonnet-bow,0,.3"` // rise of the bonnet's middle above its chord, as all bows
	ScreenBow geom.Wheels `number:"screen-bow,0,.04"`

	HeaderAhead geom.Wheels `number:"header-ahead,0,.3"` // the screen's upper end ahead of the A-pillar's head, on the centre line

	Apex     float64     `number:"apex,0,2"`       // roof's peak behind the pillar's head, in quarter wheelbases
	Crown    geom.Wheels `number:"crown,.002,.3"`  // drop of the roof a quarter wheelbase behind its peak
	GlassBow geom.Wheels `number:"glass-bow,0,.3"` // bow of the rear screen or tailgate
	CabBack  geom.Wheels `number:"cab-back,0,1"`   // bed: foot of the cab's back behind the side glass
	Cockpit  geom.Wheels `number:"cockpit,-1,1"`   // open: end of the cockpit behind the side glass
	DeckBow  geom.Wheels `number:"deck-bow,0,.2"`
	DeckFall geom.Wheels `number:"deck-fall,-.2,.4"` // tail's upper edge below the deck

	TailLean geom.Wheels `number:"tail-lean,0,.8"`  // tail's upper edge ahead of the tail
	Shoulder float64     `number:"shoulder,.4,1.1"` // one- and two-box: tail's upper edge as a share of the body side

	PillarWidth geom.Wheels  `number:"pillar-w,.02,.4"` // A-pillar and screen edge, across the line
	Rail        geom.Wheels  `number:"rail,.02,.5"`     // roof above the side glass
	GlassRake   geom.Degrees `number:"glass-rake,8,90"` // rear edge of the side glass from the horizontal
	Pillars     []Pillar

	// The side glass ends this far ahead of the rear glass, behind a pillar on glass-end; 0: on glass-end.
	QuarterLight      geom.Wheels  `number:"quarter-light,0,1"`
	QuarterLightRoom  geom.Wheels  `number:"quarter-light-room,.1,1"`  // between glass-end and there: less leaves no such pane
	GlassTail         geom.Wheels  `number:"glass-tail,0,1.5"`         // fastback: the pane behind that pillar; 0: none
	GlassTailRake     geom.Degrees `number:"glass-tail-rake,8,90"`     // its rear edge from the horizontal
	QuarterPillarRake geom.Degrees `number:"quarter-pillar-rake,8,90"` // of the pillar on glass-end
	Kick              geom.Wheels  `number:"kick,0,.4"`                // rise of the glass's lower edge towards its rear end
	KickLength        geom.Wheels  `number:"kick-len,.1,2"`

	Nose      Nose
	Tail      Tail
	FrontLens Lens
	RearLens  Lens
	Face      Face

	ShoulderDrop  geom.Wheels  `number:"shoulder-drop,0,1"`     // shoulder line below the belt
	ShoulderWedge geom.Degrees `number:"shoulder-wedge,-10,10"` // its rise beyond the belt's
	Rocker        geom.Wheels  `number:"rocker,0,.6"`           // rocker line above the sill
	Cladding      geom.Wheels  `number:"cladding,0,.4"`         // width of the arches' cladding; 0: none

	Spoiler   geom.Wheels `number:"spoiler,0,.6"`     // over a tailgate's screen: length of its edge on the side; 0: none
	RoofRails geom.Wheels `number:"roof-rails,0,.06"` // their height; 0: none

	Wing     geom.Wheels  `number:"wing,.05,.4"`    // bonnet above the front arch's top
	DoorLean geom.Degrees `number:"door-lean,-4,4"` // front shut line from the upright, its foot ahead

	Doors   int       // on this side and the other: 0, 2 or 4
	DoorEnd float64   `number:"door-end,.2,1.2"` // rear shut line of a two-door, as a share of the wheelbase
	Slide   Range     // rail of a sliding door, in wheelbases; the zero Range: none
	Seats   []float64 // open: head restraints, as shares of the way from header to glass end
	Intake  bool      // an air intake ahead of the rear arch

	Fillets Fillets
}

// Pillar is one pillar behind the A-pillar.
type Pillar struct {
	At    float64     `number:"at,-.5,1"`     // share of the way from header to glass end
	Width geom.Wheels `number:"width,.01,.3"` // along x
	Tilt  float64     `number:"tilt,-1,1"`    // x per unit of height; negative leans forward
}

// Fillet softens one corner of the outline.
type Fillet = geom.Fillet[geom.Wheels]

func fillet(before, after geom.Wheels) Fillet { return Fillet{Before: before, After: after} }

// Fillets holds the fillet of each corner of the outline, from the chin over the roof to the heel.
type Fillets struct {
	Chin, Edge, Cowl, Header, Roof, Base, Deck, Heel Fillet

	Glass [4]Fillet // side glass, from its upper front corner clockwise with the nose to the left
}

// highStance is that of a tall vehicle: a blunt face, a flatter bonnet, clad arches.
const highStance = "high"

// shapeFor returns the shape numbers of a form before a profile sets its own:
// the defaults, over them what the form shares, over that the stance ("" or highStance).
func shapeFor(form Form, stance string) Shape {
	s := commonShape()
	nose, tail, front, rear, face := "upright", "round", "block", "block", UprightFace
	switch form {
	case ThreeBox:
		tail = "shelf"
		s.Crown, s.GlassBow, s.Rail = .075, 0, .105
		s.DeckFall, s.DeckBow = .03, 0
		s.Fillets.Roof, s.Fillets.Base, s.Fillets.Deck = fillet(.60, .60), fillet(.55, .40), fillet(.18, .13)
		s.Fillets.Glass[1], s.Fillets.Glass[2] = fillet(.20, .18), fillet(.25, .25)
	case Fastback:
		nose, tail, front, rear, face = "wedge", "cut", "slit", "slit", LowFace
		s.Crown, s.Rail, s.GlassRake = .06, .09, 24
		s.Pillars, s.Doors = nil, 2
		s.Fillets.Cowl, s.Fillets.Base = fillet(.40, .30), fillet(.10, .08)
		s.Fillets.Glass[1], s.Fillets.Glass[2] = fillet(.20, .16), fillet(.20, .28)
	case Open:
		nose, tail, front, rear, face = "wedge", "shelf", "slit", "slit", LowFace
		s.Crown, s.DeckBow, s.DeckFall, s.Rail, s.GlassRake, s.Cockpit = .06, .02, .05, .10, 36, .05
		s.Pillars, s.Doors = nil, 2
		s.Fillets.Roof, s.Fillets.Base, s.Fillets.Deck = fillet(.50, .50), fillet(.18, .36), fillet(.16, .14)
	case Bed:
		nose, tail, front, rear, face = "block", "block", "upright", "upright", TallFace
		s.Apex, s.Crown, s.TailLean, s.DeckFall, s.DeckBow = .42, .026, .025, 0, .004
		s.GlassRake, s.Pillars, s.DoorEnd = 77, []Pillar{{.36, .05, -.04}}, .95
		s.ScreenBow = .02
		s.Fillets.Edge, s.Fillets.Cowl, s.Fillets.Roof = fillet(.14, .19), fillet(.10, .10), fillet(.26, .26)
		s.Fillets.Base, s.Fillets.Deck, s.Fillets.Header = fillet(.16, .20), fillet(.08, .08), fillet(.34, .46)
	}
	s.setNose(nose)
	s.setTail(tail)
	s.FrontLens, s.RearLens, s.Face = frontLens(front), rearLens(rear), face
	if stance == highStance {
		s.FaceLean, s.BonnetBow, s.ScreenBow, s.Cladding, s.Rocker = .07, .035, .03, .07, .16
		s.Fillets.Edge, s.Fillets.Cowl, s.Fillets.Roof = fillet(.16, .24), fillet(.12, .12), fillet(.18, .12)
		s.Fillets.Header = fillet(.45, .65)
	}
	return s
}

// commonShape is a family hatchback's; every number is judged by eye.
func commonShape() Shape {
	return Shape{
		BonnetBow: .045, ScreenBow: .035, HeaderAhead: .04,
		Apex: .45, Crown: .03, GlassBow: .02, CabBack: .14, DeckBow: .02, DeckFall: .01,
		TailLean: .10, Shoulder: .86,
		PillarWidth: .075, Rail: .125, GlassRake: 62,
		Pillars:          []Pillar{{.14, .05, -.12}, {.66, .05, -.16}},
		QuarterLightRoom: .20, GlassTailRake: 30, QuarterPillarRake: 62, KickLength: .55, DoorLean: 2, Wing: .10,
		ShoulderDrop: .17, ShoulderWedge: .4, Rocker: .12,
		Doors: 4, DoorEnd: .90,
		Fillets: Fillets{
			Edge: fillet(.17, .28), Cowl: fillet(.22, .16), Header: fillet(.55, .80),
			Roof: fillet(.20, .14), Base: fillet(.25, .25), Deck: fillet(.14, .12),
			Glass: [4]Fillet{fillet(.10, .16), fillet(.14, .12), fillet(.08, .08), fillet(.03, .05)},
		},
	}
}

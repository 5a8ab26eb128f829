package segments

import "hubrule/internal/geom"

// Solid holds the numbers of the body's cross-sections and plan that are not figures; docs/views.md explains each.
// Width, track and tumblehome are figures: no number here repeats them. All are judged by eye.
type Solid struct {
	BeltInset geom.Wheels `number:"belt-inset,0,.3"` // body's widest → belt, each side
	Tuck      geom.Wheels `number:"tuck,0,.3"`       // body's widest → sill at the doors, each side; none at the arches

	NoseLength geom.Wheels `number:"nose-length,.05,1.6"` // in plan: how far behind the nose the side has its full width
	NoseSquare float64     `number:"nose-square,1.5,6"`   // exponent of the super-ellipse between: 2 is an ellipse, more is squarer
	TailLength geom.Wheels `number:"tail-length,.05,1.6"`
	TailSquare float64     `number:"tail-square,1.5,6"`

	RearBow    geom.Wheels `number:"rear-bow,.02,.8"` // depth in plan of a rear screen that stands on a deck or bed
	RearSquare float64     `number:"rear-square,1.5,6"`

	BonnetCrown geom.Wheels `number:"bonnet-crown,.03,.4"` // depth over which a top edge turns into the side
	RoofCrown   geom.Wheels `number:"roof-crown,.03,.4"`
	DeckCrown   geom.Wheels `number:"deck-crown,.03,.4"`

	RearGlass geom.Wheels `number:"rear-glass,-.2,.4"` // lower edge of a tailgate's screen below the belt

	Grille float64 `number:"grille,0,1"` // width of the grille as a share of the room between the lamps; 0: none
}

// solidFor returns the numbers of a form before a profile sets its own.
func solidFor(form Form) Solid {
	s := Solid{
		BeltInset: .07, Tuck: .06,
		NoseLength: .55, NoseSquare: 2.7, TailLength: .38, TailSquare: 3.1,
		RearBow: .26, RearSquare: 2.2,
		BonnetCrown: .14, RoofCrown: .12, DeckCrown: .10,
		RearGlass: .02, Grille: 1,
	}
	switch form {
	case ThreeBox:
		s.BeltInset, s.Tuck = .08, .07
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .62, 2.6, .52, 2.9
		s.BonnetCrown = .15
	case OneBox:
		s.BeltInset, s.BonnetCrown, s.RoofCrown = .05, .16, .13
		s.NoseSquare, s.TailLength, s.TailSquare = 2.6, .20, 3.8
	case Fastback:
		s.BeltInset, s.Tuck = .11, .10
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .95, 2.3, .45, 3
		s.BonnetCrown, s.DeckCrown = .22, .16
	case Bed:
		s.BeltInset, s.Tuck = .06, .05
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .44, 2.8, .12, 4
		s.BonnetCrown, s.RoofCrown, s.DeckCrown = .13, .11, .08
		s.RearBow, s.RearSquare = .07, 3
	case Open:
		s.BeltInset, s.Tuck = .09, .08
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .72, 2.5, .55, 2.8
		s.BonnetCrown, s.RoofCrown, s.DeckCrown = .17, .11, .11
	}
	return s
}

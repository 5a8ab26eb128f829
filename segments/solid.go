package segments

import "hubrule/internal/geom"

// Solid holds the few numbers of the body across that are no figures; docs/views.md says what each does.
// Width, track and tumblehome are figures: no number here repeats them. All are judged by eye.
type Solid struct {
	BeltInset geom.Wheels // body's widest → belt, each side
	Tuck      geom.Wheels // body's widest → sill at the doors, each side; none at the arches

	NoseLength geom.Wheels // in plan: how far behind the nose the side has its full width
	NoseSquare float64     // exponent of the super-ellipse between: 2 is an ellipse, more is squarer
	TailLength geom.Wheels
	TailSquare float64

	ScreenBow  geom.Wheels // the screen's middle ahead of its edges, at the cowl
	RearBow    geom.Wheels // depth in plan of a rear screen that stands on a deck or bed
	RearSquare float64

	BonnetCrown, RoofCrown, DeckCrown geom.Wheels // depth over which a top edge turns into the side

	LampReach, RearLampReach float64 // half-width left free between the lamps, as a share of half the width
}

// solidFor returns the numbers across of a form before a profile sets its own.
func solidFor(form Form) Solid {
	s := Solid{
		BeltInset: .07, Tuck: .06,
		NoseLength: .55, NoseSquare: 2.7, TailLength: .38, TailSquare: 3.1,
		ScreenBow: .17, RearBow: .26, RearSquare: 2.2,
		BonnetCrown: .14, RoofCrown: .12, DeckCrown: .10,
		LampReach: .55, RearLampReach: .58,
	}
	switch form {
	case ThreeBox:
		s.BeltInset, s.Tuck, s.ScreenBow = .08, .07, .20
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .62, 2.6, .52, 2.9
		s.BonnetCrown, s.LampReach, s.RearLampReach = .15, .54, .52
	case OneBox:
		s.BeltInset, s.ScreenBow, s.BonnetCrown, s.RoofCrown = .05, .20, .16, .13
		s.NoseSquare, s.TailLength, s.TailSquare, s.RearLampReach = 2.6, .20, 3.8, .75
	case Fastback:
		s.BeltInset, s.Tuck, s.ScreenBow = .11, .10, .26
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .95, 2.3, .45, 3
		s.BonnetCrown, s.DeckCrown, s.RearLampReach = .22, .16, .50
	case Bed:
		s.BeltInset, s.Tuck, s.ScreenBow = .06, .05, .14
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .44, 2.8, .12, 4
		s.BonnetCrown, s.RoofCrown, s.DeckCrown, s.RearLampReach = .13, .11, .08, .76
		s.RearBow, s.RearSquare = .07, 3
	case Open:
		s.BeltInset, s.Tuck, s.ScreenBow = .09, .08, .22
		s.NoseLength, s.NoseSquare, s.TailLength, s.TailSquare = .72, 2.5, .55, 2.8
		s.BonnetCrown, s.RoofCrown, s.DeckCrown, s.LampReach, s.RearLampReach = .17, .11, .11, .54, .52
	}
	return s
}

// SolidNumber is one key of a profile's solid block; every one holds a plain number without a unit.
type SolidNumber struct {
	Key    string
	Lo, Hi float64 // allowed, ends included
	Field  func(*Solid) *float64
}

// SolidNumbers lists the keys of the solid block in the order they are told to people.
// The bounds are wide enough for anything on wheels (judged by eye).
func SolidNumbers() []SolidNumber {
	return []SolidNumber{
		{"belt-inset", 0, .3, func(s *Solid) *float64 { return (*float64)(&s.BeltInset) }},
		{"tuck", 0, .3, func(s *Solid) *float64 { return (*float64)(&s.Tuck) }},
		{"nose-length", .05, 1.6, func(s *Solid) *float64 { return (*float64)(&s.NoseLength) }},
		{"nose-square", 1.5, 6, func(s *Solid) *float64 { return &s.NoseSquare }},
		{"tail-length", .05, 1.6, func(s *Solid) *float64 { return (*float64)(&s.TailLength) }},
		{"tail-square", 1.5, 6, func(s *Solid) *float64 { return &s.TailSquare }},
		{"screen-bow", 0, .6, func(s *Solid) *float64 { return (*float64)(&s.ScreenBow) }},
		{"rear-bow", .02, .8, func(s *Solid) *float64 { return (*float64)(&s.RearBow) }},
		{"rear-square", 1.5, 6, func(s *Solid) *float64 { return &s.RearSquare }},
		{"bonnet-crown", .03, .4, func(s *Solid) *float64 { return (*float64)(&s.BonnetCrown) }},
		{"roof-crown", .03, .4, func(s *Solid) *float64 { return (*float64)(&s.RoofCrown) }},
		{"deck-crown", .03, .4, func(s *Solid) *float64 { return (*float64)(&s.DeckCrown) }},
		{"lamp-reach", .1, .95, func(s *Solid) *float64 { return &s.LampReach }},
		{"rear-lamp-reach", .1, .95, func(s *Solid) *float64 { return &s.RearLampReach }},
	}
}

// solid reads the solid block over the form's numbers, or over the inherited ones where the file keeps its parent's form.
func (r *profileReader) solid() {
	p := r.profile
	if _, form := r.top.Get("form"); form || !r.extends {
		p.Solid = solidFor(p.Form)
	}
	v, there := r.top.Get("solid")
	if !there {
		return
	}
	var keys []string
	for _, n := range SolidNumbers() {
		keys = append(keys, n.Key)
	}
	t := v.Table("key", keys)
	for _, n := range SolidNumbers() {
		if v, ok := t.Get(n.Key); ok {
			if x, ok := v.Number(n.Lo, n.Hi); ok {
				*n.Field(&p.Solid) = x
			}
		}
	}
}

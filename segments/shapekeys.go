package segments

// shapeNumber is one key of a profile's outline block that holds a plain number without a unit:
// wheels, degrees or a share, as the field of Shape says.
type shapeNumber struct {
	Key    string
	Lo, Hi float64 // allowed, ends included
	In     func(*Shape) *float64
}

// shapeNumbers lists those keys in the order they are told to people. Besides them the block holds
// stance (the word "high"), doors (0, 2 or 4), intake (true, false), slide ([from, to], shares of the wheelbase, within slideRange),
// seats ([share, …] of the way from header to glass end, within seatRange), pillars ([{at, width, tilt}, …], see pillarNumbers)
// and soften ({corner: [before, after], …}, see shapeCorners). A list replaces the one it inherits.
func shapeNumbers() []shapeNumber {
	return []shapeNumber{
		{"face-lean", 0, .8, func(s *Shape) *float64 { return (*float64)(&s.FaceLean) }},
		{"bonnet-bow", 0, .3, func(s *Shape) *float64 { return (*float64)(&s.BonnetBow) }},
		{"screen-bow", 0, .018, func(s *Shape) *float64 { return (*float64)(&s.ScreenBow) }},
		{"apex", 0, 2, func(s *Shape) *float64 { return &s.Apex }},
		{"crown", .002, .3, func(s *Shape) *float64 { return (*float64)(&s.Crown) }},
		{"glass-bow", 0, .3, func(s *Shape) *float64 { return (*float64)(&s.GlassBow) }},
		{"cab-back", 0, 1, func(s *Shape) *float64 { return (*float64)(&s.CabBack) }},
		{"cockpit", -1, 1, func(s *Shape) *float64 { return (*float64)(&s.Cockpit) }},
		{"deck-bow", 0, .2, func(s *Shape) *float64 { return (*float64)(&s.DeckBow) }},
		{"deck-fall", -.2, .4, func(s *Shape) *float64 { return (*float64)(&s.DeckFall) }},
		{"tail-lean", 0, .8, func(s *Shape) *float64 { return (*float64)(&s.TailLean) }},
		{"shoulder", .4, 1.1, func(s *Shape) *float64 { return &s.Shoulder }},
		{"pillar-w", .02, .4, func(s *Shape) *float64 { return (*float64)(&s.PillarWidth) }},
		{"rail", .02, .5, func(s *Shape) *float64 { return (*float64)(&s.Rail) }},
		{"glass-rake", 8, 90, func(s *Shape) *float64 { return (*float64)(&s.GlassRake) }},
		{"lamp-len", .05, 1.5, func(s *Shape) *float64 { return (*float64)(&s.LampLength) }},
		{"lamp-d", .03, .8, func(s *Shape) *float64 { return (*float64)(&s.LampDepth) }},
		{"lamp-tail", 0, 1, func(s *Shape) *float64 { return &s.LampTail }},
		{"rlamp-len", .05, 1.5, func(s *Shape) *float64 { return (*float64)(&s.RearLampLength) }},
		{"rlamp-d", .03, 1.5, func(s *Shape) *float64 { return (*float64)(&s.RearLampDepth) }},
		{"shoulder-drop", 0, 1, func(s *Shape) *float64 { return (*float64)(&s.ShoulderDrop) }},
		{"shoulder-wedge", -10, 10, func(s *Shape) *float64 { return (*float64)(&s.ShoulderWedge) }},
		{"rocker", 0, .6, func(s *Shape) *float64 { return (*float64)(&s.Rocker) }},
		{"cladding", 0, .4, func(s *Shape) *float64 { return (*float64)(&s.Cladding) }},
		{"door-end", .2, 1.2, func(s *Shape) *float64 { return &s.DoorEnd }},
	}
}

// shapeCorner is one key under soften: a pair of set-backs, each in 0..maxSetback.
type shapeCorner struct {
	Key string
	In  func(*Shape) *Setback
}

// maxSetback is the largest set-back a profile may ask for, in wheels.
const maxSetback = 3.0

// shapeCorners lists the keys under soften, along the outline and then round the side glass.
func shapeCorners() []shapeCorner {
	return []shapeCorner{
		{"chin", func(s *Shape) *Setback { return &s.Setbacks.Chin }},
		{"edge", func(s *Shape) *Setback { return &s.Setbacks.Edge }},
		{"cowl", func(s *Shape) *Setback { return &s.Setbacks.Cowl }},
		{"header", func(s *Shape) *Setback { return &s.Setbacks.Header }},
		{"roof", func(s *Shape) *Setback { return &s.Setbacks.Roof }},
		{"base", func(s *Shape) *Setback { return &s.Setbacks.Base }},
		{"deck", func(s *Shape) *Setback { return &s.Setbacks.Deck }},
		{"heel", func(s *Shape) *Setback { return &s.Setbacks.Heel }},
		{"glass-1", func(s *Shape) *Setback { return &s.Setbacks.Glass[0] }},
		{"glass-2", func(s *Shape) *Setback { return &s.Setbacks.Glass[1] }},
		{"glass-3", func(s *Shape) *Setback { return &s.Setbacks.Glass[2] }},
		{"glass-4", func(s *Shape) *Setback { return &s.Setbacks.Glass[3] }},
	}
}

// pillarNumber is one key of a pillar in the list under pillars; all three are required.
type pillarNumber struct {
	Key    string
	Lo, Hi float64
	In     func(*Pillar) *float64
}

// pillarNumbers lists the keys of a pillar.
func pillarNumbers() []pillarNumber {
	return []pillarNumber{
		{"at", -.5, 1, func(p *Pillar) *float64 { return &p.At }},
		{"width", .01, .3, func(p *Pillar) *float64 { return (*float64)(&p.Width) }},
		{"tilt", -1, 1, func(p *Pillar) *float64 { return &p.Tilt }},
	}
}

// slideRange bounds both ends of slide, in wheelbases.
func slideRange() Range { return Range{0, 1.5} }

// seatRange bounds each of seats.
func seatRange() Range { return Range{-.2, 1.2} }

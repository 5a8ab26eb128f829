package segments

import "hubrule/geom"

// Soft is a pair of set-backs of one corner: before it along the first line, after it along the second.
type Soft struct{ Before, After geom.Wheels }

// PillarHint is one pillar behind the A-pillar: at a share of the way from header to glass end,
// Width wide, leaning Tilt per unit of height (negative: forwards at the top).
type PillarHint struct {
	At    float64
	Width geom.Wheels
	Tilt  float64
}

// Shape holds the few numbers of the outline that are no figures (docs/outline.md says what each does).
// Lengths are in wheels, angles in degrees, the rest are shares.
type Shape struct {
	Family string // two, three, fast, open, bed

	NoseY, FaceLean          float64
	BonnetBow, ScreenBow     float64
	Apex, Crown              float64
	TailY, TailLean          float64
	Shoulder                 float64
	GlassBow, DeckFall       float64
	DeckBow, CabBack         float64
	PillarW, Rail            float64
	GlassRake                float64
	Cockpit                  float64
	LampLen, LampD, LampTail float64
	RearLampLen, RearLampD   float64
	ShoulderDrop             float64
	ShoulderWedge            float64
	Rocker, Cladding         float64
	DoorEnd                  float64
	Doors                    int
	Intake                   bool
	Slide                    []float64 // from, to, as shares of the wheelbase; empty: none
	Seats                    []float64 // x of head restraints, w
	Pillars                  []PillarHint

	Soften map[string]Soft // chin edge cowl header roof base deck heel, glass-1 … glass-4
}

package reading

import (
	"math"

	"hubrule/segments"
)

// depends says which mark is to blame for a figure that no vehicle has, and the likely slip.
type depends struct {
	figure segments.Figure
	mark   Name
	slip   string // ends the message
}

// The figures that are looked at, in the order of blame. Those of the outline come first: others hang on them. Figures that follow from the
// A-pillar's line are not among them: an upright pillar sends them far off.
var (
	ofOutline = []depends{
		{segments.Greenhouse, Roof, "; are roof and belt exchanged?"},
		{segments.BodySide, BeltLine, "; are belt and sill exchanged?"},
		{segments.Height, Roof, ""},
		{segments.Belt, BeltLine, ""},
		{segments.Sill, SillEdge, ""},
		{segments.FrontOverhang, Nose, "; where nothing stands ahead of the tyre, mark the tyre's own edge"},
		{segments.RearOverhang, Tail, "; where nothing stands behind the tyre, mark the tyre's own edge"},
	}
	ofDetails = []depends{
		{segments.BeltRise, BeltLine, "; do all its points lie on the lower edge of the side glass?"},
		{segments.Clearance, Lowest, ""}, {segments.Chin, Chin, ""}, {segments.ChinSetback, Chin, "; are nose and chin exchanged?"},
		{segments.TailLow, TailLow, ""}, {segments.TailSetback, TailLow, "; are tail and tail-low exchanged?"},
		{segments.PillarRake, APillar, ""}, {segments.GlassEnd, GlassEnd, ""},
		{segments.ArchGap, ArchFront, ""}, {segments.ArchGap, ArchRear, ""},
		{segments.LampDepth, FrontLamp, ""}, {segments.FrontLamp, FrontLamp, ""}, {segments.RearLamp, RearLamp, ""},
		{segments.BonnetEdge, BonnetEdge, ""}, {segments.Cowl, Cowl, ""}, {segments.ScreenBase, Cowl, ""}, {segments.Deck, Deck, ""},
		{segments.TailFoot, TailFoot, ""}, {segments.HeaderDrop, Header, "; are roof and header exchanged?"},
	}
)

// spare is by how much, in figures' units, a figure may lie outside its bounds whatever its ±, and spareShare the same as a share of the
// bound: flat and tall vehicles that were built must pass (judged by eye). Twice its ± may be an error of the reading.
const spare, spareShare = .05, .1

// possible returns what a figure of a vehicle may be: its bounds, wider where those of a profile are narrower than what was built, as
// upright or forward-leaning pillars, flat roofs and covered wheels (judged by eye).
func possible(f segments.Figure) (lo, hi float64) {
	switch f {
	case segments.PillarRake:
		return 10, 110
	case segments.BeltRise:
		return -20, 20
	case segments.HeaderDrop:
		return 0, 1.5
	case segments.ArchGap:
		return -.5, 1
	}
	return f.Info().Lo, f.Info().Hi
}

// isPossible reports whether v may be a vehicle's figure. Of figures that follow from the A-pillar's line nothing is said.
func (v Value) isPossible(f segments.Figure) bool {
	switch f {
	case segments.PillarAim, segments.PillarFoot, segments.PillarHead:
		return true
	case segments.PillarRake:
		if v.Value < 0 { // it leans forward
			v.Value += 180
		}
	}
	lo, hi := possible(f)
	allow := func(bound float64) float64 { return max(2*v.PM, spare, spareShare*math.Abs(bound)) }
	return v.Value >= lo-allow(lo) && v.Value <= hi+allow(hi)
}

// checkFigures refuses readings that no vehicle can have: a mark on the wrong thing, or two exchanged.
func (m *Marks) checkFigures(r *Reading, s *solution) error {
	faults := m.impossible(r, ofOutline)
	if faults == nil {
		faults = append(m.impossible(r, ofDetails), m.misplaced(s)...)
	}
	if faults != nil {
		return &Refusal{faults}
	}
	return nil
}

// impossible returns a fault for each figure that no vehicle has; one for sill, belt and roof together.
func (m *Marks) impossible(r *Reading, all []depends) (faults []Fault) {
	stack := false
	for _, d := range all {
		v, inStack := r.Figures[d.figure], d.mark == Roof || d.mark == BeltLine || d.mark == SillEdge
		if v.State != Read && v.State != Unreadable || len(m.Points[d.mark]) == 0 || inStack && stack {
			continue
		}
		if v.isPossible(d.figure) {
			continue
		}
		lo, hi := possible(d.figure)
		if stack = stack || inStack; inStack && r.Figures[segments.Sill].Value > r.Figures[segments.Height].Value && len(m.Points[Roof]) > 0 {
			d.slip = "; are roof and sill exchanged?"
		}
		faults = append(faults, m.fault(d.mark, -1, "%s (%s) comes out at %s, ± %s; want %s to %s%s", d.figure, d.figure.Info().Meaning,
			amount(d.figure, v.Value), amount(d.figure, v.PM), amount(d.figure, lo), amount(d.figure, hi), d.slip))
	}
	return faults
}

// beside is how far a mark may lie beyond the place that it must keep to, in wheels: the skew may be known badly.
const beside = .2

// misplaced returns a fault for each mark that lies at the wrong end of the vehicle.
func (m *Marks) misplaced(s *solution) (faults []Fault) {
	in := m.inputs()
	in.camera = s.at
	at := in.places(nil)
	base, wrong := in.camera[wheelbase], func(n Name, by float64, text string) {
		if by > beside {
			faults = append(faults, m.fault(n, -1, "it lies %s %s", amount(segments.Wheelbase, by), text))
		}
	}
	const lamps, arches = "; are front-lamp and rear-lamp exchanged?", "; are arch-front and arch-rear exchanged?"
	wrong(FrontLamp, at.x(FrontLamp)-.5, "behind the front tyre; want it ahead"+lamps)
	wrong(RearLamp, base-in.camera[rearRatio]/2-at.x(RearLamp), "ahead of the rear tyre; want it behind"+lamps)
	wrong(ArchFront, at.x(ArchFront)-base/2, "behind mid-wheelbase; want it above the front wheel"+arches)
	wrong(ArchRear, base/2-at.x(ArchRear), "ahead of mid-wheelbase; want it above the rear wheel"+arches)
	wrong(GlassEnd, max(-at.x(GlassEnd), 0), "ahead of the front axle; want the end of the glass, behind the A-pillar")
	if glass := at.x(GlassEnd); !(-glass > beside) {
		wrong(GlassEnd, at.x(APillar)-glass, "ahead of the A-pillar; want it behind")
	}
	return faults
}

package layout

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// limit is one thing that every vehicle keeps: room, a form over the working variables, is at least 0.
// Its name says in plain words what has to hold.
type limit struct {
	name   string
	room   affine
	pillar segments.Figure // of a limit of the A-pillar: the figure that it is about
}

// Gaps that the solve itself has to know, in wheels, and the A-pillar's slopes in degrees; all judged by eye.
const (
	glassTailGap = .1
	headGlassGap = .4
	footNoseGap  = .3
	leastRake    = 15.
	mostRake     = 85.
)

// Names of limits that the solve itself has to know.
var (
	glassBeforeTail = fmt.Sprintf("side glass ends %gw before the tail", glassTailGap)
	headBeforeGlass = fmt.Sprintf("A-pillar's head %gw before the end of the side glass", headGlassGap)
	footBehindNose  = fmt.Sprintf("A-pillar's foot %gw behind the nose", footNoseGap)
)

// bodyLimits lists what holds for body and ends, one sentence each. The gaps are judged by eye; all typical plans of the
// catalogue keep them.
func (s solver) bodyLimits() []limit {
	var out []limit
	holds := func(name string, room affine) { out = append(out, limit{name: name, room: room}) }
	apart := func(name string, gap float64, room affine) { holds(fmt.Sprintf(name, gap), room.plus(-gap)) }
	upTo := func(name string, excess float64, room affine) { holds(fmt.Sprintf(name, excess), room.plus(excess)) }
	form, fig := s.profile.Form, s.figure
	over := func(low, high segments.Figure) affine { return fig(high).sub(fig(low)) }

	for _, f := range s.bodyFigures() {
		if f != segments.GlassEnd && f != segments.LampOffset && f != segments.GreenhouseToBody {
			holds(f.String()+" at least 0", fig(f))
		}
	}
	gap := fig(segments.ArchGap)
	holds("wheels-between holds both arch gaps", fig(segments.WheelsBetween).addScaled(-2, gap))
	holds("clearance not above the sill", over(segments.Clearance, segments.Sill))
	holds("clearance not above the chin", over(segments.Clearance, segments.Chin))
	holds("clearance not above tail-low", over(segments.Clearance, segments.TailLow))
	apart("front arch %gw under the belt", .05, s.beltAt(constant(0)).sub(gap).plus(-1))
	apart("rear arch %gw under the belt", .05, s.beltAt(fig(segments.Wheelbase)).sub(gap).plus(-s.q))
	apart("body-side at least %gw", .1, fig(segments.BodySide))
	apart("greenhouse %gw more than header-drop", .1, fig(segments.Greenhouse).plus(-s.drop))
	holds("cowl not above the belt", s.beltAt(constant(s.foot)).sub(fig(segments.Cowl)))
	apart("bonnet-edge %gw under the cowl", .05, over(segments.BonnetEdge, segments.Cowl))
	upTo("front lamp's top not above the bonnet-edge by %gw", .05, over(segments.RearLamp, segments.BonnetEdge))
	rearTop := fig(segments.RearLamp).add(fig(segments.LampDepth))
	if form.Has(segments.Deck) {
		upTo("deck not above the belt by %gw", .15, over(segments.Deck, segments.Belt))
		upTo("rear lamp's top not above the deck by %gw", .02, fig(segments.Deck).sub(rearTop))
	} else {
		holds("rear lamp's top not above the belt", fig(segments.Belt).sub(rearTop))
	}
	holds(glassBeforeTail, over(segments.GlassEnd, segments.RearOverhang).plus(-glassTailGap))
	if form.Has(segments.TailFoot) {
		apart("rear screen's foot %gw before the tail", .1, over(segments.TailFoot, segments.RearOverhang).plus(s.q/2))
	}
	// Nearer than this there is no body left between the arch and the corner under nose or tail.
	apart("lower front corner %gw ahead of the front arch", .03, over(segments.ChinSetback, segments.FrontOverhang).sub(gap))
	apart("lower rear corner %gw behind the rear arch", .03, over(segments.TailSetback, segments.RearOverhang).sub(gap))
	section := float64(s.profile.Wheel.SectionWidth / s.profile.Wheel.Diameter) // 0 where only a diameter is known
	apart("tyres %gw inside the width", .03, over(segments.Track, segments.Width).plus(-section))
	return out
}

// pillarLimits lists what holds for the A-pillar's line over a solved body. The working variables are the line's height over the
// typical foot and its slope.
func (s solver) pillarLimits(body segments.Values) []limit {
	slope := variable(segments.PillarRake)
	nose := footNoseGap - .5 - body[segments.FrontOverhang]
	atCowl := nose - footNoseGap + screenNoseGap + screenPillarGap
	out := []limit{
		{fmt.Sprintf("pillar-rake at least %g", leastRake), slope.plus(-geom.Degrees(leastRake).Tan()), segments.PillarRake},
		{fmt.Sprintf("pillar-rake at most %g", mostRake), slope.scaled(-1).plus(geom.Degrees(mostRake).Tan()), segments.PillarRake},
		{footBehindNose, s.lineAt(nose).scaled(-1).plus(beltOver(body, s.rise, nose)), segments.PillarFoot},
		{pillarBehindNose, s.lineAt(atCowl).scaled(-1).plus(body[segments.Cowl]), segments.PillarFoot},
		s.headLimit(headBeforeGlass, body[segments.Wheelbase]+s.q/2+body[segments.GlassEnd], body),
	}
	for _, t := range s.pins {
		if t.pin.Figure == segments.ScreenBase {
			out = append(out, s.screenLimits(body, t.value)...)
		}
	}
	return out
}

// headLimit keeps the A-pillar's head before the end of the side glass at x = glass.
func (s solver) headLimit(name string, glass float64, body segments.Values) limit {
	return limit{name, s.lineAt(glass - headGlassGap).plus(-(body[segments.Height] - s.drop)), segments.PillarHead}
}

// lineAt is the height of the A-pillar's line over x.
func (s solver) lineAt(x float64) affine {
	return variable(segments.PillarAim).addScaled(x-s.foot, variable(segments.PillarRake))
}

// beltOver is the height of a solved body's belt line over x.
func beltOver(body segments.Values, rise, x float64) float64 {
	return body[segments.Belt] + float64(rise*(x-body[segments.Wheelbase]/2))
}

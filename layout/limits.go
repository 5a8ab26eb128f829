package layout

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// limit is one thing that no vehicle can do: room, a form over the working variables, is at least 0.
// Its name says in plain words what has to hold.
type limit struct {
	name string
	room linear
}

// bodyLimits lists what holds for body and ends: one sentence each. The rooms of hundredths and tenths are judged by eye; all typical
// plans of the catalogue hold them.
func (fr frame) bodyLimits() []limit {
	var out []limit
	needs := func(name string, room linear) { out = append(out, limit{name, room}) }
	form, fig := fr.profile.Form, fr.figure
	less := func(a, b segments.Figure, plus float64) linear { return fig(b).and(-1, fig(a)).plusJust(plus) }

	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		switch f {
		case segments.GlassEnd, segments.LampOffset, segments.GreenhouseToBody:
			continue
		}
		if form.Has(f) && !isPillar(f) {
			needs(f.String()+" at least 0", fig(f))
		}
	}
	needs("wheels-between holds both arch gaps", fig(segments.WheelsBetween).and(-2, fig(segments.ArchGap)))
	needs("clearance not above the sill", less(segments.Clearance, segments.Sill, 0))
	needs("clearance not above the chin", less(segments.Clearance, segments.Chin, 0))
	needs("clearance not above tail-low", less(segments.Clearance, segments.TailLow, 0))
	needs("front arch 0.05w under the belt", fr.beltAt(just(0)).and(-1, fig(segments.ArchGap)).plusJust(-1-.05))
	needs("rear arch 0.05w under the belt", fr.beltAt(fig(segments.Wheelbase)).and(-1, fig(segments.ArchGap)).plusJust(-fr.q-.05))
	needs("body-side at least 0.1w", fig(segments.BodySide).plusJust(-.1))
	needs("greenhouse 0.1w more than header-drop", fig(segments.Greenhouse).plusJust(-fr.drop-.1))
	needs("cowl not above the belt", fr.beltAt(just(fr.foot)).and(-1, fig(segments.Cowl)))
	needs("bonnet-edge 0.05w under the cowl", less(segments.BonnetEdge, segments.Cowl, -.05))
	needs("front lamp's top not above the bonnet-edge by 0.05w", less(segments.RearLamp, segments.BonnetEdge, .05))
	rearTop := fig(segments.RearLamp).and(1, fig(segments.LampDepth))
	if form.Has(segments.Deck) {
		needs("deck not above the belt by 0.15w", less(segments.Deck, segments.Belt, .15))
		needs("rear lamp's top not above the deck by 0.02w", fig(segments.Deck).and(-1, rearTop).plusJust(.02))
	} else {
		needs("rear lamp's top not above the belt", fig(segments.Belt).and(-1, rearTop))
	}
	needs(glassBeforeTail, less(segments.GlassEnd, segments.RearOverhang, -.1))
	if form.Has(segments.TailFoot) {
		needs("rear screen's foot 0.1w before the tail", less(segments.TailFoot, segments.RearOverhang, fr.q/2-.1))
	}
	// Nearer than this there is no body left between the arch and the corner under nose or tail.
	needs("lower front corner 0.03w ahead of the front arch", less(segments.ChinSetback, segments.FrontOverhang, -.03).and(-1, fig(segments.ArchGap)))
	needs("lower rear corner 0.03w behind the rear arch", less(segments.TailSetback, segments.RearOverhang, -.03).and(-1, fig(segments.ArchGap)))
	needs("tyres 0.03w inside the width", less(segments.Track, segments.Width, -.03-fr.section()))
	return out
}

// Names of limits that the solve itself has to know.
const (
	glassBeforeTail = "side glass ends 0.1w before the tail"
	headBeforeGlass = "A-pillar's head 0.4w before the end of the side glass"
	footBehindNose  = "A-pillar's foot 0.3w behind the nose"
	steepEnough     = "pillar-rake at least 15"
	flatEnough      = "pillar-rake at most 85"
)

// section is the front tyre's width in wheels; 0 where only a diameter is known.
func (fr frame) section() float64 {
	return float64(fr.profile.Wheel.SectionWidth / fr.profile.Wheel.Diameter)
}

// pillarLimits lists what holds for the A-pillar's line over a solved body. The working variables are the line's height over the
// typical foot and its slope.
func (fr frame) pillarLimits(body segments.Values) []limit {
	slope := variable(segments.PillarRake)
	nose := -.2 - body[segments.FrontOverhang]
	return []limit{
		{steepEnough, slope.plusJust(-geom.Degrees(15).Tan())},
		{flatEnough, slope.times(-1).plusJust(geom.Degrees(85).Tan())},
		{footBehindNose, fr.lineAt(nose).times(-1).plusJust(beltOver(body, fr.rise, nose))},
		{headBeforeGlass, fr.lineAt(fr.glassX(body) - .4).plusJust(-(body[segments.Height] - fr.drop))},
	}
}

// lineAt is the height of the A-pillar's line over x.
func (fr frame) lineAt(x float64) linear {
	return variable(segments.PillarAim).and(x-fr.foot, variable(segments.PillarRake))
}

// glassX is the x of the side glass's end.
func (fr frame) glassX(body segments.Values) float64 {
	return body[segments.Wheelbase] + fr.q/2 + body[segments.GlassEnd]
}

// beltOver is the height of a solved body's belt line over x.
func beltOver(body segments.Values, rise, x float64) float64 {
	return body[segments.Belt] + float64(rise*(x-body[segments.Wheelbase]/2))
}

// met tells a solved figure as a limit of the pillar: "belt 1.69".
func met(body segments.Values, f segments.Figure) string {
	return fmt.Sprintf("%s %.2f", f, body[f])
}

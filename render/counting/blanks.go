package counting

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// readingTolerance is how far a measurement on a sheet may be off: common practice.
const readingTolerance = .05 // wheels

// ReadingTolerance is the tolerance in the words of sheets.
const ReadingTolerance = "within 0.05 of a wheel"

// AnswerSentence says what is right on an answer sheet, where measurements have the tolerance of lengths and perhaps another.
func AnswerSentence(units request.Units, orAngle string) string {
	return "What the sheet gives is measured, " + ReadingTolerance + orAngle + "; anything else inside the range is right. Lengths in " +
		UnitName(units) + "."
}

// Blanks lists the twelve blanks that a student fills in, with the answers; they divide into one, two or three columns. What a given guide
// shows is a measurement, right within the reading tolerance. What the student invents may lie anywhere in the segment's range: a declared
// figure's own, or what follows from the ranges of its parts.
func (d *Drawing) Blanks(given func(request.Guide) bool) []draft.Blank {
	p := d.Plan
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	between, front, rear := of(segments.WheelsBetween), of(segments.FrontOverhang), of(segments.RearOverhang)
	base := sum(between, exactly(.5), exactly(float64(p.RearRadius())))
	parts := segments.Range{Lo: 1 / of(segments.GreenhouseToBody).Hi, Hi: 1 / of(segments.GreenhouseToBody).Lo}
	read := func(v float64) segments.Range {
		return segments.Range{Lo: v - readingTolerance, Hi: v + readingTolerance}
	}
	blank := func(name string, v float64, r segments.Range, format func(float64) string) draft.Blank {
		// A figure moved out of its range, by a pin, widens it: what the sheet shows is always right.
		return draft.Blank{Name: name, Value: format(v), Lo: format(min(r.Lo, v)), Hi: format(max(r.Hi, v))}
	}
	length := func(name string, guide request.Guide, w geom.Wheels, r segments.Range) draft.Blank {
		if given(guide) {
			r = read(float64(w))
		}
		return blank(name, float64(w), r, func(v float64) string { return d.FormatLength(geom.Wheels(v)) })
	}
	counted := func(name string, v float64, r segments.Range) draft.Blank {
		out := blank(name, v, r, func(v float64) string { return draft.FormatFixed(v, 2) })
		out.Value = draft.FormatCount(v)
		return out
	}
	if given("wheels") {
		between = read(p.WheelsBetween())
	}
	if given("roof") && given("belt") && given("sill") {
		side, house := read(float64(p.BodySide())), read(p.Value(segments.Greenhouse))
		parts = segments.Range{Lo: side.Lo / house.Hi, Hi: side.Hi / house.Lo}
	}
	behind := p.GlassEnd() - p.RearEdge()
	return []draft.Blank{
		counted("wheels between tyres", p.WheelsBetween(), between),
		length("roof, from the ground", "roof", p.Height(), of(segments.Height)),
		length("sill, from the ground", "sill", p.Sill(), of(segments.Sill)),
		length("belt, at mid-wheelbase", "belt", p.Belt(), beltRange(p)),
		counted("body side / greenhouse", 1/p.GreenhouseToBody(), parts),
		length("front overhang", "overhangs", p.FrontOverhang(), front),
		length("rear overhang", "overhangs", p.RearOverhang(), rear),
		length("length, nose to tail", "overhangs", p.Length(), sum(base, front, rear, exactly(float64(.5+p.RearRadius())))),
		length("A-pillar aim height", "pillar", p.PillarAim(), p.AimRange()),
		length("arch gap", "arches", p.ArchGap(), of(segments.ArchGap)),
		length("glass end behind tyre", "glass", behind, of(segments.GlassEnd)),
		length("wheelbase, axle to axle", "wheels", p.Wheelbase(), base),
	}
}

func exactly(v float64) segments.Range { return segments.Range{Lo: v, Hi: v} }

// sum returns how far the sum of independent figures may move.
func sum(parts ...segments.Range) segments.Range {
	var out segments.Range
	for _, r := range parts {
		out.Lo, out.Hi = out.Lo+r.Lo, out.Hi+r.Hi
	}
	return out
}

// beltRange returns how high the belt may lie at mid-wheelbase: it rises with sill and roof and falls with the greenhouse's share,
// so its extremes lie at theirs.
func beltRange(p layout.Plan) segments.Range {
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	sill, roof, ratio := of(segments.Sill), of(segments.Height), of(segments.GreenhouseToBody)
	at := func(sill, roof, ratio float64) float64 { return sill + (roof-sill)/(1+ratio) }
	return segments.Range{Lo: at(sill.Lo, roof.Lo, ratio.Hi), Hi: at(sill.Hi, roof.Hi, ratio.Lo)}
}

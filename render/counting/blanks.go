package counting

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/segments"
)

// blankCount is how many blanks a practice sheet has; they divide into one, two or three columns.
const blankCount = 12

// Blanks lists what a student fills in, with the answers. The range of a declared figure is its profile's; that of a sum follows
// from its parts. A figure moved out of its range, by a pin, widens it: what the sheet shows is always right.
func (d *Drawing) Blanks() [blankCount]draft.Blank {
	p := d.Plan
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	between, front, rear := of(segments.WheelsBetween), of(segments.FrontOverhang), of(segments.RearOverhang)
	base := sum(between, exactly(.5), exactly(float64(p.RearRadius())))
	parts := segments.Range{Lo: 1 / of(segments.GreenhouseToBody).Hi, Hi: 1 / of(segments.GreenhouseToBody).Lo}
	length := func(name string, w geom.Wheels, r segments.Range) draft.Blank {
		r = widened(r, float64(w))
		return draft.Blank{Name: name, Value: d.FormatLength(w), Lo: d.FormatLength(geom.Wheels(r.Lo)), Hi: d.FormatLength(geom.Wheels(r.Hi))}
	}
	counted := func(name string, v float64, r segments.Range) draft.Blank {
		r = widened(r, v)
		return draft.Blank{Name: name, Value: draft.FormatCount(v), Lo: draft.Fixed(r.Lo, 2), Hi: draft.Fixed(r.Hi, 2)}
	}
	behind := p.GlassEnd() - p.RearEdge()
	return [...]draft.Blank{
		counted("wheels between tyres", p.WheelsBetween(), between),
		length("roof, from the ground", p.Height(), of(segments.Height)),
		length("sill, from the ground", p.Sill(), of(segments.Sill)),
		length("belt, at mid-wheelbase", p.Belt(), beltRange(p)),
		counted("body side / greenhouse", 1/p.GreenhouseToBody(), parts),
		length("front overhang", p.FrontOverhang(), front),
		length("rear overhang", p.RearOverhang(), rear),
		length("length, nose to tail", p.Length(), sum(base, front, rear, exactly(float64(.5+p.RearRadius())))),
		length("A-pillar aim height", p.PillarAim(), p.AimRange()),
		length("arch gap", p.ArchGap(), of(segments.ArchGap)),
		length("glass end behind tyre", behind, of(segments.GlassEnd)),
		length("wheelbase, axle to axle", p.Wheelbase(), base),
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

// widened returns r, widened to hold v.
func widened(r segments.Range, v float64) segments.Range {
	return segments.Range{Lo: min(r.Lo, v), Hi: max(r.Hi, v)}
}

// beltRange returns how high the belt may lie at mid-wheelbase: it rises with sill and roof and falls with the greenhouse's share,
// so its extremes lie at theirs.
func beltRange(p layout.Plan) segments.Range {
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	sill, roof, ratio := of(segments.Sill), of(segments.Height), of(segments.GreenhouseToBody)
	at := func(sill, roof, ratio float64) float64 { return sill + (roof-sill)/(1+ratio) }
	return segments.Range{Lo: at(sill.Lo, roof.Lo, ratio.Hi), Hi: at(sill.Hi, roof.Hi, ratio.Lo)}
}

// BlankGrid lays out the blanks in a space.
func (d *Drawing) BlankGrid(space draft.Box) draft.BlankGrid {
	list := d.Blanks()
	return draft.NewBlankGrid(list[:], space)
}

// WriteBlanks writes heading, sentence and the twelve blanks on the fixed surface, filled or empty.
func (d *Drawing) WriteBlanks(b *draft.Surface, heading, sentence string, filled bool) {
	list := d.Blanks()
	draft.Form{Heading: heading, Sentence: sentence, Filled: filled, Blanks: list[:]}.Write(b)
}

package reading

import (
	"math"

	"hubrule/layout"
	"hubrule/segments"
)

// Difference is how a figure that was read lies to what it is held against, in the figure's own unit.
type Difference struct {
	Figure segments.Figure
	Read   Value
	Range  segments.Range // that it is held against; a single value of a brief
	Beyond float64        // how far outside: negative below, 0 inside
	Move   float64        // the signed change by which it reads as wanted; 0: none is needed
	// CannotTell: the interval of what was read reaches across an edge of the range.
	CannotTell bool
}

// Weight is how much a difference matters: how many times as far as its ± the figure lies outside.
func (d Difference) Weight() float64 { return math.Abs(d.Move) / max(d.Read.PM, .005) }

// How far a figure may lie from that of a brief without a word being said: a hair of a sketch (judged by eye).
const (
	briefHair    = .05 // wheels, ratios and counts
	briefDegrees = 2
)

// AgainstRange holds the figures read against the ranges of a segment.
func (r Reading) AgainstRange(typical layout.Plan) []Difference {
	return r.against(typical, func(s layout.FigureStatus) (segments.Range, float64, bool) {
		if s.Range == nil {
			return segments.Range{}, 0, false
		}
		return *s.Range, 0, true
	})
}

// AgainstPlan holds the figures read against those of a brief.
func (r Reading) AgainstPlan(plan layout.Plan) []Difference {
	return r.against(plan, func(s layout.FigureStatus) (segments.Range, float64, bool) {
		tolerance := briefHair
		if s.Figure.Info().Unit == segments.InDegrees {
			tolerance = briefDegrees
		}
		return segments.Range{Lo: s.Value, Hi: s.Value}, tolerance, true
	})
}

// against lists the figures that were read and that the plan has a range for, with how far outside a figure may lie.
func (r Reading) against(plan layout.Plan, allowed func(layout.FigureStatus) (segments.Range, float64, bool)) (out []Difference) {
	for _, s := range plan.FigureStatuses() {
		v := r.Figures[s.Figure]
		unit := s.Figure.Info().Unit
		if v.State != Read || unit == segments.InMM || unit == segments.AsWord {
			continue
		}
		between, tolerance, ok := allowed(s)
		if !ok {
			continue
		}
		d := Difference{Figure: s.Figure, Read: v, Range: between}
		edge := min(max(v.Value, between.Lo), between.Hi)
		d.Beyond = v.Value - edge
		if math.Abs(d.Beyond) > tolerance {
			d.Move = -d.Beyond
		}
		for _, e := range []float64{between.Lo - tolerance, between.Hi + tolerance} {
			d.CannotTell = d.CannotTell || math.Abs(v.Value-e) < v.PM
		}
		out = append(out, d)
	}
	return out
}

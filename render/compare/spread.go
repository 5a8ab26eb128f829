package compare

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Spread draws every declared figure as a range with a dot at each plan's value. Plans of one segment have the same ranges: then all
// rows are scaled to half-ranges, so that outliers stand out. Plans of several segments are compared in each figure's own unit.
type Spread struct{ request.Request }

// Draw draws the sheet, which has no wheel. It fails where the rows find no room.
func (r Spread) Draw(c draft.Canvas, _ geom.MM, number func(i int) string) ([]render.Page, error) {
	b := c.Fixed(r.Ink(request.Spread))
	s := newSpreadPage(r.Request, b)
	if s.pitch() < s.least() {
		return nil, fmt.Errorf("the spread does not fit on %s: %d figures of %d vehicles; use larger paper",
			c.Paper.Name, len(s.figures), len(r.Plans))
	}
	s.key()
	for i, f := range s.figures {
		s.row(f, s.top+s.pitch()*geom.MM(i))
	}
	unit := "half-ranges"
	if !s.alike {
		unit = "each figure's own unit"
	}
	heading := r.Title()
	sub := "spread of " + strings.Join(s.names, ", ")
	c.TitleBlock(b, draft.Caption{Heading: heading, Sub: sub}, [][]draft.Fact{
		{{Name: draft.LengthsIn, Value: counting.UnitName(r.Setting.Units)}, {Name: "drawn in", Value: unit}},
		{{Name: "declared figures", Value: fmt.Sprint(len(s.figures))}, {Name: "counts in", Value: "wheels"}},
	}, number(0))
	return []render.Page{c.Finish(heading+", "+string(request.Spread), &draft.Surface{}, b, r.Setting.Facing)}, nil
}

// spreadPage is one spread being drawn.
type spreadPage struct {
	*draft.Surface
	plans          []layout.Plan
	units          request.Units
	names          []string
	alike          bool // all plans of one segment
	figures        []segments.Figure
	top, bottom    geom.MM
	label, numbers geom.MM // widths of the names, and of a value beside a range
	values         geom.MM // width of the plans' values at the right end
}

func newSpreadPage(r request.Request, b *draft.Surface) *spreadPage {
	s := &spreadPage{Surface: b, plans: r.Plans, units: r.Setting.Units, names: shortNames(r.Plans, 60)}
	first := r.Plans[0].Profile
	s.alike = !slices.ContainsFunc(s.plans, func(p layout.Plan) bool {
		return !sameRanges(p.Profile, first) || p.OnVehicle(1) != r.Plans[0].OnVehicle(1)
	})
	for f := range segments.FigureCount {
		if f.Info().Role == segments.Declared && slices.ContainsFunc(s.plans, func(p layout.Plan) bool { return p.Profile.Form.Has(f) }) {
			s.figures = append(s.figures, f)
			s.label = max(s.label, fonts.Width(figureName(f), draft.Small, render.Regular))
		}
	}
	for _, p := range s.plans {
		for _, f := range s.figures {
			if p.Profile.Form.Has(f) {
				r := p.Profile.Figures[f].Range
				for _, v := range []float64{p.Value(f), r.Lo, r.Hi} {
					s.numbers = max(s.numbers, fonts.Width(formatFigure(p, f, v, s.units), draft.Small, render.Medium))
				}
			}
		}
	}
	s.values = (s.numbers + 4) * geom.MM(len(s.plans))
	s.top = s.Space.Min.Y + keyPitch*geom.MM(s.keyLines()) + 8
	s.bottom = s.Space.Max.Y - draft.TitleBlockHeight - 2
	return s
}

// sameRanges reports whether two profiles give every declared figure the same range.
func sameRanges(a, b *segments.Profile) bool {
	for f := range segments.FigureCount {
		if a.Form.Has(f) != b.Form.Has(f) || a.Figures[f].Range != b.Figures[f].Range {
			return false
		}
	}
	return true
}

// lanes is how many ranges stand under each other in a row.
func (s *spreadPage) lanes() int {
	if s.alike {
		return 1
	}
	return len(s.plans)
}

// laneGap is how far the ranges of one row stand apart at least.
const laneGap geom.MM = 1.2

// pitch is the height of a row; least is the smallest at which neither words nor ranges touch.
func (s *spreadPage) pitch() geom.MM {
	return min(10.5, (s.bottom-s.top)/geom.MM(len(s.figures)))
}

func (s *spreadPage) least() geom.MM { return max(4, laneGap*geom.MM(s.lanes()+1)) }

// track returns where the ranges of all rows are drawn.
func (s *spreadPage) track() (from, to geom.MM) {
	return s.Space.Min.X + s.label + 4 + s.numbers + 3, s.Space.Max.X - s.values - 3 - s.numbers - 3
}

// scale returns the values at the ends of figure f's track, wide enough for all ranges and values.
func (s *spreadPage) scale(f segments.Figure) segments.Range {
	if s.alike {
		low, high := -1.1, 1.1
		for _, p := range s.plans {
			for _, g := range s.figures {
				v := halfRanges(p, g)
				low, high = min(low, v-.1), max(high, v+.1)
			}
		}
		r := s.plans[0].Profile.Figures[f].Range
		mid := (r.Lo + r.Hi) / 2
		return segments.Range{Lo: mid + low*r.HalfWidth(), Hi: mid + high*r.HalfWidth()}
	}
	out := segments.Range{Lo: 1e9, Hi: -1e9}
	for _, p := range s.plans {
		if p.Profile.Form.Has(f) {
			r, v := p.Profile.Figures[f].Range, s.on(p, f, p.Value(f))
			out.Lo, out.Hi = min(out.Lo, s.on(p, f, r.Lo), v), max(out.Hi, s.on(p, f, r.Hi), v)
		}
	}
	return out
}

// on converts a value of figure f to its track's scale. Lengths are in the sheet's unit: with different tyres, millimetres and wheels
// sort vehicles differently.
func (s *spreadPage) on(p layout.Plan, f segments.Figure, v float64) float64 {
	if s.alike || s.units == request.Wheels || f.Info().Unit != segments.InWheels {
		return v
	}
	return float64(p.OnVehicle(geom.Wheels(v)))
}

// halfRanges is where a plan's value lies in its range: −1 at the lower end, 1 at the upper.
func halfRanges(p layout.Plan, f segments.Figure) float64 {
	r := p.Profile.Figures[f].Range
	if r.HalfWidth() == 0 {
		return 0
	}
	return (p.Value(f) - (r.Lo+r.Hi)/2) / r.HalfWidth()
}

// row draws one figure with its upper edge at y: name, least value, ranges and dots, greatest value, the plans' values.
func (s *spreadPage) row(f segments.Figure, y geom.MM) {
	mid := y + s.pitch()/2
	from, to := s.track()
	scale := s.scale(f)
	x := func(v float64) geom.MM {
		if scale.Hi == scale.Lo {
			return (from + to) / 2
		}
		return from + geom.MM((v-scale.Lo)/(scale.Hi-scale.Lo))*(to-from)
	}
	rowLine := draft.LineStyle{Width: draft.Hair, Role: draft.Soft}
	s.Stroke(rowLine.For("ticks", ""), draft.Pt(s.Space.Min.X, y+s.pitch()), draft.Pt(s.Space.Max.X, y+s.pitch()))
	at := func(w draft.Word, x geom.MM, a render.Anchor) {
		l := draft.NewLabel([]draft.Word{w})
		s.Write("labels", l.MiddleAt(x, mid, a))
	}
	at(draft.Name(figureName(f)), s.Space.Min.X, render.Start)
	lo, hi := scale.Lo, scale.Hi
	if s.alike {
		r := s.plans[0].Profile.Figures[f].Range
		lo, hi = r.Lo, r.Hi
	}
	at(draft.Note(s.end(f, lo)), from-3, render.End)
	at(draft.Note(s.end(f, hi)), to+3+s.numbers, render.End)
	for k, p := range s.plans {
		end := s.Space.Max.X - (s.numbers+4)*geom.MM(len(s.plans)-1-k)
		at(coloured(k, draft.Value(figureValue(p, f, s.units)))[0], end, render.End)
		if p.Profile.Form.Has(f) {
			s.rangeLine(k, f, s.laneAt(k, mid), func(v float64) geom.MM { return x(s.on(p, f, v)) })
		}
	}
}

// end prints v, an end of figure f's track, as the plan that reaches it does.
func (s *spreadPage) end(f segments.Figure, v float64) string {
	for _, p := range s.plans {
		r := p.Profile.Figures[f].Range
		for _, own := range []float64{r.Lo, r.Hi, p.Value(f)} {
			if p.Profile.Form.Has(f) && s.on(p, f, own) == v {
				return formatFigure(p, f, own, s.units)
			}
		}
	}
	panic("compare: no plan has the end value of " + f.String())
}

// laneAt is the height of plan k's range in a row about mid.
func (s *spreadPage) laneAt(k int, mid geom.MM) geom.MM {
	n := s.lanes()
	if n == 1 {
		return mid
	}
	gap := max(laneGap, min(2.2, s.pitch()/geom.MM(n+1)))
	return mid + gap*(geom.MM(k)-geom.MM(n-1)/2)
}

// rangeLine draws plan k's range, its typical value as a tick and its own as a dot. Ranges that all share are drawn once.
func (s *spreadPage) rangeLine(k int, f segments.Figure, y geom.MM, x func(float64) geom.MM) {
	p := s.plans[k]
	entry := p.Profile.Figures[f]
	line := draft.RuleLine()
	if k > 0 {
		line.Role = draft.Accent
	}
	narrow := draft.LineStyle{Width: draft.Narrow, Role: line.Role}
	if !s.alike || k == 0 {
		id := planID(k, "range-"+f.String())
		s.Line(line.For("ticks", id), draft.Pt(x(entry.Range.Lo), y), draft.Pt(x(entry.Range.Hi), y))
		for _, v := range []float64{entry.Range.Lo, entry.Value, entry.Range.Hi} {
			s.Tick(narrow.For("ticks", ""), draft.Pt(x(v), y), draft.Pt(0, .6))
		}
	}
	if end := min(max(p.Value(f), entry.Range.Lo), entry.Range.Hi); end != p.Value(f) {
		narrow.Dash = []float64{2, 3}
		s.Line(narrow.For("ticks", ""), draft.Pt(x(end), y), draft.Pt(x(p.Value(f)), y))
	}
	s.valueDot(k, planID(k, "value-"+f.String()), draft.Pt(x(p.Value(f)), y))
}

// valueDot draws the dot of plan k.
func (s *spreadPage) valueDot(k int, id string, at draft.Point) {
	line := draft.LineStyle{Width: draft.Narrow, Role: draft.Strong}
	if k > 0 {
		line.Role = draft.Accent
	}
	ink := s.Inks.Colours[line.Role]
	c := &render.Circle{Tagged: render.Tagged{Guide: "ticks", ID: id}, Centre: at, R: dotRadius(k), Pen: s.Pen(line)}
	if c.Fill = &ink; k >= 2 {
		c.Fill = &render.Colour{R: 255, G: 255, B: 255}
	}
	s.Marks = append(s.Marks, c)
}

// dotRadius is the radius of plan k's dot, in mm; dots of different sizes show even on top of each other.
func dotRadius(k int) geom.MM { return []geom.MM{.7, .7, .7, .95, 1.2, 1.45}[k] }

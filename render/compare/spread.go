package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Spread draws every declared figure as a range with a dot at each plan's value, on a scale in the figure's own unit. Plans of one segment
// have the same ranges: then all ranges begin and end on one upright, so that outliers stand out, and half a page holds them.
type Spread struct{ request.Request }

// Draw draws the sheet, which has no wheel. It fails where the rows find no room.
func (r Spread) Draw(c draft.Canvas, _ geom.MM, number func(i int) string) ([]render.Page, error) {
	b := c.FixedSurface(r.Ink(request.Spread))
	s := newSpreadPage(r.Request, b)
	if s.pitch < s.least() {
		return nil, fmt.Errorf("the spread does not fit on %s: %d figures of %d vehicles; use larger paper",
			c.Paper.Name, len(s.figures), len(r.Plans))
	}
	s.key()
	for figures := range slices.Chunk(s.figures, s.rows) {
		s.heads(s.top-4.2, len(figures))
		for i, f := range figures {
			s.row(f, s.top+s.pitch*geom.MM(i))
		}
		s.left, s.right = s.right+blockGap, 2*s.right+blockGap-s.left
	}
	title := draft.Caption{Heading: r.Title(), Sub: "spread of " + strings.Join(s.names, ", ")}
	c.TitleBlock(b, title, [][]draft.Fact{
		append(counting.UnitFacts(r.Setting.Units), draft.Fact{Name: "declared figures", Value: fmt.Sprint(len(s.figures))}),
	}, number(0))
	return []render.Page{c.Finish(title.Heading+", "+string(request.Spread), &draft.Surface{}, b, r.Setting.Facing)}, nil
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
	rows           int       // of each block of rows
	pitch          geom.MM   // the height of a row
	left, right    geom.MM   // of the block that is being drawn
	label, numbers geom.MM   // widths of the figures' names, and of a value beside a range
	columns        []geom.MM // widths of the plans' values at the right end
	named          bool      // the columns are as wide as the plans' names
}

func newSpreadPage(r request.Request, b *draft.Surface) *spreadPage {
	s := &spreadPage{Surface: b, plans: r.Plans, units: r.Setting.Units, names: shortNames(r.Plans, 60)}
	first := r.Plans[0].Profile
	s.alike = !slices.ContainsFunc(s.plans, func(p layout.Plan) bool {
		return !sameRanges(p.Profile, first) || p.OnVehicle(1) != r.Plans[0].OnVehicle(1)
	})
	for f := range segments.FigureCount {
		if f.Info().Role != segments.Declared || !slices.ContainsFunc(s.plans, func(p layout.Plan) bool { return p.Profile.Form.Has(f) }) {
			continue
		}
		s.figures, s.label = append(s.figures, f), max(s.label, draft.Name(figureName(f)).Width())
		for _, p := range s.plans {
			if p.Profile.Form.Has(f) {
				r := p.Profile.Figures[f].Range
				for _, v := range []float64{p.Value(f), r.Lo, r.Hi} {
					s.numbers = max(s.numbers, draft.Value(formatFigure(p, f, v, s.units)).Width())
				}
			}
		}
	}
	s.top = s.Space.Min.Y + keyPitch*geom.MM(len(s.plans)+1) + 8
	s.bottom = s.Space.Max.Y - draft.TitleBlockHeight - 2
	s.divide()
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

// axis is the scale of a figure's track.
type axis struct {
	segments.Range         // the values at its ends, wide enough for all ranges and values
	least, greatest string // the least and the greatest value, as the first plan that reaches it prints it
}

func (s *spreadPage) axis(f segments.Figure) axis {
	if s.alike {
		low, high := -1., 1.
		for _, p := range s.plans {
			for _, g := range s.figures {
				v := halfRanges(p, g)
				low, high = min(low, v), max(high, v)
			}
		}
		first := s.plans[0]
		r := first.Profile.Figures[f].Range
		mid := (r.Lo + r.Hi) / 2
		return axis{segments.Range{Lo: mid + low*r.HalfWidth(), Hi: mid + high*r.HalfWidth()},
			formatFigure(first, f, r.Lo, s.units), formatFigure(first, f, r.Hi, s.units)}
	}
	out := axis{Range: segments.Range{Lo: math.Inf(1), Hi: math.Inf(-1)}}
	for _, p := range s.plans {
		if !p.Profile.Form.Has(f) {
			continue
		}
		r := p.Profile.Figures[f].Range
		for _, v := range []float64{r.Lo, r.Hi, p.Value(f)} {
			if on := s.on(p, f, v); on < out.Lo {
				out.Lo, out.least = on, formatFigure(p, f, v, s.units)
			}
			if on := s.on(p, f, v); on > out.Hi {
				out.Hi, out.greatest = on, formatFigure(p, f, v, s.units)
			}
		}
	}
	return out
}

// place returns where a value lies on the page.
func (s *spreadPage) place(a axis, v float64) geom.MM {
	from, to := s.track()
	if a.Hi == a.Lo {
		return (from + to) / 2
	}
	return from + geom.MM((v-a.Lo)/(a.Hi-a.Lo))*(to-from)
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

// row draws one figure with its upper edge at y: name, least value, ranges and dots, greatest value, the plans' values, and under them the
// scale.
func (s *spreadPage) row(f segments.Figure, y geom.MM) {
	mid, scale := y+s.pitch/2, s.axis(f)
	from, to := s.track()
	rowLine := draft.NewLineStyle(draft.Hair, draft.Soft).For("ticks", "")
	s.Stroke(rowLine, draft.Pt(s.left, y+s.pitch), draft.Pt(s.right, y+s.pitch))
	for _, v := range s.roundValues(f, scale.Range) {
		foot := draft.Pt(s.place(scale, v), y+s.pitch)
		s.Stroke(draft.NewLineStyle(draft.Hair, draft.Plain).For("ticks", ""), foot, foot.Sub(draft.Pt(0, .9)))
	}
	at := func(w draft.Word, x geom.MM, a render.Anchor) {
		s.Write("labels", draft.OneLine(w).MiddleAt(x, mid, a))
	}
	at(draft.Name(figureName(f)), s.left, render.Start)
	at(draft.Note(scale.least), from-3, render.End)
	at(draft.Note(scale.greatest), to+3+s.numbers, render.End)
	gap := max(laneGap, min(2.2, s.pitch/geom.MM(s.lanes()+1)))
	for k, p := range s.plans {
		lane := mid
		if n := s.lanes(); n > 1 {
			lane += gap * (geom.MM(k) - geom.MM(n-1)/2)
		}
		at(coloured(k, draft.Value(figureValue(p, f, s.units)))[0], s.columnEnd(k), render.End)
		if p.Profile.Form.Has(f) {
			s.rangeLine(k, f, lane, func(v float64) geom.MM { return s.place(scale, s.on(p, f, v)) })
		}
	}
}

// roundValues lists the values on a figure's axis that its scale marks: every 1, 2 or 5 of a power of ten of the unit that is printed.
func (s *spreadPage) roundValues(f segments.Figure, on segments.Range) []float64 {
	unit := 1. // of what is printed, on the axis
	switch inch := float64(geom.Inch); {
	case f.Info().Unit != segments.InWheels || s.units == request.Wheels:
	case s.units == request.Inches:
		unit = inch
	}
	if s.alike && f.Info().Unit == segments.InWheels && s.units != request.Wheels {
		unit /= float64(s.plans[0].OnVehicle(1))
	}
	step := roundStep(on, unit)
	if step == 0 {
		return nil
	}
	var out []float64
	for k := math.Ceil(on.Lo/step - 1e-6); k*step <= on.Hi+1e-6*step; k++ {
		out = append(out, k*step)
	}
	return out
}

// roundStep returns how far the marks of a scale stand apart: 1, 2 or 5 of a power of ten of a unit, so that there are few; 0 where the
// scale has no length.
func roundStep(on segments.Range, unit float64) float64 {
	if on.Hi <= on.Lo {
		return 0
	}
	const most = 12
	step := math.Pow10(int(math.Floor(math.Log10((on.Hi-on.Lo)/unit/most)))) * unit
	for _, k := range []float64{2, 2.5, 2} { // 1, 2, 5, 10
		if (on.Hi-on.Lo)/step > most {
			step *= k
		}
	}
	return step
}

// rangeLine draws plan k's range, its typical value as a tick and its own as a dot. Ranges that all share are drawn once.
func (s *spreadPage) rangeLine(k int, f segments.Figure, y geom.MM, x func(float64) geom.MM) {
	p := s.plans[k]
	entry := p.Profile.Figures[f]
	line, narrow := draft.RuleLine(), draft.NewLineStyle(draft.Narrow, draft.Strong)
	if k > 0 {
		line.Role, narrow.Role = variantLine(k).Role, variantLine(k).Role
	}
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

// valueDot draws the dot of plan k; dots of different sizes show even on top of each other.
func (s *spreadPage) valueDot(k int, id string, at draft.Point) {
	line := draft.NewLineStyle(draft.Narrow, draft.Strong)
	if k > 0 {
		line.Role = variantLine(k).Role
	}
	ink := s.Inks.Colours[line.Role]
	radius := []geom.MM{.7, .7, .7, .95, 1.2, 1.45}[k]
	c := &render.Circle{Tagged: render.Tagged{Guide: "ticks", ID: id}, Centre: at, R: radius, Pen: s.Pen(line)}
	if c.Fill = &ink; k >= 2 {
		c.Fill = &render.Colour{R: 255, G: 255, B: 255}
	}
	s.Marks = append(s.Marks, c)
}

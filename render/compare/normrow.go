package compare

import (
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// normRow is one figure of norms on the page.
type normRow struct {
	*draft.Surface
	reading.Norm
	from, to geom.MM        // of its track
	axis     segments.Range // the values there, multiples of step
	step     float64
	y, pitch geom.MM
	stacked  map[int]int // how many dots stand at a place, in dots
	dots     []draft.Box
}

// normDot is the radius of a dot in mm.
const normDot geom.MM = .75

// span returns the step of the row's scale and the round values at its ends, beyond those of the range and of every dot.
func (r *normRow) span() (float64, segments.Range) {
	out := r.Range
	for _, v := range r.Values {
		if v.State == reading.Read {
			out.Lo, out.Hi = min(out.Lo, v.Value), max(out.Hi, v.Value)
		}
	}
	step := roundStep(out, 1)
	if step == 0 {
		return 1, segments.Range{Lo: math.Floor(out.Lo), Hi: math.Floor(out.Lo) + 1}
	}
	return step, segments.Range{Lo: step * math.Floor(out.Lo/step+1e-6), Hi: step * math.Ceil(out.Hi/step-1e-6)}
}

// x returns where a value lies; what lies off the scale, at its end.
func (r *normRow) x(v float64) geom.MM {
	share := (v - r.axis.Lo) / (r.axis.Hi - r.axis.Lo)
	return r.from + geom.MM(geom.MM(min(max(share, 0), 1))*(r.to-r.from))
}

// draw draws the row.
func (r *normRow) draw(n *reading.Norms) {
	r.scale()
	r.numbers()
	r.Line(draft.RuleLine().For("ticks", "range-"+r.Figure.String()), draft.Pt(r.x(r.Range.Lo), r.y), draft.Pt(r.x(r.Range.Hi), r.y))
	for _, v := range []float64{r.Range.Lo, r.Range.Hi} {
		r.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(r.x(v), r.y), draft.Pt(0, 1))
	}
	outlier := func(i int) bool {
		return slices.ContainsFunc(n.Outliers, func(o reading.Outlier) bool { return o.Figure == r.Figure && o.Name == n.Readings[i].Name })
	}
	at := make([]draft.Point, len(r.Values))
	for i, v := range r.Values {
		if v.State == reading.Read {
			at[i] = r.dot(v, outlier(i))
		}
	}
	r.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(r.x(r.Median), r.y), draft.Pt(0, min(3.6, r.pitch/2-.6)))
	for i, v := range r.Values {
		if v.State == reading.Read && outlier(i) {
			r.name(n.Readings[i].Name, at[i], v.Value < r.Median)
		}
	}
}

// scale draws the line under the row, marked at round values, and writes what stands at its ends.
func (r *normRow) scale() {
	foot := r.y + r.pitch/2
	r.Stroke(draft.NewLineStyle(draft.Hair, draft.Soft).For("ticks", ""), draft.Pt(r.Space.Min.X, foot), draft.Pt(r.Space.Max.X, foot))
	for k := 0.; k <= math.Round((r.axis.Hi-r.axis.Lo)/r.step); k++ {
		at := draft.Pt(r.x(r.axis.Lo+float64(k*r.step)), foot)
		r.Stroke(draft.NewLineStyle(draft.Hair, draft.Plain).For("ticks", ""), at, at.Sub(draft.Pt(0, .9)))
	}
	end := func(v float64, x geom.MM, a render.Anchor) {
		r.Write("labels", draft.OneLine(draft.Note(draft.FormatTrimmed(v, 3)+r.degree())).MiddleAt(x, r.y, a))
	}
	end(r.axis.Lo, r.from-2.5, render.End)
	end(r.axis.Hi, r.to+2.5, render.Start)
}

// degree is what follows the number of an angle.
func (r *normRow) degree() string {
	if r.Figure.Info().Unit == segments.InDegrees {
		return "°"
	}
	return ""
}

// numbers writes the row's name and its numbers.
func (r *normRow) numbers() {
	at := func(w draft.Word, x geom.MM, a render.Anchor) {
		r.Write("labels", draft.OneLine(w).MiddleAt(x, r.y, a))
	}
	number := func(v float64) string {
		if r.degree() != "" {
			return draft.FormatFixed(v, 1) + "°"
		}
		return draft.FormatFixed(v, 2)
	}
	at(draft.Name(figureName(r.Figure)), r.Space.Min.X, render.Start)
	texts := []string{fmt.Sprint(r.N), number(r.P10), number(r.Median), number(r.P90), number(r.usual()),
		number(r.Range.Lo) + " to " + number(r.Range.Hi)}
	for i, text := range texts {
		word := draft.Note(text)
		if i == 2 || i == 5 {
			word = draft.Value(text)
		}
		at(word, normColumn(r.Surface, i), render.End)
	}
}

// usual is the median of the readings' own ±.
func (r *normRow) usual() float64 {
	var all []float64
	for _, v := range r.Values {
		if v.State == reading.Read {
			all = append(all, v.PM)
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return (all[(len(all)-1)/2] + all[len(all)/2]) / 2
}

// dot draws one reading's value and returns where; that of an outlier in another ink, with its ± as a line through it. Dots at one place
// stand over and under each other.
func (r *normRow) dot(v reading.Value, outlier bool) draft.Point {
	style := draft.NewLineStyle(draft.Hair, draft.Plain)
	ink := r.Inks.Colours[draft.Plain]
	if outlier {
		style.Role, ink = draft.Accent, r.Inks.Colours[draft.Accent]
	}
	x := r.x(v.Value)
	place := int(math.Round(float64(x / (2 * normDot))))
	off := 2 * normDot * geom.MM((r.stacked[place]+1)/2)
	if off = min(off, r.pitch/2-2*normDot); r.stacked[place]%2 == 1 {
		off = -off
	}
	r.stacked[place]++
	at := draft.Pt(x, r.y+off)
	if from, to := r.x(v.Value-v.PM), r.x(v.Value+v.PM); outlier && to-from > 2*normDot {
		r.Stroke(style.For("ticks", ""), draft.Pt(from, at.Y), draft.Pt(to, at.Y))
	}
	r.Marks = append(r.Marks, &render.Circle{Tagged: render.Tagged{Guide: "ticks"}, Centre: at, R: normDot, Pen: r.Pen(style), Fill: &ink})
	r.dots = append(r.dots, geom.BoxOf(at).Grow(normDot))
	return at
}

// name writes an outlier's name beside its dot, on the side away from the others where there is room, else farther off on a leader or
// shorter. It leaves the name out where there is none: the table of outliers on the command line has it.
func (r *normRow) name(name string, at draft.Point, low bool) {
	word := draft.Note(name)
	word.Role = draft.Accent
	for _, room := range []geom.MM{60, 24, 12} {
		l := draft.OneLine(draft.Truncated(word, room))
		for _, end := range r.namePlaces(low) {
			anchor := render.Start
			if end.X < 0 {
				anchor = render.End
			}
			p := l.MiddleAt(at.X+end.X, r.y+end.Y, anchor)
			if !r.isFree(p.Box()) {
				continue
			}
			if end.Y != 0 || max(end.X, -end.X) > besideDot {
				style := draft.LeaderLine()
				style.Role = draft.Accent
				r.Stroke(style.For("labels", ""), at, draft.Pt(at.X+geom.MM(end.X*.9), r.y+end.Y))
			}
			r.Write("labels", p)
			return
		}
	}
}

// besideDot is how far from a dot's middle a name begins that needs no leader.
const besideDot geom.MM = 1.6

// namePlaces lists where an outlier's name may begin, from its dot, the best first.
func (r *normRow) namePlaces(low bool) (out []draft.Point) {
	over := min(3.2, r.pitch/2-besideDot)
	for _, far := range []geom.MM{besideDot, 5, 9, 14, 20, 30} {
		for _, up := range []geom.MM{-over, over, 0} {
			away, back := draft.Pt(far, up), draft.Pt(-far, up)
			if low {
				away, back = back, away
			}
			out = append(out, away, back)
		}
	}
	return out
}

// isFree reports whether words may stand in b: on the track, off lines, words and dots.
func (r *normRow) isFree(b draft.Box) bool {
	return b.Min.X > r.from-1 && b.Max.X < r.to+1 && r.Free(b, .1) &&
		!slices.ContainsFunc(r.dots, func(dot draft.Box) bool { return dot.Overlaps(b) })
}

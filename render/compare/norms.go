package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// normRow is one figure of norms on the page.
type normRow struct {
	*draft.Surface
	reading.Norm
	from, to geom.MM        // of its track
	axis     segments.Range // the values there
	y, pitch geom.MM
	dots     map[int]int // how many dots stand at a place, in dots
}

// The columns of a norms sheet, in mm from the right.
const (
	normLabel    geom.MM = 34
	normColumns  geom.MM = 74
	normPitch    geom.MM = 9
	normLeast    geom.MM = 4.4
	normWhisker  geom.MM = .9
	normDot      geom.MM = .75
	normHeadRoom geom.MM = 16
)

// NormsPage draws norms: each figure's range with every reading's dot on a scale of its own, the ± of each as a hair line, and the names
// of outliers. It fails where the rows find no room.
func NormsPage(n *reading.Norms, s request.Setting) (render.Page, error) {
	c := draft.NewCanvas(s)
	b := c.FixedSurface(request.Dark)
	again := []segments.Figure{segments.Wheelbase, segments.FrontOverhangAxle, segments.RearOverhangAxle} // of what other rows say
	rows := slices.DeleteFunc(slices.Clone(n.Figures), func(f reading.Norm) bool {
		return f.Figure.Info().Role == segments.Given || slices.Contains(again, f.Figure)
	})
	top := b.Space.Min.Y + normHeadRoom
	bottom := c.OverTitleBlock().Max.Y
	pitch := min(normPitch, (bottom-top)/geom.MM(max(1, len(rows))))
	if pitch < normLeast {
		return render.Page{}, fmt.Errorf("the norms do not fit on %s: %d figures; use larger paper", c.Paper.Name, len(rows))
	}
	normHeads(b, top)
	for i, f := range rows {
		row := normRow{Surface: b, Norm: f, from: b.Space.Min.X + normLabel, to: b.Space.Max.X - normColumns,
			y: top + pitch*(geom.MM(i)+.5), pitch: pitch, dots: map[int]int{}}
		row.axis = row.span()
		b.Stroke(draft.NewLineStyle(draft.Hair, draft.Soft).For("ticks", ""), draft.Pt(b.Space.Min.X, row.y+pitch/2),
			draft.Pt(b.Space.Max.X, row.y+pitch/2))
		row.draw(n)
	}
	names := slice.Map(n.Readings, func(r reading.Reading) string { return r.Name })
	title := draft.Caption{Heading: n.Profile.Title, Sub: fmt.Sprintf("norms of %d readings: ", len(names)) + strings.Join(names, ", ")}
	c.TitleBlock(b, title, [][]draft.Fact{{{Name: draft.Unit, Value: "wheel"}, {Name: "extends", Value: n.Base.Name}}}, "")
	return c.Finish(n.Profile.Title+", norms", &draft.Surface{}, b, request.Left), nil
}

// normHeads writes the key and the headings of the columns.
func normHeads(b *draft.Surface, top geom.MM) {
	x, y := b.Space.Min.X, b.Space.Min.Y+2
	b.Line(draft.RuleLine().For("ticks", ""), draft.Pt(x, y), draft.Pt(x+8, y))
	for _, at := range []geom.MM{0, 4, 8} {
		b.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(x+at, y), draft.Pt(0, .6))
	}
	b.Write("labels", draft.OneLine(draft.Note("range of the norms, the median ticked; a dot for each reading, its ± as a hair line; "+
		"named: far from all others, and counted all the same")).MiddleAt(x+11, y, render.Start))
	for i, head := range []string{"n", "p10", "median", "p90", "range"} {
		b.Write("labels", draft.OneLine(draft.Note(head)).TopAt(normColumn(b, i), top-4.4, render.End))
	}
	b.Stroke(draft.RuleLine().For("ticks", ""), draft.Pt(b.Space.Min.X, top), draft.Pt(b.Space.Max.X, top))
}

// normColumn is where column i of the numbers ends.
func normColumn(b *draft.Surface, i int) geom.MM {
	return b.Space.Max.X - []geom.MM{62, 50, 36, 24, 0}[i]
}

// span returns the values at the ends of the row's scale: those of the range and of every dot.
func (r normRow) span() segments.Range {
	out := r.Range
	for _, v := range r.Values {
		if v.State == reading.Read {
			out.Lo, out.Hi = min(out.Lo, v.Value), max(out.Hi, v.Value)
		}
	}
	if room := (out.Hi - out.Lo) * .04; room > 0 {
		return segments.Range{Lo: out.Lo - room, Hi: out.Hi + room}
	}
	return segments.Range{Lo: out.Lo - 1, Hi: out.Hi + 1}
}

// x returns where a value lies; what lies off the scale, at its end.
func (r normRow) x(v float64) geom.MM {
	share := (v - r.axis.Lo) / (r.axis.Hi - r.axis.Lo)
	return r.from + geom.MM(min(max(share, 0), 1))*(r.to-r.from)
}

// draw draws the row.
func (r normRow) draw(n *reading.Norms) {
	at := func(w draft.Word, x geom.MM, a render.Anchor) {
		r.Write("labels", draft.OneLine(w).MiddleAt(x, r.y, a))
	}
	number := func(v float64) string {
		if r.Figure.Info().Unit == segments.InDegrees {
			return draft.FormatFixed(v, 1) + "°"
		}
		return draft.FormatFixed(v, 2)
	}
	at(draft.Name(figureName(r.Figure)), r.Space.Min.X, render.Start)
	for i, text := range []string{fmt.Sprint(r.N), number(r.P10), number(r.Median), number(r.P90), number(r.Range.Lo) + " to " + number(r.Range.Hi)} {
		word := draft.Note(text)
		if i == 2 || i == 4 {
			word = draft.Value(text)
		}
		at(word, normColumn(r.Surface, i), render.End)
	}
	r.Line(draft.RuleLine().For("ticks", "range-"+r.Figure.String()), draft.Pt(r.x(r.Range.Lo), r.y), draft.Pt(r.x(r.Range.Hi), r.y))
	for _, v := range []float64{r.Range.Lo, r.Median, r.Range.Hi} {
		r.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(r.x(v), r.y), draft.Pt(0, 1))
	}
	for i, v := range r.Values {
		if v.State == reading.Read {
			r.dot(n.Readings[i].Name, v, slices.ContainsFunc(n.Outliers, func(o reading.Outlier) bool {
				return o.Figure == r.Figure && o.Name == n.Readings[i].Name
			}))
		}
	}
}

// dot draws one reading's value; of an outlier in another ink, with its name.
func (r normRow) dot(name string, v reading.Value, outlier bool) {
	style := draft.NewLineStyle(draft.Hair, draft.Plain)
	ink := r.Inks.Colours[draft.Strong]
	if outlier {
		style.Role, ink = draft.Accent, r.Inks.Colours[draft.Accent]
	}
	x := r.x(v.Value)
	place := int(math.Round(float64(x / (2 * normDot))))
	up := min(2*normDot*geom.MM(r.dots[place]), r.pitch/2-2*normDot) // dots at one place stand over each other
	r.dots[place]++
	r.Stroke(style.For("ticks", ""), draft.Pt(r.x(v.Value-v.PM), r.y+normWhisker), draft.Pt(r.x(v.Value+v.PM), r.y+normWhisker))
	r.Marks = append(r.Marks, &render.Circle{Tagged: render.Tagged{Guide: "ticks"}, Centre: draft.Pt(x, r.y-up), R: normDot, Pen: r.Pen(style), Fill: &ink})
	if !outlier {
		return
	}
	word := draft.Note(name)
	word.Role = draft.Accent
	l := draft.OneLine(draft.Truncated(word, 40))
	side, anchor := geom.MM(1.6), render.Start
	if math.Signbit(v.Value - r.Median) {
		side, anchor = -side, render.End
	}
	for _, off := range []geom.MM{0, -2.2, 2.2} {
		if p := l.MiddleAt(x+side, r.y+off, anchor); p.Box().Min.X > r.from-20 && r.Free(p.Box(), .2) {
			r.Write("labels", p)
			return
		}
	}
}

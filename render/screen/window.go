package screen

import (
	"context"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/render/side"
	"hubrule/segments"
)

// edge is what is left free round a page on a screen, in mm of the composed page.
const edge geom.MM = 3

// window is the part of a composed page that a screen shows, in mm.
type window struct {
	width, height geom.MM
	axle          draft.Point // where the front axle stands over the ground, from the window's corner
	wheel         geom.MM
}

// windowOf returns the window of a side view. It depends on the segment and the screen alone, so that nothing jumps while a figure is
// moved: there is room for the longest and the tallest of the segment's range.
func (s Screen) windowOf(r request.Request, p layout.Plan) window {
	typical := layout.Typical(p.Profile)
	w := window{width: s.mm(s.Width), height: s.mm(s.Height)}
	space := func() draft.Box {
		return draft.Box{Min: draft.Pt(edge, edge), Max: draft.Pt(w.width-edge, w.height-edge)}
	}
	room := side.Sheets{Request: r, Plan: typical}.Room(draft.Canvas{Space: space(), Enlargement: 1})
	room.TitleBlock = 0
	for _, f := range typical.FigureStatuses() {
		switch f.Figure {
		case segments.Length:
			longer := geom.Wheels(f.Range.Hi-f.Typical) / 2
			room.From, room.To, room.WordsFrom = room.From-longer, room.To+longer, room.WordsFrom-longer
		case segments.Height:
			room.Top += geom.Wheels(f.Range.Hi - f.Typical)
		}
	}
	if w.wheel = s.mm(s.Wheel); w.wheel == 0 {
		w.wheel = max(room.LargestWheel(space()), leastWheel)
	}
	place := func(more geom.MM) (counting.Place, error) {
		return room.Place(draft.Box{Max: draft.Pt(w.width-2*edge+more, largest+geom.MM(2*room.Top)*w.wheel)}, w.wheel, 0)
	}
	at, err := place(rounded)
	for err != nil { // the page is wider than the screen
		w.width *= widening
		at, err = place(rounded)
	}
	w.axle = draft.Pt(edge+at.Origin.X, edge+room.Above+geom.MM(room.Top)*w.wheel)
	w.height = w.axle.Y + room.Below + 3 + edge
	return w
}

const (
	leastWheel geom.MM = 10   // that is composed at all
	largest    geom.MM = 5000 // more than the lanes of any page are high
	rounded    geom.MM = .5   // less than an edge: a wheel that is asked for again comes back in rounded pixels
	widening           = 1.1
)

// compose draws a page for the screen, in pixels. It is composed on paper whose margins and title block lie beyond the window.
func (s Screen) compose(ctx context.Context, one sheet.Single) (render.Page, request.Messages, error) {
	r := one.Request
	r.Setting.Frame, r.Setting.Scale = false, request.Scale{}
	if s.isNarrow() && r.Setting.Labels != request.NoLabels && one.Kind == request.Full {
		r.Setting.Labels = request.ValueLabels
	}
	if !one.Views.Has(request.SideView) || one.Kind != request.Full && one.Kind != request.Trace {
		w := window{width: s.mm(s.Width), height: s.mm(s.Height)}
		r.Setting.Paper = onPaper(w.width, w.height)
		doc, messages, err := sheet.ComposeUntil(ctx, r)
		for ; err != nil && ctx.Err() == nil && w.height < 3*w.width; doc, messages, err = sheet.ComposeUntil(ctx, r) { // the page is higher than the screen, or wider too
			w.height *= widening
			w.width = max(w.width, w.height)
			r.Setting.Paper = onPaper(w.width, w.height)
		}
		if err != nil {
			return render.Page{}, messages, err
		}
		return s.pixels(doc.Pages[one.Index], w, draft.Pt(request.FilingMargin-edge, request.OtherMargin-edge)), messages, nil
	}
	w := s.windowOf(r, one.Plans[0])
	if r.Setting.Facing == request.Right {
		w.axle.X = w.width - w.axle.X
	}
	r.Setting.Scale.Wheel = w.wheel
	// Where a vehicle is longer or taller than its segment's range, its page is too.
	for wide, high := w.width+2*rounded, w.height+2*rounded; ; wide, high = wide*widening, high*widening {
		r.Setting.Paper = onPaper(wide, high)
		doc, messages, err := sheet.ComposeUntil(ctx, r)
		if err != nil && ctx.Err() == nil && wide < 3*w.width {
			continue
		}
		if err != nil {
			return render.Page{}, messages, err
		}
		page := doc.Pages[one.Index]
		axle, _ := wheelOn(page.Flatten().Marks, "")
		corner := draft.Pt(axle.Centre.X, axle.Centre.Y+axle.R).Sub(w.axle)
		return s.pixels(page, w, corner), messages, nil
	}
}

// onPaper returns paper with room for so much inside its margins, beside the title block.
func onPaper(width, height geom.MM) request.Paper {
	return request.Paper{Name: "the screen", Width: width - 2*edge + request.FilingMargin + request.OtherMargin,
		Height: height - 2*edge + 2*request.OtherMargin + draft.TitleBlockHeight + 2}
}

// pixels cuts a window out of a page, given its corner there, and carries it to pixels. What stands on the drawing beyond the window makes
// it larger; title block, frame and centring marks stay behind.
func (s Screen) pixels(page render.Page, w window, corner draft.Point) render.Page {
	page = page.Flatten()
	box := draft.Box{Min: corner, Max: corner.Add(draft.Pt(w.width, w.height))}
	block := page.Height - request.OtherMargin - draft.TitleBlockHeight - 1
	var kept []render.Mark
	for _, m := range page.Marks {
		at, bounded := boxOf(m)
		if guide := m.Tag().Guide; guide == "frame" || guide == "strip" && at.Max.Y > block {
			continue
		}
		if kept = append(kept, m); !bounded {
			continue
		}
		box = geom.BoxOf(box.Min, box.Max, at.Min.Sub(draft.Pt(edge, edge)), at.Max.Add(draft.Pt(edge, edge)))
	}
	k := s.perMM()
	for i, m := range kept {
		kept[i] = draft.Moved(m, k, box.Min.Times(-k))
	}
	page.Width, page.Height = box.Width()*geom.MM(k), box.Height()*geom.MM(k)
	page.Marks, page.Guides = kept, draft.GuidesOf(kept)
	return page
}

// boxOf returns a box that holds m but for what a few chords of an arc leave out, less than an edge. An area has none: a line goes round it.
func boxOf(m render.Mark) (box draft.Box, ok bool) {
	switch m := m.(type) {
	case *render.Fill:
		return box, false
	case *render.Stroke:
		for _, run := range m.Path.Flatten(chords) {
			for _, p := range run {
				if !ok {
					box, ok = draft.Box{Min: p, Max: p}, true
				}
				box = geom.BoxOf(box.Min, box.Max, p)
			}
		}
		return box, ok
	}
	return draft.ExtentOf(m).Box(), true
}

const chords = 4

// wheelOn finds the front wheel's circle among marks, of the vehicle whose ids begin with a prefix.
func wheelOn(marks []render.Mark, prefix string) (*render.Circle, bool) {
	for _, m := range marks {
		if c, ok := m.(*render.Circle); ok && c.ID == prefix+"wheel-front" {
			return c, true
		}
	}
	return nil, false
}

package class

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// heading is the line over a sheet of a class: what class, whose it is, and which page.
type heading struct {
	class, name string // name is "" where there is room to write one
	page        string
	signature   bool // the sheet has lines for name and date of its own
	date        string
}

// The heading's baseline below the paper's edge, its lettering, and the line for a name.
const (
	headingBase  geom.MM = 7.9
	framedBase   geom.MM = 14.2 // inside the frame's line
	headingApart geom.MM = 4    // from the centring mark
)

// heading returns the line over a student's sheet.
func (s Set) heading(student, page int, kind request.Kind, number int) heading {
	h := heading{class: s.name(), date: s.Date, signature: kind == request.Practice,
		page: fmt.Sprintf("page %d of %d", number, s.SheetsEach())}
	h.name = s.Students[student].Name
	if h.name == "" { // how many there are would change every sheet when one comes or goes
		h.page = fmt.Sprintf("%s, %s", s.NameOf(student), h.page)
	}
	return h
}

// name is the class's title with its date.
func (c Class) name() string {
	return strings.TrimPrefix(strings.TrimSuffix(c.Title+", "+c.Date, ", "), ", ")
}

// withHeading puts a student's marks over a sheet; a shared sheet stays as it is.
func (s Set) withHeading(base *render.Page, shared bool, h heading) render.Page {
	page := render.Page{Width: base.Width, Height: base.Height, Title: base.Title, Wheel: base.Wheel, Base: base}
	if !shared {
		page = *base
	}
	c := draft.NewCanvas(request.Setting{Paper: request.Paper{Width: base.Width, Height: base.Height}, Frame: hasFrame(base)})
	b := &draft.Surface{Space: c.Space, Inks: draft.InksOf(request.Dark)}
	h.write(c, b)
	page.Marks = slices.Clip(page.Marks)
	for _, m := range b.Marks {
		page.Marks = append(page.Marks, draft.Scaled(m, c.Enlargement))
	}
	page.Guides = draft.GuidesOf(page.Marks)
	return page
}

// hasFrame reports whether a page has a frame's line.
func hasFrame(p *render.Page) bool {
	return slices.ContainsFunc(p.Marks, func(m render.Mark) bool { return m.Tag().ID == "frame-line" })
}

// write writes h into the margin over the drawing space, clear of the centring mark in the middle.
func (h heading) write(c draft.Canvas, b *draft.Surface) {
	left, right := c.FromPaper(draft.FilingMargin), c.FromPaper(c.Paper.Width-draft.OtherMargin)
	base, middle := c.FromPaper(headingBase), c.FromPaper(c.Paper.Width/2)
	if c.Framed {
		left, right, base = c.Space.Min.X, c.Space.Max.X, c.FromPaper(framedBase)
	}
	room := middle - c.FromPaper(headingApart) - left
	put := func(w draft.Word, x, room geom.MM, anchor render.Anchor) geom.MM {
		w.Height = c.FromPaper(draft.Small)
		l := draft.OneLine(draft.Truncated(w, room))
		b.Write("strip", l.BaselineAt(x, base, anchor))
		return l.Width
	}
	put(draft.Note(h.page), right, room, render.End)
	x, gap := left, c.FromPaper(3)
	switch {
	case h.signature:
		h.sign(b)
	case h.name == "":
		x += put(draft.Note("name"), x, room, render.Start) + c.FromPaper(1.5)
		y, end := base+c.FromPaper(.8), x+c.FromPaper(draft.NameLine)
		b.Line(draft.LeaderLine().For("strip", ""), draft.Pt(x, y), draft.Pt(end, y))
		x = end + gap
	default:
		x += put(draft.Value(h.name), x, room*.6, render.Start) + gap
	}
	if rest := left + room - x; h.class != "" && rest > c.FromPaper(10) {
		put(draft.Note(h.class), x, rest, render.Start)
	}
}

// sign writes name and date on the lines that a practice sheet has for them.
func (h heading) sign(b *draft.Surface) {
	for _, f := range draft.SignatureFields(b.Space) {
		text := h.date
		if f.What == "name" {
			text = h.name
		}
		if text != "" {
			l := draft.OneLine(draft.Truncated(draft.Value(text), f.To.X-f.From.X-1))
			b.Write("strip", l.BaselineAt(f.From.X+.5, f.From.Y-1.3, render.Start))
		}
	}
}

// Blank is an empty page like p, to fill the back of a sheet.
func Blank(p render.Page) render.Page {
	return render.Page{Width: p.Width, Height: p.Height, Title: "back"}
}

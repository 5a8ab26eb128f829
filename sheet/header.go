package sheet

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// heading is the line over a sheet of a class: what class, whose it is, and which page.
type heading struct {
	class, name string // name is "" where there is room to write one
	page        string
	line        bool // draw a line for the name
	signature   bool // the sheet has lines for name and date of its own
	date        string
}

// The heading's baseline below the paper's edge, its lettering, and the line for a name.
const (
	headingBase  geom.MM = 7.9
	framedBase   geom.MM = 14.2 // inside the frame's line
	nameLine     geom.MM = 56
	dateLine     geom.MM = 26
	headingApart geom.MM = 4 // from the centring mark
)

// heading says what stands over a student's sheet.
func (s ClassSet) heading(student, page int, kind request.Kind, number int) heading {
	h := heading{class: s.name(), date: s.Date, signature: kind == request.Practice, page: fmt.Sprintf("page %d of %d", number, s.Each())}
	h.name = s.Students[student].Name
	h.line = h.name == "" && !h.signature
	if h.name == "" {
		h.page = fmt.Sprintf("student %d of %d, %s", student+1, len(s.Students), h.page)
	}
	return h
}

// name is the class's title with its date.
func (c Class) name() string {
	return strings.TrimPrefix(strings.TrimSuffix(c.Title+", "+c.Date, ", "), ", ")
}

// signed puts a student's marks over a sheet; others may share it, or nobody does.
func (s ClassSet) signed(base *render.Page, shared bool, h heading) render.Page {
	page := render.Page{Width: base.Width, Height: base.Height, Title: base.Title, Base: base}
	if !shared {
		page = *base
	}
	c := newCanvas(request.Setting{Paper: request.Paper{Width: base.Width, Height: base.Height}, Frame: hasFrame(base)})
	b := &board{space: c.space, inks: inks(request.Dark)}
	c.heading(b, h)
	page.Marks = slices.Clip(page.Marks)
	for _, m := range b.marks {
		page.Marks = append(page.Marks, grown(m, c.grow))
	}
	page.Guides = layers(page.Marks)
	return page
}

// hasFrame reports whether a page has a frame's line.
func hasFrame(p *render.Page) bool {
	for _, m := range p.Marks {
		if m.Tag().ID == "frame-line" {
			return true
		}
	}
	return false
}

// heading writes h into the margin over the drawing space, clear of the centring mark in the middle.
func (c canvas) heading(b *board, h heading) {
	left, right := c.real(filingMargin), c.real(c.paper.Width-otherMargin)
	base, middle := c.real(headingBase), c.real(c.paper.Width/2)
	if c.frame {
		left, right, base = c.space.Min.X, c.space.Max.X, c.real(framedBase)
	}
	room := middle - c.real(headingApart) - left
	put := func(w word, x geom.MM, anchor render.Anchor) geom.MM {
		w.height = c.real(small)
		l := newLabel([]word{w})
		b.write("strip", l, x, base-l.baselines[0], anchor)
		return l.width
	}
	fit := func(w word, room geom.MM) word {
		w.height = c.real(small)
		return shortened(w, room)
	}
	put(fit(note(h.page), room), right, render.End)
	x, gap := left, c.real(3)
	switch {
	case h.signature:
		c.signature(b, h)
	case h.line:
		x += put(note("name"), x, render.Start) + c.real(1.5)
		b.line("strip", "", leaderLine(), point{X: x, Y: base + c.real(.8)}, point{X: x + c.real(nameLine), Y: base + c.real(.8)})
		x += c.real(nameLine) + gap
	default:
		x += put(fit(value(h.name), room*.6), x, render.Start) + gap
	}
	if rest := left + room - x; h.class != "" && rest > c.real(10) {
		put(fit(note(h.class), rest), x, render.Start)
	}
}

// signature writes name and date on the lines that a practice sheet has for them.
func (c canvas) signature(b *board, h heading) {
	for _, f := range signatureFields(signatureEnd(b.space)) {
		text := h.date
		if f.what == "name" {
			text = h.name
		}
		if text != "" {
			l := newLabel([]word{shortened(value(text), f.to.X-f.from.X-1)})
			b.write("strip", l, f.from.X+.5, f.from.Y-1.3-l.baselines[0], render.Start)
		}
	}
}

// Blank is an empty page like p, to fill the back of a sheet.
func Blank(p render.Page) render.Page {
	return render.Page{Width: p.Width, Height: p.Height, Title: "back"}
}

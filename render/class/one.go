package class

import (
	"hubrule/render"
	"hubrule/render/request"
)

// Listed is one sheet of a page of a class, as every student gets it.
type Listed struct {
	Kind  request.Kind
	Views request.ViewSet
}

// Listed lists the sheets of a page, one copy of each.
func (p Page) Listed() []Listed {
	var out []Listed
	for _, l := range p.sheets() {
		out = append(out, Listed{l.kind, p.Request.Setting.Sheets()[l.views]})
	}
	return out
}

// PageOf is the page, from 0, that a student's sheet belongs to, counted from 1; −1 where there is no such sheet.
func (c Class) PageOf(number int) int {
	for i := range c.Pages {
		if number > sheetsOf(c.Pages[:i]) && number <= sheetsOf(c.Pages[:i+1]) {
			return i
		}
	}
	return -1
}

// One is one sheet of one student.
type One struct {
	Listed
	Sheet  render.Page
	Answer *render.Page // nil: the sheet has no blanks
	Note   string       // for the instructor; may be empty
}

// Sheet draws one of a student's sheets, counted from 1, of the page that the class was settled for.
func (s Set) Sheet(student, number int) (One, error) {
	page := s.PageOf(number)
	h, err := s.Handout(student, page)
	if err != nil {
		return One{}, err
	}
	at := number - s.FirstPage(page)
	p := s.Pages[page]
	l := p.sheets()[at%len(p.sheets())]
	out := One{Listed: p.Listed()[at%len(p.sheets())], Sheet: h.Sheets[at], Note: h.Note}
	switch {
	case l.kind != request.Practice:
	case s.Vary > 0:
		out.Answer = &h.Answers[l.views]
	default:
		for n, a := range s.key {
			if a.page == page && a.view == l.views && a.facing == s.facing(page, student) {
				answer := s.sharedAnswer(n)
				out.Answer = &answer
			}
		}
	}
	return out, nil
}

package class

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// Handout is what one student gets of one page of a class, and the answers to it.
type Handout struct{ Sheets, Answers []render.Page }

// NoRoom is the error when the words of a handout find no room at the set's wheel.
type NoRoom struct {
	page, student int
	wheel         geom.MM
	fixed         bool // the wheel was asked for, or has nothing to do with it
	reason        error
}

// Error names the page and, where the wheel is to blame, the wheel and the student.
func (e *NoRoom) Error() string {
	if e.fixed {
		return fmt.Sprintf("pages[%d]: %v", e.page+1, e.reason)
	}
	return fmt.Sprintf("pages[%d] does not fit with a wheel of %s for student %d; want a smaller --scale or larger paper",
		e.page+1, draft.FormatMM(e.wheel), e.student+1)
}

// Asked reports whether the wheel was asked for, so that no smaller one helps.
func (e *NoRoom) Asked() bool { return e.fixed }

// sheetID is one sheet of a page of a class: a kind, of some views.
type sheetID struct {
	views int // index into Setting.Sheets
	kind  request.Kind
}

// composed holds the sheets of one page of a class.
type composed map[sheetID]*render.Page

// sheets lists the page's sheets, view by view.
func (p Page) sheets() []sheetID {
	var out []sheetID
	for v := range p.Request.Setting.Sheets() {
		for _, k := range p.Request.Kinds {
			out = append(out, sheetID{v, k})
		}
	}
	return out
}

// facings lists the ways that the vehicles of page i face for some student, the page's own first.
func (s Set) facings(i int) []request.Facing {
	out := []request.Facing{s.Pages[i].Request.Setting.Facing}
	for _, p := range s.Students {
		if p.Facing != "" && !slices.Contains(out, p.Facing) {
			out = append(out, p.Facing)
		}
	}
	return out
}

// facing is the way that page i's vehicle faces for a student.
func (s Set) facing(i, student int) request.Facing {
	return cmp.Or(s.Students[student].Facing, s.Pages[i].Request.Setting.Facing)
}

// split divides the kinds of page i into those drawn from a student's own vehicle and those that all students share: all where
// nothing varies, else what would give the answers of a practice sheet away.
func (s Set) split(i int) (own, common []request.Kind) {
	p := s.Pages[i]
	kinds := slices.Clone(p.Request.Kinds)
	if p.hasPractice() {
		kinds = append(kinds, request.Answer)
	}
	for _, k := range kinds {
		if s.varied[i] == nil || p.hasPractice() && revealsAnswers(k) {
			common = append(common, k)
		} else {
			own = append(own, k)
		}
	}
	return own, common
}

// request is page i's request with other kinds and another plan.
func (s Set) request(i int, p layout.Plan, kinds []request.Kind) request.Request {
	r := s.Pages[i].Request
	r.Plans, r.Kinds, r.Handout = []layout.Plan{p}, kinds, true
	return r
}

// compose draws page i's sheets of some kinds from a plan.
func (s Set) compose(i int, p layout.Plan, kinds []request.Kind, facing request.Facing) (composed, error) {
	if len(kinds) == 0 {
		return nil, nil
	}
	r := s.request(i, p, kinds)
	r.Setting.Facing = facing
	pages, err := sheet.Pages(r, s.wheelOf(i, p))
	if err != nil {
		return nil, &NoRoom{page: i, wheel: s.wheelOf(i, p), fixed: errors.Is(err, sheet.ErrWheel), reason: err}
	}
	out := composed{}
	for _, page := range pages {
		out[sheetID{page.View, page.Kind}] = page.Page
	}
	return out, nil
}

// composeShared draws what all students share of every page, once for each way to face.
func (s *Set) composeShared() error {
	s.shared = make([]map[request.Facing]composed, len(s.Pages))
	for i, p := range s.Pages {
		_, common := s.split(i)
		s.shared[i] = map[request.Facing]composed{}
		for _, facing := range s.facings(i) {
			var err error
			if s.shared[i][facing], err = s.compose(i, p.Request.Plans[0], common, facing); err != nil {
				return err
			}
		}
	}
	return nil
}

// Handout draws what one student gets of one page, both counted from 0. A *NoRoom means that the set must be drawn smaller. It may be
// called from several goroutines.
func (s Set) Handout(student, page int) (Handout, error) {
	facing := s.facing(page, student)
	shared := s.shared[page][facing]
	var mine composed
	if v := s.varied[page]; v != nil {
		own, _ := s.split(page)
		var err error
		if mine, err = s.compose(page, v.plan(student), own, facing); err != nil {
			var none *NoRoom
			if errors.As(err, &none) {
				none.student = student
			}
			return Handout{}, err
		}
	}
	var out Handout
	number := s.pagesBefore(page)
	for range s.Pages[page].Copies {
		for _, l := range s.Pages[page].sheets() {
			base, many := shared[l], true
			if base == nil {
				base, many = mine[l], s.Pages[page].Copies > 1
			}
			number++
			out.Sheets = append(out.Sheets, s.withHeading(base, many, s.heading(student, page, l.kind, number)))
		}
	}
	if s.Pages[page].hasPractice() && mine != nil {
		first := slices.Index(s.key, answer{student: student, page: page})
		for v := range s.Pages[page].Request.Setting.Sheets() {
			h := heading{class: s.name(), name: s.NameOf(student), page: s.keyNumber(first + v)}
			out.Answers = append(out.Answers, s.withHeading(mine[sheetID{v, request.Answer}], false, h))
		}
	}
	return out, nil
}

// SheetsEach is how many sheets every student gets.
func (s Set) SheetsEach() int { return s.pagesBefore(len(s.Pages)) }

// FirstPage is the number of a student's first sheet of page i, counted from 1.
func (s Set) FirstPage(i int) int { return s.pagesBefore(i) + 1 }

// pagesBefore is how many sheets a student gets of the pages before page i.
func (s Set) pagesBefore(i int) int {
	n := 0
	for _, p := range s.Pages[:i] {
		n += p.Copies * len(p.sheets())
	}
	return n
}

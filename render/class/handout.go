package class

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// Handout is what one student gets of one page of a class, and the answers to it.
type Handout struct {
	Sheets, Answers []render.Page
	Note            string // for the instructor; may be empty
}

// noRoom is the error when the words of a handout find no room at a wheel.
type noRoom struct {
	page   int
	wheel  geom.MM
	fixed  bool // the wheel was asked for, or has nothing to do with it
	reason error
}

// Error names the page and, where the wheel is to blame, the wheel.
func (e *noRoom) Error() string {
	if e.fixed {
		return fmt.Sprintf("pages[%d]: %v", e.page+1, e.reason)
	}
	return fmt.Sprintf("pages[%d] does not fit with a wheel of %s; want a smaller scale: or larger paper", e.page+1, draft.FormatMM(e.wheel))
}

func (e *noRoom) Unwrap() error { return e.reason }

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
	if p.HasPractice() {
		kinds = append(kinds, request.Answer)
	}
	for _, k := range kinds {
		if s.varied[i] == nil || p.HasPractice() && revealsAnswers(k) {
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

// drawing is what compose draws: some kinds of sheet of a page, from a plan.
type drawing struct {
	page   int
	plan   layout.Plan
	kinds  []request.Kind
	facing request.Facing
}

// compose draws sheets with a wheel on paper. The error is a *noRoom.
func (s Set) compose(d drawing, wheel geom.MM) (composed, error) {
	if len(d.kinds) == 0 {
		return nil, nil
	}
	r := s.request(d.page, d.plan, d.kinds)
	r.Setting.Facing = d.facing
	pages, err := sheet.Pages(r, wheel)
	if err != nil {
		return nil, &noRoom{page: d.page, wheel: wheel, fixed: errors.Is(err, sheet.ErrWheel), reason: err}
	}
	out := composed{}
	for _, page := range pages {
		out[sheetID{page.View, page.Kind}] = page.Page
	}
	return out, nil
}

// composeOwn draws what a student alone has of a page. Where that finds no room at the set's wheel, this student's sheets of the page are
// drawn smaller, and nobody else's.
func (s Set) composeOwn(student, page int) (sheets composed, note string, err error) {
	own, _ := s.split(page)
	d := drawing{page: page, plan: s.varied[page].plan(student), kinds: own, facing: s.facing(page, student)}
	wheel := s.wheelOf(page, d.plan)
	for w := wheel; ; w -= 2 {
		sheets, err = s.compose(d, w)
		switch {
		case err == nil && w < wheel:
			note = fmt.Sprintf("pages[%d]: the words of %s need more room: a wheel of %s, where the others have %s",
				page+1, s.NameOf(student), draft.FormatMM(w), draft.FormatMM(wheel))
			return sheets, note, nil
		case err == nil:
			return sheets, "", nil
		case errors.As(err, new(sheet.ScaleError)):
			return nil, "", s.scaleError(err, d, ", for "+s.NameOf(student))
		case !isCuredBySmaller(err) || w-2 < counting.LeastWheel:
			return nil, "", fmt.Errorf("%w, for %s; set: gives a student another draw", err, s.NameOf(student))
		}
	}
}

// composeShared draws what all students share of every page, once for each way to face.
func (s *Set) composeShared() error {
	s.shared = make([]map[request.Facing]composed, len(s.Pages))
	type one struct {
		page   int
		facing request.Facing
		sheets composed
		err    error
	}
	var all []one
	for i := range s.Pages {
		for _, facing := range s.facings(i) {
			all = append(all, one{page: i, facing: facing})
		}
	}
	ended := s.spread(len(all), func(n int) { all[n].sheets, all[n].err = s.common(all[n].page, all[n].facing) })
	for _, a := range all {
		if ended != nil || a.err != nil {
			return errors.Join(ended, a.err)
		}
		if s.shared[a.page] == nil {
			s.shared[a.page] = map[request.Facing]composed{}
		}
		s.shared[a.page][a.facing] = a.sheets
	}
	return nil
}

// common draws what those students share of page i whose vehicles face one way.
func (s *Set) common(i int, facing request.Facing) (composed, error) {
	_, kinds := s.split(i)
	plan := s.Pages[i].Request.Plans[0]
	d := drawing{page: i, plan: plan, kinds: kinds, facing: facing}
	out, err := s.compose(d, s.wheelOf(i, plan))
	if err != nil {
		return nil, s.scaleError(err, d, "")
	}
	return out, nil
}

// Handout draws what one student gets of one page, both counted from 0. It may be called from several goroutines.
func (s Set) Handout(student, page int) (Handout, error) {
	var out Handout
	shared := s.shared[page][s.facing(page, student)]
	var mine composed
	if s.varied[page] != nil {
		var err error
		if mine, out.Note, err = s.composeOwn(student, page); err != nil {
			return Handout{}, err
		}
	}
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
	if s.Pages[page].HasPractice() && mine != nil {
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
func (s Set) pagesBefore(i int) int { return sheetsOf(s.Pages[:i]) }

func sheetsOf(pages []Page) int {
	n := 0
	for _, p := range pages {
		n += p.Copies * len(p.sheets())
	}
	return n
}

// Count returns how many sheets the students of a class get in all.
func (c Class) Count() int { return len(c.Students) * sheetsOf(c.Pages) }

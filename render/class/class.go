// Package class composes class sets: what every student is handed out, and the key to it.
package class

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/parallel"
	"hubrule/layout"
	"hubrule/render/request"
)

// Class is a set of handouts: what every student of a class gets.
type Class struct {
	Title, Date string // either may be empty
	Students    []Student
	Absent      []string // who gets no sheets; the key names them
	Pages       []Page
	Vary        float64 // how far each student's figures move towards the ends of their ranges, 0 to 1; 0: all alike
	Seed        uint64  // of the variation
	ByPage      bool    // every page for all students, instead of all pages for every student

	Wheel  geom.MM // of the pages whose scale fits, where it is known from an equal class; 0: it is looked for
	Spread Spread  // how work is done that takes long; nil: on all processors at once
}

// Spread calls do with 0 to n−1, on several goroutines if it likes. The error is that it was ended before.
type Spread func(n int, do func(i int)) error

func (c Class) spread(n int, do func(i int)) error {
	if c.Spread != nil {
		return c.Spread(n, do)
	}
	parallel.Do(n, do)
	return nil
}

// Remark is what the teacher should know of a class.
type Remark struct {
	Text          string
	Page, Student int    // that it is about, from 1; 0: of none
	Set           string // cures it as the set of that student; may be empty
}

// Student is one of a class. A student's figures are drawn from the class's seed with name and set, or the number where there is no name.
type Student struct {
	Name   string         // "": the sheets have a line to write it on
	Number int            // from 1; unnamed students are known by it
	Set    string         // picks another draw; may be empty
	Facing request.Facing // "": as on the page
}

// person is what a student's figures are drawn from.
func (s Student) person() string {
	if s.Name == "" {
		return fmt.Sprintf("number %d", s.Number)
	}
	return fmt.Sprintf("name %s\nset %s", s.Name, s.Set)
}

// NameOf is what a student is called in the key and in messages, counted from 0.
func (c Class) NameOf(student int) string {
	s := c.Students[student]
	return cmp.Or(s.Name, fmt.Sprintf("student %d", s.Number))
}

// Page is one vehicle on some kinds of sheet, which every student gets so many copies of. Its request holds one plan: the
// class's own, before variation.
type Page struct {
	Request request.Request
	Copies  int
}

// revealsAnswers reports whether a kind of sheet prints the figures that a practice sheet asks for.
func revealsAnswers(k request.Kind) bool {
	return k == request.Full || k == request.Steps || k == request.Overlay || k == request.Spread
}

// HasPractice reports whether a page has a sheet with blanks, and so an answer.
func (p Page) HasPractice() bool { return slices.Contains(p.Request.Kinds, request.Practice) }

// HasPractice reports whether some page of the class has a sheet with blanks.
func (c Class) HasPractice() bool { return slices.ContainsFunc(c.Pages, Page.HasPractice) }

// notes lists what the teacher should know about the sheets.
func (c Class) notes() []Remark {
	var out []Remark
	for i, p := range c.Pages {
		for _, k := range p.Request.Kinds {
			if c.Vary == 0 && p.HasPractice() && revealsAnswers(k) {
				out = append(out, Remark{Page: i + 1, Text: fmt.Sprintf("pages[%d]: the %s sheet shows the figures that the practice sheet "+
					"asks for; with vary: every student has figures of their own, and it shows the class's", i+1, k)})
			}
		}
	}
	return out
}

// Set is a class whose variations are drawn and whose wheel on paper is settled.
type Set struct {
	Class
	wheel  geom.MM                       // of the pages whose scale fits
	varied []*variation                  // of each page; nil: its plan as it is
	shared []map[request.Facing]composed // of each page: sheets that all students share
	key    []answer                      // the answer sheets of the key
}

// String returns the text.
func (r Remark) String() string { return r.Text }

// Settle draws the variations of a class and chooses the largest wheel on paper that seems to fit all its pages. It also returns
// what the user should know.
func (c Class) Settle(ctx context.Context) (Set, []Remark, error) {
	s := Set{Class: c, varied: c.variations()}
	remarks := c.notes()
	for i, v := range s.varied {
		if v == nil || slices.Contains(s.varied[:i], v) {
			continue
		}
		if err := c.drawAll(v); err != nil {
			return s, nil, err
		}
		near, err := c.alike(ctx, v)
		if err != nil {
			return s, nil, err
		}
		remarks = append(remarks, near...)
	}
	if err := s.settle(); err != nil {
		return s, nil, err
	}
	return s, remarks, s.composeShared()
}

// SettleFor is Settle for looking at one student's sheets of one page, counted from 0: nobody else's vehicle is drawn.
func (c Class) SettleFor(student, page int) (Set, error) {
	s := Set{Class: c, varied: c.variations()}
	if err := s.settle(); err != nil {
		return s, err
	}
	facing := s.facing(page, student)
	var sheets composed
	var err error
	if ended := s.spread(1, func(int) { sheets, err = s.common(page, facing) }); ended != nil {
		return s, ended
	}
	s.shared = make([]map[request.Facing]composed, len(s.Pages))
	s.shared[page] = map[request.Facing]composed{facing: sheets}
	return s, err
}

// settle lists the answers and finds the wheel.
func (s *Set) settle() error {
	s.key = s.answers()
	if s.wheel = s.Wheel; s.wheel > 0 {
		return nil
	}
	return s.settleWheel()
}

// SettledWheel is the wheel of the pages whose scale fits, 0 where there are none.
func (s Set) SettledWheel() geom.MM { return s.wheel }

// variations returns how each page's vehicle is varied, nil where it is not; pages with one vehicle share one.
func (c Class) variations() []*variation {
	out := make([]*variation, len(c.Pages))
	byVehicle := map[string]*variation{}
	for i, p := range c.Pages {
		if c.Vary == 0 {
			break
		}
		plan := p.Request.Plans[0]
		key := vehicleKey(plan)
		if byVehicle[key] == nil {
			byVehicle[key] = &variation{base: plan, key: key, most: c.Vary, seed: c.Seed, students: c.Students}
		}
		out[i] = byVehicle[key]
	}
	return out
}

// vehicleKey names a vehicle in the draws: pages with the same vehicle show each student the same figures.
func vehicleKey(p layout.Plan) string { return p.Profile.Name + "; " + p.Brief.Summary() }

// Package class composes class sets: what every student is handed out, and the key to it.
package class

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"hubrule/internal/geom"
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

// hasPractice reports whether a page has a sheet with blanks, and so an answer.
func (p Page) hasPractice() bool { return slices.Contains(p.Request.Kinds, request.Practice) }

// HasPractice reports whether some page of the class has a sheet with blanks.
func (c Class) HasPractice() bool { return slices.ContainsFunc(c.Pages, Page.hasPractice) }

// Notes lists what the teacher should know about the sheets.
func (c Class) Notes() []string {
	var out []string
	for i, p := range c.Pages {
		for _, k := range p.Request.Kinds {
			if c.Vary == 0 && p.hasPractice() && revealsAnswers(k) {
				out = append(out, fmt.Sprintf("pages[%d]: the %s sheet shows the figures that the practice sheet asks for; "+
					"with vary: every student has figures of their own, and it shows the class's",
					i+1, k))
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

// Settle draws the variations of a class and chooses the largest wheel on paper that seems to fit all its pages. It also returns
// messages for the user.
func (c Class) Settle(ctx context.Context) (Set, []string, error) {
	s := Set{Class: c, varied: make([]*variation, len(c.Pages))}
	var messages []string
	byVehicle := map[string]*variation{}
	for i, p := range c.Pages {
		if c.Vary == 0 {
			continue
		}
		plan := p.Request.Plans[0]
		key := vehicleKey(plan)
		if byVehicle[key] == nil {
			v := c.drawAll(plan, key)
			near, err := c.alike(ctx, v)
			if err != nil {
				return s, nil, err
			}
			byVehicle[key] = v
			messages = append(messages, near...)
		}
		s.varied[i] = byVehicle[key]
	}
	s.key = s.answers()
	if err := s.settleWheel(); err != nil {
		return s, nil, err
	}
	return s, append(c.Notes(), messages...), s.composeShared()
}

// vehicleKey names a vehicle in the draws: pages with the same vehicle show each student the same figures.
func vehicleKey(p layout.Plan) string { return p.Profile.Name + "; " + p.Brief.Summary() }

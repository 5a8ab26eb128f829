// Package class composes class sets: what every student is handed out, and the key to it.
package class

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// Class is a set of handouts: what every student of a class gets.
type Class struct {
	Title, Date string // either may be empty
	Students    []Student
	Pages       []Page
	Vary        float64 // how far each student's figures move towards the ends of their ranges, 0 to 1; 0: all alike
	Seed        uint64  // of the variation
	ByPage      bool    // every page for all students, instead of all pages for every student
}

// Student is one of a class.
type Student struct {
	Name   string         // "": the sheets have a line to write it on
	Facing request.Facing // "": as on the page
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
		key := plan.Profile.Name + "; " + plan.Brief.Summary()
		if byVehicle[key] == nil {
			v, near, err := c.drawAll(ctx, plan, key)
			if err != nil {
				return s, nil, err
			}
			byVehicle[key] = v
			if near != "" {
				messages = append(messages, near)
			}
		}
		s.varied[i] = byVehicle[key]
	}
	s.key = s.answers()
	err := s.settleWheel()
	return s, append(c.Notes(), messages...), err
}

// settleWheel chooses the wheel of the pages that fit: what the class's own plans have room for, and some students' ones.
func (s *Set) settleWheel() error {
	const sampled = 8 // students; where another's words need more room the set is drawn again, smaller
	s.wheel = 0
	for i, p := range s.Pages {
		if !p.Request.Setting.Scale.Fits() {
			continue
		}
		plans := []layout.Plan{p.Request.Plans[0]}
		for n := 0; s.varied[i] != nil && n < min(len(s.Students), sampled); n++ {
			plans = append(plans, s.varied[i].plan(n))
		}
		own, common := s.split(i)
		for _, plan := range plans {
			r := s.request(i, plan, append(own, common...))
			if s.wheel = sheet.Largest(r, s.wheel); s.wheel == 0 {
				return fmt.Errorf("pages[%d]: %s does not fit on %s: not even with a wheel of %s; use larger paper%s",
					i+1, plan.Profile.Name, r.Setting.Paper.Name, draft.FormatMM(counting.LeastWheel), sheet.OrFewerWords(r))
			}
		}
	}
	return s.composeShared()
}

// Smaller returns the set at the next smaller wheel, for when a handout found no room.
func (s Set) Smaller() (Set, error) {
	for {
		if s.wheel -= 2; s.wheel < counting.LeastWheel {
			return s, fmt.Errorf("the class's sheets do not fit: not even with a wheel of %s; use larger paper", draft.FormatMM(counting.LeastWheel))
		}
		var none *NoRoom
		if err := s.composeShared(); !errors.As(err, &none) || none.fixed {
			return s, err
		}
	}
}

// wheelOf is the wheel on paper that page i is drawn at.
func (s Set) wheelOf(i int, p layout.Plan) geom.MM {
	if scale := s.Pages[i].Request.Setting.Scale; !scale.Fits() {
		return scale.WheelOf(p)
	}
	return s.wheel
}

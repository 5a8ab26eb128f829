package class

import (
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// settleWheel chooses the wheel of the pages whose scale fits: the largest at which the class's own vehicles, facing either way, and
// samples of its variation fit. It does not ask who is in the class, so that nobody who comes or goes changes the others' sheets.
func (s *Set) settleWheel() error {
	var all []drawing
	for i, p := range s.Pages {
		if !p.Request.Setting.Scale.Fits() {
			if err := s.tryOwn(i); err != nil {
				return err
			}
			continue
		}
		all = append(all, s.representatives(i)...)
	}
	s.wheel = 0
	wheels, err := s.largest(all)
	if err != nil {
		return err
	}
	for n, w := range wheels {
		if w == 0 {
			return s.noWheel(all[n])
		}
		if s.wheel == 0 || w < s.wheel {
			s.wheel = w
		}
	}
	for ; ; s.wheel -= 2 {
		n, err := s.firstWithoutRoom(all)
		if n < 0 || err != nil {
			return err
		}
		if s.wheel-2 < counting.LeastWheel {
			return s.noWheel(all[n])
		}
	}
}

// largest returns the largest wheel on paper at which each drawing may fit, whatever its page's scale; 0 where none does.
func (s *Set) largest(all []drawing) ([]geom.MM, error) {
	wheels := make([]geom.MM, len(all))
	err := s.spread(len(all), func(n int) {
		r := s.request(all[n].page, all[n].plan, all[n].kinds)
		r.Setting.Facing, r.Setting.Scale = all[n].facing, request.Scale{}
		wheels[n] = sheet.Largest(r, 0)
	})
	return wheels, err
}

// representatives are drawings that stand for those of every student there may be on page i.
func (s *Set) representatives(i int) []drawing {
	p := s.Pages[i].Request
	own, common := s.split(i)
	out := slice.Map([]request.Facing{request.Left, request.Right}, func(facing request.Facing) drawing {
		return drawing{page: i, plan: p.Plans[0], kinds: slices.Concat(own, common), facing: facing}
	})
	onlyPerspective := slices.Equal(p.Setting.Seen(), []request.View{request.PerspectiveView}) // which has no wheel to settle
	if v := s.varied[i]; v != nil && len(own) > 0 && !onlyPerspective {
		for n, plan := range v.samples() {
			facing := p.Setting.Facing
			if n%4 == 3 && facing == request.Right {
				facing = request.Left
			} else if n%4 == 3 {
				facing = request.Right
			}
			out = append(out, drawing{page: i, plan: plan, kinds: own, facing: facing})
		}
	}
	return out
}

// tryOwn draws the class's own vehicle on page i, whose wheel was asked for: what does not fit is then nobody's in particular.
func (s *Set) tryOwn(i int) error {
	p := s.Pages[i].Request
	own, _ := s.split(i)
	d := drawing{page: i, plan: p.Plans[0], kinds: own, facing: p.Setting.Facing}
	_, err := s.compose(d, s.wheelOf(i, p.Plans[0]))
	return s.scaleError(err, d, "")
}

// scaleError replaces the scale that such an error names for one vehicle by one at which the sheets of all students fit; whose says whose
// vehicle it is. Other errors stay.
func (s *Set) scaleError(err error, d drawing, whose string) error {
	var none *noRoom
	var scale sheet.ScaleError
	if !errors.As(err, &none) || !errors.As(err, &scale) {
		return err
	}
	all := []drawing{d}
	if v := s.varied[d.page]; v != nil {
		for student := range s.Students {
			one := d
			one.plan, one.facing = v.plan(student), s.facing(d.page, student)
			all = append(all, one)
		}
	}
	what := fmt.Sprintf("pages[%d]: %s%s", none.page+1, scale.What, whose)
	wheels, ended := s.largest(all)
	if ended != nil {
		return ended
	}
	fits := slices.Min(wheels)
	if fits == 0 {
		return fmt.Errorf("%s; use larger paper", what)
	}
	return fmt.Errorf("%s; scale: wheel=%gmm (1:%s) fits everyone", what, float64(fits),
		draft.FormatTrimmed(float64(d.plan.OnVehicle(1)/fits)+.05, 1))
}

// noWheel is the error when a drawing does not fit at any wheel.
func (s *Set) noWheel(d drawing) error {
	r := s.request(d.page, d.plan, d.kinds)
	return fmt.Errorf("pages[%d]: %s does not fit on %s: not even with a wheel of %s; %s%s",
		d.page+1, d.plan.Profile.Name, r.Setting.Paper.Name, draft.FormatMM(counting.LeastWheel), r.Setting.Paper.Cure(),
		sheet.OrFewerWords(r))
}

// firstWithoutRoom returns the first drawing that does not fit with the set's wheel but may with a smaller one, or −1. All other errors
// come back where a student's sheets are drawn.
func (s *Set) firstWithoutRoom(all []drawing) (int, error) {
	tooLarge := make([]bool, len(all))
	ended := s.spread(len(all), func(n int) {
		_, err := s.compose(all[n], s.wheel)
		tooLarge[n] = isCuredBySmaller(err)
	})
	return slices.Index(tooLarge, true), ended
}

// isCuredBySmaller reports whether a smaller wheel may cure an error.
func isCuredBySmaller(err error) bool {
	var none *noRoom
	return errors.As(err, &none) && !none.fixed
}

// wheelOf is the wheel on paper that page i is drawn at.
func (s Set) wheelOf(i int, p layout.Plan) geom.MM {
	if scale := s.Pages[i].Request.Setting.Scale; !scale.Fits() {
		return scale.WheelOf(p)
	}
	return s.wheel
}

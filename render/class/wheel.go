package class

import (
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

// settleWheel chooses the wheel of the pages whose scale fits: the largest at which the class's own vehicles, facing either way, and
// samples
// of its variation fit. It does not ask who is in the class, so that nobody who comes or goes changes the others' sheets.
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
	wheels := make([]geom.MM, len(all))
	inParallel(len(all), func(n int) {
		r := s.request(all[n].page, all[n].plan, all[n].kinds)
		r.Setting.Facing = all[n].facing
		wheels[n] = sheet.Largest(r, 0)
	})
	s.wheel = 0
	for n, w := range wheels {
		if w == 0 {
			return s.noWheel(all[n])
		}
		if s.wheel == 0 || w < s.wheel {
			s.wheel = w
		}
	}
	for ; ; s.wheel -= 2 {
		n := s.firstWithoutRoom(all)
		if n < 0 {
			return nil
		}
		if s.wheel-2 < counting.LeastWheel {
			return s.noWheel(all[n])
		}
	}
}

// representatives are drawings that stand for those of every student there may be on page i.
func (s *Set) representatives(i int) []drawing {
	p := s.Pages[i].Request
	own, common := s.split(i)
	var out []drawing
	for _, facing := range []request.Facing{request.Left, request.Right} {
		out = append(out, drawing{page: i, plan: p.Plans[0], kinds: slices.Concat(own, common), facing: facing})
	}
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
	_, err := s.compose(drawing{page: i, plan: p.Plans[0], kinds: own, facing: p.Setting.Facing}, s.wheelOf(i, p.Plans[0]))
	return err
}

// noWheel is the error when a drawing does not fit at any wheel.
func (s *Set) noWheel(d drawing) error {
	r := s.request(d.page, d.plan, d.kinds)
	return fmt.Errorf("pages[%d]: %s does not fit on %s: not even with a wheel of %s; use larger paper%s",
		d.page+1, d.plan.Profile.Name, r.Setting.Paper.Name, draft.FormatMM(counting.LeastWheel), sheet.OrFewerWords(r))
}

// firstWithoutRoom returns the first drawing that does not fit with the set's wheel but may with a smaller one, or −1. All other errors
// come
// back where a student's sheets are drawn.
func (s *Set) firstWithoutRoom(all []drawing) int {
	tooLarge := make([]bool, len(all))
	inParallel(len(all), func(n int) {
		_, err := s.compose(all[n], s.wheel)
		tooLarge[n] = isCuredBySmaller(err)
	})
	return slices.Index(tooLarge, true)
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

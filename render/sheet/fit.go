package sheet

import (
	"errors"
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// leastTraceWheel is the smallest wheel on paper that can be traced by hand with comfort.
const leastTraceWheel geom.MM = 35

// drawAll draws every part at the scale asked for and returns their pages and wheels on paper.
func (d driver) drawAll(parts []part) ([][]render.Page, []geom.MM, error) {
	if d.Setting.Scale.Fits() {
		return d.fit(parts, 0)
	}
	sets, wheels := make([][]render.Page, len(parts)), make([]geom.MM, len(parts))
	for i, p := range parts {
		wheels[i] = d.Setting.Scale.WheelOf(p.plans[0])
		var err error
		if sets[i], err = d.at(p, wheels[i]); err != nil {
			return nil, nil, err
		}
	}
	return sets, wheels, nil
}

// at draws one part with a wheel on paper; where the wheel was asked for, the error says which scale fits.
func (d driver) at(p part, wheel geom.MM) ([]render.Page, error) {
	c, fixed := draft.NewCanvas(d.Setting), p.sharesWheel() && !d.Setting.Scale.Fits()
	if fixed && wheel < counting.LeastWheel {
		return nil, fmt.Errorf("%s: a wheel of %s on paper is too small to draw; want at least %s", p.name, draft.FormatMM(wheel), draft.FormatMM(counting.LeastWheel))
	}
	pages, err := p.Draw(c, wheel, d.number(p))
	if err != nil && fixed {
		return nil, d.misfit(p, wheel)
	}
	return pages, err
}

// fit draws every part at the largest even wheel at which all that share it have room, at most limit if that is not 0; parts with a scale of
// their own follow.
func (d driver) fit(parts []part, limit geom.MM) ([][]render.Page, []geom.MM, error) {
	c, wheel := draft.NewCanvas(d.Setting), limit
	for _, p := range parts {
		if !p.sharesWheel() {
			continue
		}
		largest := p.largest(c)
		if largest < counting.LeastWheel {
			return nil, nil, d.noRoom(p, nil)
		}
		if wheel == 0 || largest < wheel {
			wheel = largest
		}
	}
	sets, wheels := make([][]render.Page, len(parts)), make([]geom.MM, len(parts))
	for i := d.unsettled(parts, wheels, wheel); i >= 0; {
		pages, err := parts[i].Draw(c, wheel, d.number(parts[i]))
		if err != nil { // a part that needs a smaller wheel sends the others round once more
			if wheel -= 2; wheel < counting.LeastWheel {
				return nil, nil, d.noRoom(parts[i], err)
			}
			continue
		}
		sets[i], wheels[i] = pages, wheel
		i = d.unsettled(parts, wheels, wheel)
	}
	for i, p := range parts {
		if !p.sharesWheel() {
			var err error
			if sets[i], err = p.Draw(c, wheel, d.number(p)); err != nil {
				return nil, nil, err
			}
		}
	}
	return sets, wheels, nil
}

// unsettled returns the first part that shares the wheel and is not drawn at it, or -1.
func (d driver) unsettled(parts []part, wheels []geom.MM, wheel geom.MM) int {
	for i, p := range parts {
		if p.sharesWheel() && wheels[i] != wheel {
			return i
		}
	}
	return -1
}

// usualPicture stands for the wheel of sheets that have none: perspectives only.
const usualPicture geom.MM = 40

// Largest returns the largest even wheel on paper, at most limit if that is not 0, at which all sheets of the request that share a wheel fit, but
// for overlays: 0 where none does.
func Largest(r request.Request, limit geom.MM) geom.MM {
	d := driver{r}
	var parts []part
	for _, p := range d.parts() {
		if _, overlay := p.Drawing.(compare.Overlay); p.sharesWheel() && !overlay {
			parts = append(parts, p)
		}
	}
	if len(parts) == 0 {
		if limit == 0 {
			return usualPicture
		}
		return limit
	}
	_, wheels, err := d.fit(parts, limit)
	if err != nil {
		return 0
	}
	return wheels[0]
}

// Page is one page of a request: what it shows, as an index into the views of the request's sheets, and its kind.
type Page struct {
	View int
	Kind request.Kind
	Page *render.Page
}

// Pages draws the sheets of a request with a wheel on paper. An error that a smaller wheel does not cure wraps ErrWheel.
func Pages(r request.Request, wheel geom.MM) ([]Page, error) {
	d := driver{r}
	var out []Page
	for _, p := range d.parts() {
		pages, err := d.at(p, wheel)
		if err != nil {
			if !r.Setting.Scale.Fits() || !p.sharesWheel() {
				err = wheelError{err}
			}
			return nil, err
		}
		for i := range pages {
			out = append(out, Page{p.view, p.kinds[i], &pages[i]})
		}
	}
	return out, nil
}

// ErrWheel is wrapped by errors that no smaller wheel cures: it was asked for, or has nothing to do with it.
var ErrWheel = errors.New("no smaller wheel helps")

// wheelError is an error that wraps ErrWheel without saying so.
type wheelError struct{ error }

func (e wheelError) Unwrap() []error { return []error{e.error, ErrWheel} }

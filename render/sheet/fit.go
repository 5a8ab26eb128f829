package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// drawAll draws every part at the scale asked for and returns their pages and wheels on paper.
func (d composer) drawAll(parts []part) ([][]render.Page, []geom.MM, error) {
	if d.Setting.Scale.Fits() {
		return d.fit(parts, 0)
	}
	sets, wheels := make([][]render.Page, len(parts)), make([]geom.MM, len(parts))
	for i, p := range parts {
		wheels[i] = d.Setting.Scale.WheelOf(p.plans[0])
		err := d.ended()
		if err == nil {
			sets[i], err = d.at(p, wheels[i])
		}
		if err != nil {
			return nil, nil, err
		}
	}
	return sets, wheels, nil
}

// at draws one part with a wheel on paper; where the wheel was asked for, the error says which scale fits.
func (d composer) at(p part, wheel geom.MM) ([]render.Page, error) {
	c, fixed := draft.NewCanvas(d.Setting), p.sharesWheel() && !d.Setting.Scale.Fits()
	if fixed && wheel < counting.LeastWheel {
		return nil, p.tooSmall(wheel)
	}
	pages, err := p.Draw(c, wheel, d.number(p))
	if err != nil && fixed && !d.OnScreen { // whoever composes for a screen tries a larger page
		return nil, d.noRoomAt(p, wheel)
	}
	return pages, err
}

// tooSmall is the error when the wheel asked for is too small to draw.
func (p part) tooSmall(wheel geom.MM) error {
	return fmt.Errorf("%s: a wheel of %s on paper is too small to draw; want at least %s",
		p.name, draft.FormatMM(wheel), draft.FormatMM(counting.LeastWheel))
}

// fit draws every part that shares a wheel at the largest even one at which all fit, at most limit unless that is 0, then the others.
func (d composer) fit(parts []part, limit geom.MM) ([][]render.Page, []geom.MM, error) {
	c, wheel := draft.NewCanvas(d.Setting), limit
	for _, p := range parts {
		if !p.sharesWheel() {
			continue
		}
		largest := c.FloorEven(p.Drawing.(sizer).Largest(c)) // of the even wheels that the part may have room for
		if largest < counting.LeastWheel {
			return nil, nil, d.noRoom(p, nil)
		}
		if wheel == 0 || largest < wheel {
			wheel = largest
		}
	}
	sets, wheels := make([][]render.Page, len(parts)), make([]geom.MM, len(parts))
	for i := 0; i < len(parts); i++ {
		if !parts[i].sharesWheel() || wheels[i] == wheel {
			continue
		}
		if err := d.ended(); err != nil {
			return nil, nil, err
		}
		pages, err := parts[i].Draw(c, wheel, d.number(parts[i]))
		if err != nil { // all parts are drawn again at a smaller wheel
			if wheel -= 2; wheel < counting.LeastWheel {
				return nil, nil, d.noRoom(parts[i], err)
			}
			i = -1
			continue
		}
		sets[i], wheels[i] = pages, wheel
	}
	for i, p := range parts {
		if !p.sharesWheel() {
			err := d.ended()
			if err == nil {
				sets[i], err = p.Draw(c, wheel, d.number(p))
			}
			if err != nil {
				return nil, nil, err
			}
		}
	}
	return sets, wheels, nil
}

// largest returns the largest wheel at which all parts fit, at most limit unless that is 0; 0 where none fits.
func (d composer) largest(parts []part, limit geom.MM) geom.MM {
	_, wheels, err := d.fit(parts, limit)
	if err != nil {
		return 0
	}
	return wheels[0]
}

// defaultWheel is the wheel of a request of perspectives only, which have none of their own.
const defaultWheel geom.MM = 40

// Largest returns the largest even wheel on paper, in mm, at which all sheets of the request that share a wheel fit, overlays apart. It is
// at most limit unless that is 0. It returns 0 where no wheel fits.
func Largest(r request.Request, limit geom.MM) geom.MM {
	d := composer{Request: r}
	parts := slices.DeleteFunc(d.parts(), func(p part) bool {
		_, overlay := p.Drawing.(compare.Overlay)
		return overlay || !p.sharesWheel()
	})
	if len(parts) == 0 {
		return cmp.Or(limit, defaultWheel)
	}
	return d.largest(parts, limit)
}

// Page is one page of a request, with its kind and its view: an index into the views of the request's sheets.
type Page struct {
	View int
	Kind request.Kind
	Page *render.Page
}

// Pages draws the sheets of a request; wheel is in mm on paper. The error wraps ErrWheel if a smaller wheel would not help.
func Pages(r request.Request, wheel geom.MM) ([]Page, error) {
	d := composer{Request: r}
	var out []Page
	for _, p := range d.parts() {
		pages, err := d.at(p, wheel)
		if err != nil {
			if !r.Setting.Scale.Fits() || !p.sharesWheel() {
				err = wheelError{err}
			}
			return nil, err
		}
		p.markWheel(pages, wheel)
		for i := range pages {
			out = append(out, Page{p.view, p.kinds[i], &pages[i]})
		}
	}
	return out, nil
}

// ErrWheel is wrapped by errors that a smaller wheel does not cure: the wheel was asked for, or is not the reason.
var ErrWheel = errors.New("no smaller wheel helps")

// wheelError wraps ErrWheel without its text.
type wheelError struct{ error }

func (e wheelError) Unwrap() []error { return []error{e.error, ErrWheel} }

// noRoom is the error when a part does not fit at any wheel, for a reason if there is one to give.
func (d composer) noRoom(p part, reason error) error {
	if _, overlay := p.Drawing.(compare.Overlay); overlay && reason != nil {
		return fmt.Errorf("%s does not fit on %s: %w; %s", p.name, d.Setting.Paper.Name, reason, d.Setting.Paper.Cure())
	}
	others, words := "", ""
	if len(d.Plans) > 1 {
		others = " beside the others of this command"
	}
	if p.ofSide() {
		words = OrFewerWords(d.Request)
	}
	return fmt.Errorf("%s does not fit on %s%s: not even with a wheel of %s; %s%s",
		p.name, d.Setting.Paper.Name, others, draft.FormatMM(counting.LeastWheel), d.Setting.Paper.Cure(), words)
}

// OrFewerWords is the part of a message that names other ways out, where there are any.
func OrFewerWords(r request.Request) string {
	out := ""
	if r.Setting.Labels != request.NoLabels && r.Has(request.Full) {
		out = " or --labels none"
	}
	if r.Setting.Legend {
		out += " or no --legend"
	}
	return out
}

// ScaleError is the error where something does not fit at the scale asked for and would at another, which Cure names.
type ScaleError struct{ What, Cure string }

// Error says what does not fit, and at which scale it would.
func (e ScaleError) Error() string { return e.What + "; " + e.Cure }

// noRoomAt is the error when a part does not fit at the wheel asked for; it says which scale would.
func (d composer) noRoomAt(p part, asked geom.MM) error {
	what := fmt.Sprintf("%s does not fit on %s with a wheel of %s", p.name, d.Setting.Paper.Name, draft.FormatMM(asked))
	fitting := d
	fitting.Setting.Scale = request.Scale{}
	best := fitting.best(d.Plans)
	switch {
	case best == 0:
		return fmt.Errorf("%s, nor at any other scale; %s", what, d.Setting.Paper.Cure())
	case best > asked:
		return ScaleError{what + ": its words need more room", fmt.Sprintf("--scale wheel=%gmm fits, or --labels none", float64(best))}
	}
	fitting.Setting.Scale.Reduction = 1 // which draws vehicles that are laid over each other each by its own wheel
	n := 0.                             // each part has its own wheel at a reduction: the one that needs most decides
	for _, q := range fitting.parts() {
		if q.sharesWheel() {
			n = max(n, float64(q.plans[0].OnVehicle(1)/fitting.largest([]part{q}, 0)))
		}
	}
	return ScaleError{what, fmt.Sprintf("--scale wheel=%gmm (1:%s) fits%s", float64(best), draft.FormatTrimmed(n+.05, 1), d.orTiles())}
}

// best returns the largest wheel at which all parts of some plans that share one fit, or 0.
func (d composer) best(plans []layout.Plan) geom.MM {
	d.Plans = plans
	return d.largest(slices.DeleteFunc(d.parts(), func(p part) bool { return !p.sharesWheel() }), 0)
}

// orTiles is the part of a message that names tiles as another way out, where they are one.
func (d composer) orTiles() string {
	if d.Handout { // a class prints pages, not tiles
		return ""
	}
	d.Setting.Tile, d.Setting.Scale = true, request.Scale{Reduction: 1}
	if job.Check(d.Request) != nil {
		return ""
	}
	return ", or --tile"
}

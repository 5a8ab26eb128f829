// Package sheet composes documents: it fits every drawing of a request at one wheel, numbers the sheets, and cuts large ones into tiles.
package sheet

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/draft"
	"hubrule/render/flat"
	"hubrule/render/perspective"
	"hubrule/render/request"
	"hubrule/render/side"
)

// Drawing draws the sheets of a vehicle from one side, or of several compared, at one wheel.
type Drawing interface {
	// Draw returns the pages; wheel is the size of a wheel on paper, in mm, and number returns the sheet number to print on page i.
	Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error)
}

// sizer is a Drawing that has the same wheel as others. A Drawing without Largest has a scale of its own.
type sizer interface {
	// Largest returns the largest wheel on the canvas, in mm, at which the drawing may fit.
	Largest(c draft.Canvas) geom.MM
}

// part is a drawing of a request.
type part struct {
	Drawing
	name          string // for messages
	plans         []layout.Plan
	view          int // index into the views of the request's sheets
	kinds         []request.Kind
	before, total int // sheets of the request before it, and of all
}

// sharesWheel reports whether the part is drawn at the wheel of the others.
func (p part) sharesWheel() bool {
	_, ok := p.Drawing.(sizer)
	return ok
}

// ofSide reports whether the part is the side view of one vehicle.
func (p part) ofSide() bool {
	_, ok := p.Drawing.(side.Sheets)
	return ok
}

// markWheel puts the wheel of a part on its pages. The panels of steps have another.
func (p part) markWheel(pages []render.Page, wheel geom.MM) {
	for i := range pages {
		if p.sharesWheel() && p.kinds[i] != request.Steps && p.kinds[i] != request.Demonstration {
			pages[i].Wheel = wheel
		}
	}
}

// composer fits, numbers and places the drawings of a request.
type composer struct {
	request.Request
	ctx context.Context // nil: nothing ends it
}

// ended returns an error once nobody waits for the pages any more.
func (d composer) ended() error {
	if d.ctx == nil {
		return nil
	}
	return d.ctx.Err()
}

// Compose lays out every page of a request: side views by plan, then by kind; then the pages that compare plans; then the other views. All
// have one wheel size unless the scale is a reduction. It returns messages for the user. Where a sheet does not fit its paper, the error
// names a scale that would.
func Compose(r request.Request) (render.Document, request.Messages, error) {
	return ComposeUntil(context.Background(), r)
}

// ComposeUntil is Compose that gives up between two drawings once ctx ends.
func ComposeUntil(ctx context.Context, r request.Request) (render.Document, request.Messages, error) {
	d := composer{r, ctx}
	if err := job.Check(r); err != nil {
		return render.Document{}, request.Messages{}, err
	}
	if r.Setting.Tile {
		return d.composeTiles()
	}
	parts := d.parts()
	sets, wheels, err := d.drawAll(parts)
	if err != nil {
		return render.Document{}, request.Messages{}, err
	}
	doc := render.Document{Title: r.Title(), About: d.about()}
	var messages request.Messages
	for i, p := range parts {
		p.markWheel(sets[i], wheels[i])
		doc.Pages = append(doc.Pages, sets[i]...)
	}
	if atSide := slices.IndexFunc(parts, part.ofSide); atSide >= 0 {
		messages.Notes = d.smallWheelNote(wheels[atSide])
	}
	if r.Setting.Shows(request.PerspectiveView) {
		for _, p := range r.Plans {
			messages.Notes = append(messages.Notes, d.raisedEye(p)...)
		}
	}
	return doc, messages, nil
}

// Count returns how many sheets a request has; one may take several pages as tiles.
func Count(r request.Request) int {
	n := 0
	for _, p := range (composer{Request: r}).parts() {
		n += len(p.kinds)
	}
	return n
}

// about is the metadata of the request's files.
func (d composer) about() render.About {
	return render.About{Author: d.Setting.Author, Job: job.Written(d.Request, nil)}
}

// parts lists the drawings of the request in the order of their pages.
func (d composer) parts() []part {
	var out []part
	views := d.Setting.Sheets()
	atSide := slices.IndexFunc(views, func(v request.ViewSet) bool { return v.Has(request.SideView) })
	if atSide >= 0 {
		if each := d.Each(); len(each) > 0 {
			for _, p := range d.Plans {
				drawing := side.Sheets{Request: d.Request, Plan: p}
				out = append(out, part{Drawing: drawing, name: p.Profile.Name, plans: []layout.Plan{p}, view: atSide, kinds: each})
			}
		}
		out = append(out, d.comparing(atSide)...)
	}
	for _, p := range d.Plans {
		vehicle := sync.OnceValue(func() *flat.Vehicle { return flat.NewVehicle(p) })
		for i, v := range views {
			if i != atSide {
				drawing, name := d.otherView(p, vehicle, v)
				out = append(out, part{Drawing: drawing, name: name, plans: []layout.Plan{p}, view: i, kinds: d.Each()})
			}
		}
	}
	n := 0
	for i := range out {
		out[i].before = n
		n += len(out[i].kinds)
	}
	for i := range out {
		out[i].total = n
	}
	return out
}

// comparing lists the drawings that show all plans together.
func (d composer) comparing(atSide int) []part {
	var out []part
	add := func(k request.Kind, drawing Drawing, plans []layout.Plan) {
		out = append(out, part{Drawing: drawing, name: "the " + string(k), plans: plans, view: atSide, kinds: []request.Kind{k}})
	}
	for _, kind := range d.Kinds {
		switch kind {
		case request.Overlay:
			for _, plans := range d.Comparisons() {
				add(kind, compare.Overlay{Request: d.Request, Plans: plans}, plans)
			}
		case request.Spread:
			add(kind, compare.Spread{Request: d.Request}, d.Plans)
		case request.Thumbnails:
			add(kind, compare.Thumbnails{Request: d.Request}, d.Plans)
		}
	}
	return out
}

// otherView returns the drawing of a plan from another view than the side, and its name. All flat views of it share one vehicle.
func (d composer) otherView(p layout.Plan, vehicle func() *flat.Vehicle, v request.ViewSet) (Drawing, string) {
	switch {
	case v.Has(request.EllipsesView):
		return perspective.Ellipses{Request: d.Request, Plan: p}, p.Profile.Name
	case v.Has(request.PerspectiveView):
		return perspective.Sheets{Request: d.Request, Plan: p}, p.Profile.Name
	}
	sheets := flat.Sheets{Request: d.Request, Vehicle: vehicle(), Views: v}
	return sheets, "the " + sheets.Name() + " of " + p.Profile.Name
}

// number returns the function that numbers the pages of a part. Handouts number their pages themselves.
func (d composer) number(p part) func(i int) string {
	return func(i int) string {
		if d.Handout {
			return ""
		}
		return fmt.Sprintf("sheet %d of %d", p.before+i+1, p.total)
	}
}

// raisedEye notes that the eye was raised from roof level, where the roof would be a single line.
func (d composer) raisedEye(p layout.Plan) []string {
	c, err := d.Setting.Camera.Spec.Camera(p)
	if err != nil || !c.Raised {
		return nil
	}
	return []string{fmt.Sprintf("%s: the eye would lie in the level of the roof, where a roof is one line; raised to %.0f mm",
		p.Profile.Name, float64(p.OnVehicle(c.Eye.Y)))}
}

// Package screen composes one page of a request for a screen: lines as an SVG in CSS pixels, the words beside them so that a page can let
// people edit them where they stand, and what a hand may drag.
package screen

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/render/svg"
)

// Screen is the room that a page has, in CSS pixels.
type Screen struct {
	Width, Height float64
	Lettering     float64 // font size of the smallest words
	Wheel         float64 // across on the screen; 0: as large as the segment's range leaves room for
	Dark          bool
	Moving        bool // a figure is being dragged: what only the real page says is left out
}

// The bounds of a screen: smaller ones show nothing, larger ones nobody has.
const (
	LeastSide, MostSide           = 240, 8192
	LeastLettering, MostLettering = 8, 64
)

// Check returns an error if s is out of bounds.
func (s Screen) Check() error {
	for _, side := range []float64{s.Width, s.Height} {
		if !(side >= LeastSide && side <= MostSide) {
			return fmt.Errorf("%g pixels; want %d to %d", side, LeastSide, MostSide)
		}
	}
	if !(s.Lettering >= LeastLettering && s.Lettering <= MostLettering) {
		return fmt.Errorf("lettering of %g pixels; want %d to %d", s.Lettering, LeastLettering, MostLettering)
	}
	if most := max(s.Width, s.Height); !(s.Wheel == 0 || s.Wheel >= 8 && s.Wheel <= most) {
		return fmt.Errorf("a wheel of %g pixels; want 8 to %g", s.Wheel, most)
	}
	return nil
}

// perMM is how many pixels a millimetre of the composed page is: its smallest lettering is the screen's.
func (s Screen) perMM() float64 { return s.Lettering / float64(fonts.Size(draft.Small)) }

// mm returns a length on the composed page.
func (s Screen) mm(pixels float64) geom.MM { return geom.MM(pixels / s.perMM()) }

// isNarrow reports whether there is room for values only.
func (s Screen) isNarrow() bool { return s.Width < 49*s.Lettering } // 640 px at 13 (judged by eye)

// Sheet is a page as a screen shows it.
type Sheet struct {
	Kind          request.Kind
	Views         request.ViewSet
	Page, Pages   int
	Width, Height float64 // in pixels, as all below
	SVG           []byte  // without words
	Words         []Word
	Grips         []Grip
	Camera        *Camera       // of a perspective
	Plan          *Map          // nil where no side view of one vehicle stands on the page
	Title         draft.Caption // with Facts, Paper and Problem of the real page; empty while a figure is moved
	Facts         []draft.Fact
	Paper         *Paper
	Problem       string // why the sheet does not fit its paper
}

// PageError is the error for a page that a request does not have.
type PageError struct{ Page, Pages int }

// Error says how many there are.
func (e PageError) Error() string { return fmt.Sprintf("%d; want 1 to %d", e.Page, e.Pages) }

// Compose composes page n of a request, counted from 1, and gives up once ctx ends. The error says what does not fit, or that there is no
// such page.
func Compose(ctx context.Context, r request.Request, s Screen, n int) (Sheet, request.Messages, error) {
	if err := s.Check(); err != nil {
		return Sheet{}, request.Messages{}, fmt.Errorf("screen: %w", err)
	}
	one, total, ok := sheet.SinglePage(r, n)
	if !ok {
		return Sheet{}, request.Messages{}, PageError{n, total}
	}
	out := Sheet{Kind: one.Kind, Views: one.Views, Page: n, Pages: total}
	if !s.Moving || one.Kind == request.Overlay { // whose table has millimetres of paper
		one.Request.Printed = out.describe(ctx, r, one)
	}
	one.Request.OnScreen = true
	unseen := s.needsWheels(&one.Request)
	on, notes, err := s.compose(ctx, one)
	if err != nil {
		return Sheet{}, request.Messages{}, err
	}
	out.Width, out.Height = float64(on.Width), float64(on.Height)
	var lines []render.Mark
	lines, out.Words = split(on.Marks)
	if s.Dark {
		lines = slice.Map(lines, darkened)
	}
	if out.Plan = mapOf(one, lines); out.Plan != nil {
		out.Grips = out.Plan.grips(subjectOf(one), lines, s.isNarrow())
	}
	if unseen {
		lines = slices.DeleteFunc(lines, func(m render.Mark) bool { return m.Tag().Guide == wheelGuide })
	}
	if one.Views.Has(request.PerspectiveView) {
		out.Camera = cameraOf(one, lines)
	}
	var file bytes.Buffer
	if err := svg.Write(&file, render.Page{Width: on.Width, Height: on.Height, Guides: on.Guides, Marks: lines}); err != nil {
		return Sheet{}, request.Messages{}, err
	}
	out.SVG = file.Bytes()
	return out, notes, nil
}

// wheelGuide is the guide whose circles say where a plan stands.
const wheelGuide = "wheels"

// needsWheels has the wheels drawn where a request leaves them out, and reports whether it did: they are taken away again.
func (s Screen) needsWheels(r *request.Request) bool {
	if r.Setting.Guides == nil || !r.Setting.SideOnly() || slices.Contains(r.Setting.Guides, wheelGuide) {
		return false
	}
	r.Setting.Guides = append(slices.Clone(r.Setting.Guides), wheelGuide)
	return true
}

// subjectOf returns the plan that words and guides of a page are about.
func subjectOf(one sheet.Single) layout.Plan {
	if one.Kind == request.Overlay {
		return one.Plans[one.Request.Subject()]
	}
	return one.Plans[0]
}

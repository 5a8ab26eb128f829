package compare

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/side"
)

// Round a thumbnail: road before the nose and behind the tail, in wheels; between neighbours, and for the name under the ground, in mm.
const (
	thumbRoad  geom.Wheels = .2
	thumbGap   geom.MM     = 5
	thumbAbove geom.MM     = 3
	thumbWords geom.MM     = 6
	leastThumb geom.MM     = 6 // the smallest wheel of a thumbnail
	// thumbLine is the widest line of a thumbnail: the tyres of a small figure would be clots.
	thumbLine geom.MM = .35
)

// thumbGrid is how thumbnails stand on a page: so many across and down, each in a cell, all with one wheel on the canvas.
type thumbGrid struct {
	across, down int
	cell         draft.Point
	wheel        geom.MM
}

// Thumbnails draws many small underlays on a page, as large as fits; where they are the only kind of sheet, a scale of the setting holds.
type Thumbnails struct{ request.Request }

// Draw draws the sheet.
func (t Thumbnails) Draw(c draft.Canvas, _ geom.MM, number func(i int) string) ([]render.Page, error) {
	o := thumbPage{t.Request, c, t.thumbGrid(c), &draft.Surface{Space: c.Space}, c.FixedSurface(t.Ink(request.Thumbnails))}
	if asked := t.Setting.Scale; !asked.Fits() && len(t.Kinds) == 1 {
		wheel := c.FromPaper(asked.WheelOf(t.Plans[0]))
		if wheel > o.grid.wheel+1e-9 {
			return nil, fmt.Errorf("%d thumbnails do not fit on %s with a wheel of %s; --scale wheel=%gmm fits",
				t.Thumbnails(), c.Paper.Name, draft.FormatMM(geom.MM(float64(wheel)*c.Enlargement)),
				math.Round(float64(o.grid.wheel)*c.Enlargement))
		}
		o.grid.wheel = wheel
	}
	if o.grid.wheel < c.FromPaper(leastThumb) {
		return nil, fmt.Errorf("%d thumbnails do not fit on %s: not even with a wheel of %s; use larger paper or fewer",
			t.Thumbnails(), c.Paper.Name, draft.FormatMM(leastThumb))
	}
	for i := range t.Thumbnails() {
		o.thumbnail(i)
	}
	wheel := geom.MM(math.Round(float64(o.grid.wheel)*c.Enlargement*1e6) / 1e6)
	heading, sub := t.heading(), fmt.Sprintf("%d thumbnails", t.Thumbnails())
	if heading != t.Title() && len(t.Plans) == t.Thumbnails() {
		sub = "a thumbnail of each"
	}
	if len(t.Plans) == 1 && t.Plans[0].Summary() != "" {
		sub += ", " + t.Plans[0].Summary()
	}
	columns := [][]draft.Fact{{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "facing", Value: string(t.Setting.Facing)}}}
	c.TitleBlock(o.fixed, draft.Caption{Heading: heading, Sub: sub}, columns, number(0))
	return []render.Page{c.Finish(heading+", "+string(request.Thumbnails), o.figure, o.fixed, t.Setting.Facing)}, nil
}

// heading is the request's title, or how many there are where a list of names would be cut.
func (t Thumbnails) heading() string {
	const few = 3
	n := map[string]bool{}
	for _, p := range t.Plans {
		n[p.Profile.Title] = true
	}
	switch {
	case t.Setting.Title != "" || len(t.Plans) <= few:
		return t.Title()
	case len(n) == len(t.Plans):
		return fmt.Sprintf("%d segments", len(n))
	}
	return fmt.Sprintf("%d vehicles", len(t.Plans))
}

// thumbPage is a page of thumbnails being drawn.
type thumbPage struct {
	request.Request
	canvas        draft.Canvas
	grid          thumbGrid
	figure, fixed *draft.Surface
}

// thumbGrid returns the grid with the largest wheel: a whole number of real millimetres.
func (t Thumbnails) thumbGrid(c draft.Canvas) thumbGrid {
	var long, high geom.Wheels
	for _, p := range t.Plans {
		long, high = max(long, p.Length()+2*thumbRoad), max(high, p.Height())
	}
	wide, tall := c.Space.Width(), c.Space.Height()-draft.TitleBlockHeight-4
	var best thumbGrid
	n := t.Thumbnails()
	for across := 1; across <= n; across++ {
		down := (n + across - 1) / across
		cell := draft.Pt(wide/geom.MM(across), tall/geom.MM(down))
		d := min((cell.X-thumbGap)/geom.MM(long), (cell.Y-thumbAbove-thumbWords)/geom.MM(high))
		if d = c.FromPaper(geom.MM(math.Floor(float64(d)*c.Enlargement + 1e-9))); d > best.wheel {
			best = thumbGrid{across, down, cell, d}
		}
	}
	return best
}

// thumbnail draws underlay i of the page, a trace sheet without what would crowd it: the segments in turn, so that all of one stand
// together.
func (o thumbPage) thumbnail(i int) {
	k, g := i*len(o.Plans)/o.Thumbnails(), o.grid
	p, space := o.Plans[k], o.canvas.Space
	middle := space.Min.X + g.cell.X*geom.MM(i%g.across) + g.cell.X/2
	inPlace := middle
	if o.Setting.Facing == request.Right { // the figures are mirrored about the page's middle, their order is not
		inPlace = space.Min.X + space.Max.X - middle
	}
	ground := space.Min.Y + g.cell.Y*geom.MM(i/g.across+1) - thumbWords
	d := counting.NewDrawing(o.Request, o.canvas, p, request.Thumbnails)
	d.Place = counting.Place{Wheel: g.wheel, Origin: draft.Pt(inPlace-geom.MM((p.Nose()+p.Tail())/2)*g.wheel, ground)}
	d.LevelsEnd = d.X(p.Tail())
	if d.Guides == nil {
		d.Guides = request.Thumbnails.Guides()
	}
	d.Restyle = func(k draft.LineStyle) draft.LineStyle { k.Width = min(k.Width, thumbLine); return k }
	if i > 0 {
		d.Prefix = fmt.Sprintf("p%d-", i+1)
	}
	side.DrawTrace(d, o.Setting.Outline != request.OutlineOff, d.X(p.Nose()-thumbRoad), d.X(p.Tail()+thumbRoad))
	o.figure.Marks = append(o.figure.Marks, d.Marks...)
	if o.Setting.Labels == request.NoLabels {
		return
	}
	words := fmt.Sprint(i + 1)
	if len(o.Plans) > 1 {
		words += "  " + shortNames(o.Plans, g.cell.X-thumbGap-6)[k]
	}
	name := draft.OneLine(draft.Truncated(draft.Note(words), g.cell.X-thumbGap))
	o.fixed.Write("labels", name.TopAt(middle-geom.MM((p.Length())/2)*g.wheel, ground+1.2, render.Start))
}

// Package photo draws a picture with its reading: counted wheels, levels and brackets through the camera that the reading found, figures in
// lanes beside it, and the vehicle that it is held against.
package photo

import (
	"cmp"
	"fmt"
	"image"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// Sheet is a picture with its reading.
type Sheet struct {
	Reading     reading.Reading
	Pixels      *image.RGBA  // nil: the sheet stays white
	Against     *layout.Plan // what is drawn over the picture; nil: nothing
	Name, Date  string       // of that; the date may be empty
	Differences []reading.Difference
}

// The room about a picture, in mm of the canvas.
const (
	roomRight  geom.MM = 62
	roomAbove  geom.MM = 9  // for callouts
	roomBelow  geom.MM = 20 // for lengths
	legendRoom geom.MM = 7
	fade               = .42 // how far a photograph is lightened; a sketch is pale already
	fadeSketch         = .15
)

// drawing draws one sheet; the vehicle on its surface faces left.
type drawing struct {
	*draft.Surface
	Sheet
	picture *reading.Picture
	shown   geom.Box[reading.Pixel] // the part of the picture that is drawn, from its centre
	box     draft.Box               // where it lies
	scale   geom.MM                 // of a pixel
	base, q geom.Wheels             // wheelbase, and the rear tyre's diameter
	*lanes                          // of a screen; nil on paper
}

// Page draws the sheet on a paper. The reading has a picture's marks.
func (s Sheet) Page(r request.Setting, number string) (render.Page, error) {
	c := draft.NewCanvas(r)
	fixed := c.FixedSurface(request.Dark)
	head, rows := s.table()
	table := draft.NewTable(head, rows, fixed.Space.Width())
	foot := c.OverTitleBlock().Max.Y - 1
	if len(rows) > 0 {
		foot -= table.Height()
		table.Draw(fixed, fixed.Space.Min.X, foot)
		foot -= 2
	}
	d := s.newDrawing(c, foot)
	if s.Pixels != nil {
		picture := &render.Picture{Box: d.box, Pixels: d.shownPixels(), Mirrored: d.picture.FacesRight, Fade: fade}
		if d.picture.WheelOnSheet() > 0 {
			picture.Fade = fadeSketch
		}
		picture.Guide, picture.ID = "photo", "photo"
		d.Marks = append(d.Marks, picture)
	}
	if s.Against != nil {
		if err := d.underlay(); err != nil {
			return render.Page{}, err
		}
	}
	d.construction()
	d.words()
	if text := d.legend(); text != "" {
		fixed.Write("labels", draft.OneLine(draft.Note(text)).TopAt(fixed.Space.Min.X, foot-4.5, render.Start))
	}
	c.TitleBlock(fixed, d.caption(), d.facts(), number)
	facing := request.Left
	if d.picture.FacesRight {
		facing = request.Right
	}
	page := c.Finish(s.title(), d.Surface, fixed, facing)
	return page, nil
}

// newDrawing places the picture on the canvas over the foot of the page, as large as the lanes leave room for.
func (s Sheet) newDrawing(c draft.Canvas, foot geom.MM) *drawing {
	room := c.OverTitleBlock()
	d := s.drawingIn(room)
	room.Max.X, room.Max.Y = room.Max.X-roomRight, foot-legendRoom
	if s.Against == nil {
		room.Min.Y, room.Max.Y = room.Min.Y+roomAbove, room.Max.Y-roomBelow
	}
	d.shown = d.choose(float64(room.Height() / room.Width()))
	width, height := geom.MM(d.shown.Width()), geom.MM(d.shown.Height())
	d.scale = min(room.Width()/width, room.Height()/height)
	d.box = draft.Box{Min: room.Min.Add(draft.Pt(0, (room.Height()-d.scale*height)/2))}
	d.box.Max = d.box.Min.Add(draft.Pt(d.scale*width, d.scale*height))
	return d
}

// drawingIn starts a drawing in a space.
func (s Sheet) drawingIn(space draft.Box) *drawing {
	d := &drawing{Surface: draft.NewSurface(space, draft.InksOf(request.Dark)), Sheet: s, picture: s.Reading.Picture}
	d.base = geom.Wheels(s.Reading.Figures[segments.Wheelbase].Value)
	d.q = 2 * (d.base - geom.Wheels(s.Reading.Figures[segments.WheelsBetween].Value) - .5)
	return d
}

// choose returns the part of the picture that is drawn: of a sketch the whole paper, of a photograph the vehicle with some room round it,
// and more above and below as far as the page has room of some height to its width.
func (d *drawing) choose(tall float64) geom.Box[reading.Pixel] {
	if paper, ok := d.picture.Paper(); ok {
		return paper
	}
	box := d.aroundVehicle()
	if d.Pixels == nil {
		return box
	}
	half := d.picture.Height / 2
	more := max(0, reading.Pixel(tall)*box.Width()-box.Height())
	up := min(more*.6, box.Min.Y+half)
	down := min(more-up, half-box.Max.Y)
	up = min(more-down, box.Min.Y+half)
	box.Min.Y, box.Max.Y = box.Min.Y-up, box.Max.Y+down
	return box
}

// aroundVehicle returns the part of the picture that is drawn: the vehicle with some room round it.
func (d *drawing) aroundVehicle() geom.Box[reading.Pixel] {
	const around, below geom.Wheels = .45, .4
	from, to := d.extent()
	top := geom.Wheels(2)
	if y, ok := d.length(segments.Height); ok {
		top = y
	}
	var corners []reading.Point
	for _, x := range []geom.Wheels{from - around, to + around} {
		for _, y := range []geom.Wheels{-below, top + around} {
			corners = append(corners, d.picture.At(x, y, 0))
		}
	}
	box, whole := geom.BoxOf(corners[0], corners[1:]...), d.picture.Width/2
	tall := d.picture.Height / 2
	return geom.Box[reading.Pixel]{
		Min: reading.Point{X: max(box.Min.X, -whole), Y: max(box.Min.Y, -tall)},
		Max: reading.Point{X: min(box.Max.X, whole), Y: min(box.Max.Y, tall)},
	}
}

// shownPixels returns the pixels that are drawn.
func (d *drawing) shownPixels() *image.RGBA {
	box := d.shown
	if d.picture.FacesRight {
		box.Min.X, box.Max.X = -box.Max.X, -box.Min.X
	}
	half := reading.Point{X: d.picture.Width / 2, Y: d.picture.Height / 2}
	return part(d.Pixels, geom.Box[reading.Pixel]{Min: box.Min.Add(half), Max: box.Max.Add(half)}, half.Times(2))
}

// part returns the part of a picture in a box. The picture may hold fewer pixels than its size says, where it was shrunk.
func part(pixels *image.RGBA, box geom.Box[reading.Pixel], size reading.Point) *image.RGBA {
	across := func(x, whole reading.Pixel, n int) int { return int(math.Round(float64(x/whole) * float64(n))) }
	has := pixels.Rect.Size()
	return pixels.SubImage(image.Rect(
		across(box.Min.X, size.X, has.X), across(box.Min.Y, size.Y, has.Y), across(box.Max.X, size.X, has.X), across(box.Max.Y, size.Y, has.Y),
	)).(*image.RGBA)
}

// onPage returns where on the page a point of the picture lies, counted from the picture's centre.
func (d *drawing) onPage(p reading.Point) draft.Point {
	return draft.Pt(d.box.Min.X+geom.MM(p.X-d.shown.Min.X)*d.scale, d.box.Min.Y+geom.MM(p.Y-d.shown.Min.Y)*d.scale)
}

// at returns where on the page the picture shows a point of the body.
func (d *drawing) at(x, y, depth geom.Wheels) draft.Point { return d.onPage(d.picture.At(x, y, depth)) }

// read returns a figure that was read.
func (d *drawing) read(f segments.Figure) (reading.Value, bool) {
	v := d.Reading.Figures[f]
	return v, v.State == reading.Read
}

// length is read for a length in wheels.
func (d *drawing) length(f segments.Figure) (geom.Wheels, bool) {
	v, ok := d.read(f)
	return geom.Wheels(v.Value), ok
}

// title is the bookmark of the page.
func (s Sheet) title() string { return cmp.Or(s.Reading.Student, s.Reading.Name) }

// caption names the sheet.
func (d *drawing) caption() draft.Caption {
	sub := "read from " + d.Reading.Source
	if d.Against != nil {
		sub += ", held against " + d.Name
	}
	if d.Reading.Student != "" {
		return draft.Caption{Heading: d.Reading.Student, Sub: sub}
	}
	return draft.Caption{Heading: d.Reading.Name, Sub: sub}
}

// facts are the columns of the title block.
func (d *drawing) facts() [][]draft.Fact {
	r := d.Reading
	first := []draft.Fact{{Name: draft.Unit, Value: "wheel"}}
	if r.Wheel.Diameter > 0 {
		first = append(first, draft.Fact{Name: "wheel", Value: fmt.Sprintf("%.0f mm", float64(r.Wheel.Diameter))})
	}
	columns := [][]draft.Fact{first}
	if wheel := d.picture.WheelOnSheet(); wheel > 0 {
		columns = append(columns, []draft.Fact{{Name: "wheel on the sketch", Value: fmt.Sprintf("%.1f mm", float64(wheel))}})
	}
	if c := r.Camera; c != nil {
		skew := fmt.Sprintf("%.1f° ± %.1f°", math.Abs(c.Yaw), c.YawPM)
		if r.Skew == reading.CannotTell {
			skew = "cannot tell"
		}
		columns = append(columns, []draft.Fact{{Name: "skew", Value: skew},
			{Name: "camera", Value: fmt.Sprintf("%.0f ± %.0f wheels away", c.Distance, c.DistancePM)}})
	}
	if r.Like != nil {
		columns = append(columns, []draft.Fact{{Name: "like", Value: r.Like.Name}, {Name: "±", Value: "holds in 95 of 100 readings"}})
	} else {
		columns = append(columns, []draft.Fact{{Name: "±", Value: "holds in 95 of 100 readings"}})
	}
	return columns
}

package photo

import (
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments/reading"
)

// Frame is a screen that shows part of a picture, in mm of the screen's lettering. Lanes stand about the picture: lengths below it,
// callouts above, heights at the right whichever way the vehicle faces, so that the picture stays where it is.
type Frame struct {
	Width, Height geom.MM                 // that the screen has
	Shown         geom.Box[reading.Pixel] // from the top left corner of the upright picture
	Narrow        bool                    // the picture takes the whole width, without lanes and words
}

// The room of a screen.
const (
	screenEdge  geom.MM = 3
	leastInside geom.MM = 20 // height of the picture; a lower screen is scrolled
)

// Place returns where the part of the picture lies, and how high the drawing is.
func (f Frame) Place() (box draft.Box, height geom.MM) {
	width, tall := geom.MM(f.Shown.Width()), geom.MM(f.Shown.Height())
	if f.Narrow {
		height = f.Width / width * tall
		return draft.Box{Max: draft.Pt(f.Width, height)}, height
	}
	room := draft.Box{Max: draft.Pt(f.Width, f.Height)}.Grow(-screenEdge)
	room.Min.Y, room.Max.X, room.Max.Y = room.Min.Y+roomAbove, room.Max.X-roomRight, room.Max.Y-roomBelow
	scale := min(room.Width()/width, max(room.Height(), leastInside)/tall)
	at := room.Min.Add(draft.Pt((room.Width()-scale*width)/2, 0))
	box = draft.Box{Min: at, Max: at.Add(draft.Pt(scale*width, scale*tall))}
	return box, lanesUnder(box) + roomBelow + screenEdge
}

// lanesUnder returns where the lanes below a picture begin.
func lanesUnder(box draft.Box) geom.MM { return max(box.Max.Y, box.Min.Y+leastLane) }

// lanes say that a drawing is for a screen.
type lanes struct{ narrow bool }

// OnScreen draws the sheet for a screen, without the picture, title block, legend and table. What lies outside the part that is shown is
// left out, and words about it point to the edge.
func (s Sheet) OnScreen(f Frame) ([]render.Mark, error) {
	box, height := f.Place()
	d := s.drawingIn(draft.Box{Min: draft.Pt(screenEdge, screenEdge), Max: draft.Pt(f.Width-screenEdge, height-screenEdge)})
	d.lanes, d.box = &lanes{f.Narrow}, box
	half := reading.Point{X: d.picture.Width / 2, Y: d.picture.Height / 2}
	d.shown = geom.Box[reading.Pixel]{Min: f.Shown.Min.Sub(half), Max: f.Shown.Max.Sub(half)}
	if d.picture.FacesRight {
		d.shown.Min.X, d.shown.Max.X = -d.shown.Max.X, -d.shown.Min.X
		d.box.Min.X, d.box.Max.X = f.Width-box.Max.X, f.Width-box.Min.X
	}
	d.scale = box.Width() / geom.MM(f.Shown.Width())
	if s.Against != nil {
		if err := d.underlay(); err != nil {
			return nil, err
		}
	}
	d.construction()
	if d.hasWords() {
		d.words()
	}
	if d.picture.FacesRight {
		return slice.Map(d.Marks, func(m render.Mark) render.Mark { return draft.Mirrored(m, f.Width/2) }), nil
	}
	return d.Marks, nil
}

// hasWords reports whether there is room for words.
func (d *drawing) hasWords() bool { return d.lanes == nil || !d.narrow }

// shows reports whether a point is drawn: on paper all are.
func (d *drawing) shows(p draft.Point) bool { return d.lanes == nil || d.box.Contains(geom.BoxOf(p)) }

// within returns p, or on a screen the nearest point of the picture.
func (d *drawing) within(p draft.Point) draft.Point {
	if d.lanes == nil {
		return p
	}
	return draft.Pt(min(max(p.X, d.box.Min.X), d.box.Max.X), min(max(p.Y, d.box.Min.Y), d.box.Max.Y))
}

// foot is where the lanes below the picture begin.
func (d *drawing) foot() geom.MM {
	if d.lanes == nil {
		return d.box.Max.Y
	}
	return lanesUnder(d.box)
}

// clipped returns what a screen shows of marks.
func (d *drawing) clipped(marks []render.Mark) (out []render.Mark) {
	if d.lanes == nil {
		return marks
	}
	const chords = 12 // of a curve that crosses an edge
	for _, m := range marks {
		if d.box.Contains(draft.ExtentOf(m).Box()) {
			out = append(out, m)
			continue
		}
		switch m := m.(type) {
		case *render.Stroke:
			var path render.Path
			for _, run := range m.Path.Flatten(chords) {
				path = append(path, d.clippedRun(run)...)
			}
			if path != nil {
				out = append(out, &render.Stroke{Tagged: m.Tagged, Path: path, Pen: m.Pen})
			}
		case *render.Ellipse:
			var run []draft.Point
			from, to := m.Range()
			for i := range 8*chords + 1 {
				run = append(run, m.Shape.At(from+(to-from)*float64(i)/(8*chords)))
			}
			if path := d.clippedRun(run); path != nil {
				out = append(out, &render.Stroke{Tagged: m.Tagged, Path: path, Pen: m.Pen})
			}
		}
	}
	return out
}

// clippedRun returns what lies on the picture of a polyline.
func (d *drawing) clippedRun(run []draft.Point) (path render.Path) {
	for i := 1; i < len(run); i++ {
		from, to, inside := draft.Segment{A: run[i-1], B: run[i]}.Clip(d.box)
		if !inside {
			continue
		}
		if len(path) == 0 || from > 0 || path[len(path)-1].To != run[i-1] {
			path = path.Move(run[i-1].Lerp(run[i], from))
		}
		path = path.Line(run[i-1].Lerp(run[i], to))
	}
	return path
}

package flat

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/tidy"
)

// figure is a drawing of a parallel projection. Its place maps the image to the page: what a plan calls x points right in the image and y
// up, so that whatever counts along the ground also counts across the vehicle.
type figure struct {
	*counting.Drawing
	vehicle *Vehicle
	seen    *picture
	half    geom.Wheels // half the vehicle's width
}

// newFigure places a view of the vehicle.
func newFigure(d *counting.Drawing, v *Vehicle, at counting.Place, seen *picture) figure {
	moved := *d
	moved.Place = at
	return figure{&moved, v, seen, counting.WidthOf(d.Plan) / 2}
}

// planPoint converts a point of the image, y down, to the axes of a place, y up.
func planPoint(s view.ImagePoint) layout.Point {
	return layout.Point{X: geom.Wheels(s.X), Y: -geom.Wheels(s.Y)}
}

// path maps points of the image to the page.
func (f figure) path(run []view.ImagePoint) render.Path {
	return render.Path{}.Lines(slice.Map(run, func(s view.ImagePoint) draft.Point { return f.OnPage(planPoint(s)) })...)
}

// body draws the visible vehicle: fills, lines, contour.
func (f figure) body() {
	body := f.seen.body()
	var whole render.Path
	for _, loop := range body.silhouette {
		whole = append(whole, f.path(loop).Close()...)
	}
	f.Fill("outline", "", f.Inks.Body, whole)
	for _, pane := range body.panes {
		f.Fill("outline", "", f.Inks.Side, f.path(pane).Close())
	}
	var lenses [][]view.ImagePoint
	for _, l := range f.seen.features {
		if l.Kind == view.LampLine && f.Wants("lamps") {
			lenses = append(lenses, l.runs...)
		}
	}
	for _, l := range body.lines {
		style := counting.BodyStyle(l.Kind)
		if l.Kind == view.ContourLine {
			style = counting.BodyLine()
		}
		runs := l.runs
		if l.Kind == view.DetailLine {
			runs = tidy.Outside(runs, lenses)
		}
		f.strokes(runs, style.For("outline", ""))
	}
}

// strokes draws runs of a line, each a path of its own.
func (f figure) strokes(runs [][]view.ImagePoint, style draft.Line) {
	for _, run := range runs {
		f.Curve(style, f.path(run), 1)
	}
}

// features draws the lamps and, if pillars is set, the A-pillars, with ids.
func (f figure) features(pillars bool) {
	for _, l := range f.seen.features {
		switch {
		case l.Kind == view.PillarLine && pillars && f.Wants("pillar"):
			f.namedLine(l, "pillar", counting.PillarLine())
		case l.Kind == view.LampLine && f.Wants("lamps"):
			f.namedLine(l, "lamps", counting.OutlineLine())
		}
	}
}

// namedLine draws the visible runs of a line as one path with its name as id.
func (f figure) namedLine(l visibleLine, guide request.Guide, kind draft.LineStyle) {
	var path render.Path
	for _, run := range l.runs {
		path = append(path, f.path(run)...)
	}
	if len(path) > 0 {
		f.Curve(kind.For(guide, l.Name), path, 1)
	}
}

// tyreCorner is the radius of a tyre's corners in cross-section.
const tyreCorner geom.Wheels = .07

// roundedRect returns the outline of a tyre about c as a closed polyline that starts at the middle of the top.
func roundedRect(c layout.Point, halfWide, halfHigh geom.Wheels) []layout.Point {
	const chords = 6
	var out []layout.Point
	r := min(tyreCorner, halfWide, halfHigh)
	for quarter, sign := range [][2]geom.Wheels{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}} {
		for i := range chords + 1 {
			t := math.Pi / 2 * float64(i) / chords
			if quarter%2 == 0 { // from the level side into the upright one
				t = math.Pi/2 - t
			}
			out = append(out, c.Add(layout.Point{
				X: geom.Wheels(sign[0] * (halfWide - r + geom.Wheels(float64(r)*math.Cos(t)))),
				Y: geom.Wheels(sign[1] * (halfHigh - r + geom.Wheels(float64(r)*math.Sin(t)))),
			}))
		}
	}
	return append(out, out[0])
}

// tread returns a tyre's outline in space: at maps a point of the image to the point of the tread that is seen there.
func tread(w view.Wheel, rect []layout.Point, at func(layout.Point) view.Point3) view.Line {
	const step = .02 // in wheels
	line := view.Line{Name: "wheel-" + w.Name, Kind: view.TyreOuterLine}
	for i, p := range rect {
		if i > 0 {
			from := rect[i-1]
			for k, n := 1, int(float64(p.Sub(from).Len())/step); k < n; k++ {
				line.Points = append(line.Points, at(from.Lerp(p, float64(k)/float64(n))))
			}
		}
		line.Points = append(line.Points, at(p))
	}
	return line
}

// tyre draws a tyre by its outline, dashed where the body hides it.
func (f figure) tyre(outline view.Line) {
	var seen, hidden render.Path
	for _, run := range f.seen.Strokes(outline) {
		if run.Hidden {
			hidden = append(hidden, f.path(run.Points)...)
		} else {
			seen = append(seen, f.path(run.Points)...)
		}
	}
	id := outline.Name
	if len(seen) > 0 {
		f.Curve(counting.TyreLine().For("wheels", id), seen, 1)
		id += "-hidden"
	}
	if len(hidden) > 0 {
		f.Curve(hiddenTyreLine().For("wheels", id), hidden, 1)
	}
}

func hiddenTyreLine() draft.LineStyle { return draft.NewLineStyle(draft.Hair, draft.Plain, 12, 6) }

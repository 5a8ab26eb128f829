package perspective

import (
	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// drawing is a shot on a board: it draws any part of what the camera sees, as heavy as the board weighs it.
type drawing struct {
	*draft.Board
	*projection
	mapping
	units  request.Units
	noBody bool    // there is no body yet: nothing but a tyre's own far edge is hidden
	grow   float64 // of the canvas
}

// mapping places a picture on a page: where the line of sight meets it, and how long the picture's unit is.
type mapping struct {
	origin draft.Point
	focal  geom.MM
}

// toPage carries a place of the picture to the page.
func (l mapping) toPage(s view.ImagePoint) draft.Point {
	return draft.Pt(l.origin.X+l.length(s.X), l.origin.Y+l.length(s.Y))
}

// toImage is onPage backwards.
func (l mapping) toImage(p draft.Point) view.ImagePoint {
	return view.ImagePoint{X: view.ImageLength((p.X - l.origin.X) / l.focal), Y: view.ImageLength((p.Y - l.origin.Y) / l.focal)}
}

// length returns a length of the picture on the page.
func (l mapping) length(x view.ImageLength) geom.MM {
	return geom.MM(float64(float64(x) * float64(l.focal)))
}

// ellipse carries an ellipse to the page.
func (l mapping) ellipse(e view.Ellipse) geom.Ellipse[geom.MM] {
	return geom.TransformEllipse(e, geom.Similarity[view.ImageLength, geom.MM]{At: l.toPage, Scale: float64(l.focal)})
}

// at returns where a place of the vehicle lies on the page.
func (d *drawing) at(q view.Point3) draft.Point { return d.toPage(d.camera.Project(q)) }

// focalFor returns the focal length at which the enclosing box fills r one way.
func (s *projection) focalFor(r draft.Box) geom.MM {
	b := s.bounds()
	return min(r.Width()/geom.MM(b.Width()), r.Height()/geom.MM(b.Height()))
}

// place puts the picture into r: in the middle across, and at a share of what is left upwards, 0 at the top. A horizon that would
// lie above r comes in as far as there is room.
func (s *projection) place(r draft.Box, focal geom.MM, share float64) mapping {
	b, l := s.bounds(), mapping{focal: focal}
	l.origin.X = (r.Min.X+r.Max.X)/2 - l.length((b.Min.X+b.Max.X)/2)
	highest, lowest := r.Min.Y-l.length(b.Min.Y), r.Max.Y-l.length(b.Max.Y)
	l.origin.Y = highest + geom.MM(float64(lowest-highest)*share)
	if y, ok := s.camera.Horizon(); ok {
		const under geom.MM = 5
		if want := r.Min.Y + under - l.length(y); l.origin.Y < want {
			l.origin.Y = min(want, max(lowest, l.origin.Y))
		}
	}
	return l
}

// path carries runs of the picture to the page as one path; points that a straight line passes within a printer's dot are left out.
func (d *drawing) path(lines [][]view.ImagePoint) render.Path {
	out := render.Path{}
	for _, run := range lines {
		pts := make([]draft.Point, len(run))
		for i, s := range run {
			pts[i] = d.toPage(s)
		}
		for i, p := range simplify(pts) {
			if i == 0 {
				out = out.Move(p)
			} else {
				out = out.Line(p)
			}
		}
	}
	return out
}

// polylines draws lines of the picture as one mark, or nothing where there are none.
func (d *drawing) polylines(guide request.Guide, id string, k draft.LineStyle, lines [][]view.ImagePoint) {
	if p := d.path(lines); len(p) > 1 {
		d.Curve(guide, id, k, p, 1)
	}
}

// dot is how far a thinned line may stray: less than any printer's dot.
const maxDeviation geom.MM = .004

// simplify leaves out points that the line between their neighbours passes within a dot (Douglas and Peucker 1973).
func simplify(pts []draft.Point) []draft.Point {
	if len(pts) < 3 {
		return pts
	}
	first, last := pts[0], pts[len(pts)-1]
	along := last.Sub(first).Unit()
	worst, at := maxDeviation, 0
	for i := 1; i < len(pts)-1; i++ {
		off := pts[i].Sub(first)
		far := geom.MM(along.Cross(off))
		if along == (draft.Point{}) {
			far = off.Len()
		}
		if far = max(far, -far); far > worst {
			worst, at = far, i
		}
	}
	if at == 0 {
		return []draft.Point{first, last}
	}
	out := simplify(pts[:at+1])
	return append(out[:len(out)-1:len(out)-1], simplify(pts[at:])...)
}

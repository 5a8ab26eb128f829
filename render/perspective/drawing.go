package perspective

import (
	"sync"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// drawing draws parts of a projection on a surface.
type drawing struct {
	*draft.Surface
	*projection
	mapping
	units        request.Units
	guides       []request.Guide // nil: all
	noBody       bool            // nothing is hidden but by a tyre itself: the body is not drawn yet
	grow         float64         // enlargement of the canvas
	onScreen     bool            // lengths on paper are not known
	construction bool            // the body is not drawn: what it hides is

	tidyLines func() []lineRuns // the body's lines as they are drawn
}

// newDrawing returns a drawing of a projection on an empty surface.
func newDrawing(b *draft.Surface, s *projection, units request.Units, grow float64) *drawing {
	d := &drawing{Surface: b, projection: s, units: units, grow: grow}
	d.tidyLines = sync.OnceValue(d.tidied)
	return d
}

// mapping maps the image plane to the page, in mm: the point on the line of sight, and the page length of the image unit.
type mapping struct {
	origin draft.Point
	focal  geom.MM
}

// toPage maps a point of the image to the page.
func (l mapping) toPage(s view.ImagePoint) draft.Point {
	return draft.Pt(l.origin.X+l.length(s.X), l.origin.Y+l.length(s.Y))
}

// toImage is the inverse of toPage.
func (l mapping) toImage(p draft.Point) view.ImagePoint {
	return view.ImagePoint{X: view.ImageLength((p.X - l.origin.X) / l.focal), Y: view.ImageLength((p.Y - l.origin.Y) / l.focal)}
}

// length returns the length on the page of a length in the image.
func (l mapping) length(x view.ImageLength) geom.MM {
	return geom.MM(float64(float64(x) * float64(l.focal)))
}

// ellipse maps an ellipse to the page.
func (l mapping) ellipse(e view.Ellipse) geom.Ellipse[geom.MM] {
	return geom.TransformEllipse(e, geom.Similarity[view.ImageLength, geom.MM]{At: l.toPage, Scale: float64(l.focal)})
}

// at returns the point on the page of a point of the vehicle.
func (d *drawing) at(q view.Point3) draft.Point { return d.toPage(d.camera.Project(q)) }

// focalFor returns the largest focal length at which the enclosing box fits r.
func (s *projection) focalFor(r draft.Box) geom.MM {
	b := s.bounds()
	return min(r.Width()/geom.MM(b.Width()), r.Height()/geom.MM(b.Height()))
}

// place centres the image in r across, with a share of the free height above it. A horizon above r is moved in as far as there is room.
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

// path maps lines of the image to one path on the page, simplified.
func (d *drawing) path(lines [][]view.ImagePoint) render.Path {
	out := render.Path{}
	for _, run := range lines {
		if pts := simplify(slice.Map(run, d.toPage)); len(pts) > 0 {
			out = out.Lines(pts...)
		}
	}
	return out
}

// polylines draws lines of the image as one mark; nothing if there are none.
func (d *drawing) polylines(guide request.Guide, id string, k draft.LineStyle, lines [][]view.ImagePoint) {
	if p := d.path(lines); len(p) > 1 {
		d.Curve(k.For(guide, id), p, 1)
	}
}

// maxDeviation is how far a simplified line may stray: less than a printer's dot.
const maxDeviation geom.MM = .004

// simplify leaves out points within maxDeviation of the line between those that are kept (Douglas and Peucker 1973). It overwrites pts.
func simplify(pts []draft.Point) []draft.Point {
	if len(pts) < 3 {
		return pts
	}
	return append(pts[:kept(pts)], pts[len(pts)-1])
}

// kept moves the points that are kept to the start, but for the last one, and returns how many they are.
func kept(pts []draft.Point) int {
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
		return 1
	}
	rest := kept(pts[at:])
	n := kept(pts[:at+1])
	return n + copy(pts[n:], pts[at:at+rest])
}

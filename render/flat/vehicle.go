package flat

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"hubrule/internal/parallel"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/request"
	"hubrule/render/tidy"
)

// Vehicle is a plan and its solid, as all sheets share them. What a camera sees of it is found once, when it is first asked for; several
// goroutines may ask.
type Vehicle struct {
	*view.Solid
	Plan layout.Plan
	seen map[request.View]func() *picture
}

// NewVehicle builds the solid over a plan.
func NewVehicle(p layout.Plan) *Vehicle {
	v := &Vehicle{Solid: view.NewSolid(p), Plan: p}
	lines := sync.OnceValue(v.Lines)
	seenBy := func(c view.Camera) func() *picture {
		return sync.OnceValue(func() *picture {
			var scene *view.Scene
			parallel.Together(func() { scene = view.NewScene(v.Solid, c) }, func() { lines() })
			return newPicture(scene, lines())
		})
	}
	v.seen = map[request.View]func() *picture{
		request.FrontView: seenBy(view.Front()), request.RearView: seenBy(view.Rear()), request.TopView: seenBy(view.Top()),
	}
	return v
}

// from returns what is seen of v in a view.
func (v *Vehicle) from(side request.View) func() *picture { return v.seen[side] }

// picture is what one camera sees of a vehicle.
type picture struct {
	*view.Scene
	features []visibleLine // A-pillars and lamps
	body     func() body
}

// body is what is drawn of the body but for the features.
type body struct {
	silhouette, panes [][]view.ImagePoint // closed, to be filled
	lines             []visibleLine       // the contour last
}

// visibleLine is a line and those of its runs that nothing hides.
type visibleLine struct {
	view.Line
	runs [][]view.ImagePoint
}

// look finds at once on all processors what is seen from some sides, with the body if it is drawn.
func look(hasBody bool, sides ...func() *picture) {
	parallel.Do(len(sides), func(i int) {
		if p := sides[i](); hasBody {
			p.body()
		}
	})
}

func newPicture(scene *view.Scene, lines []view.Line) *picture {
	p := &picture{Scene: scene}
	var others []view.Line
	for _, l := range lines {
		switch l.Kind {
		case view.CentreLine: // drawn by others or not at all
		case view.PillarLine, view.LampLine:
			p.features = append(p.features, visibleLine{l, p.seen(l)})
		default:
			others = append(others, l)
		}
	}
	p.body = sync.OnceValue(func() body {
		var out body
		var contour []visibleLine
		parallel.Together(
			func() { contour = withoutDoubles(p.visible(p.Contour())) }, func() { out.silhouette = p.Silhouette() },
			func() { out.lines = p.visible(others) }, func() { out.panes = p.Panes() })
		out.lines = p.tidy(append(out.lines, contour...))
		join(out.lines, p.features)
		return out
	})
	return p
}

// seen returns the runs of a line that nothing hides.
func (p *picture) seen(l view.Line) [][]view.ImagePoint {
	return slice.Map(p.Visible(l), func(s view.Stroke) []view.ImagePoint { return s.Points })
}

func (p *picture) visible(lines []view.Line) []visibleLine {
	return parallel.Map(lines, func(l view.Line) visibleLine { return visibleLine{l, p.seen(l)} })
}

// tidy returns lines without double strokes and stray dashes, as they read where a wheel is 40 mm high. A-pillars and lamps are drawn
// beside them, and runs on the vehicle's own edge stay: they close it.
func (p *picture) tidy(lines []visibleLine) []visibleLine {
	canvas := tidy.Canvas{Focal: 40, Wheel: 40}
	for _, l := range p.features {
		canvas.Others = append(canvas.Others, l.runs...)
	}
	var out []visibleLine
	var untidy []tidy.Line
	for _, l := range lines {
		for _, run := range l.runs {
			out = append(out, visibleLine{Line: l.Line})
			untidy = append(untidy, tidy.Line{Kind: l.Kind, Runs: [][]view.ImagePoint{run}, Fixed: p.isOnEdge(run)})
		}
	}
	for i, runs := range canvas.Lines(untidy) {
		out[i].runs = runs
	}
	return out
}

// isOnEdge reports whether the vehicle ends beside at least half of a run.
func (p *picture) isOnEdge(run []view.ImagePoint) bool {
	const beside, places, directions = .006, 16, 8 // in wheels
	on := 0
	for i := range places {
		at := run[i*(len(run)-1)/(places-1)]
		for k := range directions {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / directions)
			if !p.Covers(at.Add(view.ImagePoint{X: view.ImageLength(beside * cos), Y: view.ImageLength(beside * sin)})) {
				on++
				break
			}
		}
	}
	return 2*on >= places
}

// withoutDoubles leaves out runs of a contour that lie along a longer one: over a nearly level roof two of its edges are one line to the
// eye.
func withoutDoubles(lines []visibleLine) []visibleLine {
	const near view.ImageLength = .012 // in wheels; places of a run lie at most .02 apart
	var runs, kept [][]view.ImagePoint
	for _, l := range lines {
		runs = append(runs, l.runs...)
	}
	slices.SortStableFunc(runs, func(a, b []view.ImagePoint) int { return cmp.Compare(len(b), len(a)) })
	for _, run := range runs {
		isDouble := slices.ContainsFunc(kept, func(longer []view.ImagePoint) bool {
			return !slices.ContainsFunc(run, func(p view.ImagePoint) bool {
				return !slices.ContainsFunc(longer, func(q view.ImagePoint) bool { return q.Sub(p).Len() < near })
			})
		})
		if !isDouble {
			kept = append(kept, run)
		}
	}
	return []visibleLine{{view.Line{Kind: view.ContourLine}, kept}}
}

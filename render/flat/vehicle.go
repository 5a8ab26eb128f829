package flat

import (
	"cmp"
	"slices"
	"sync"

	"hubrule/internal/parallel"
	"hubrule/layout"
	"hubrule/layout/view"
)

// Vehicle is a plan and its solid, as all sheets share them. What a camera sees of it is found once, when it is first asked for; several
// goroutines may ask.
type Vehicle struct {
	*view.Solid
	Plan             layout.Plan
	front, rear, top func() *picture
}

// NewVehicle builds the solid over a plan.
func NewVehicle(p layout.Plan) *Vehicle {
	v := &Vehicle{Solid: view.NewSolid(p), Plan: p}
	lines := sync.OnceValue(v.Lines)
	seenBy := func(c view.Camera) func() *picture {
		return sync.OnceValue(func() *picture { return newPicture(v.Solid, lines(), c) })
	}
	v.front, v.rear, v.top = seenBy(view.Front()), seenBy(view.Rear()), seenBy(view.Top())
	return v
}

// picture is what one camera sees of a vehicle.
type picture struct {
	*view.Scene
	features []visibleLine // A-pillars and lamps
	body     func() body
}

// body is what is drawn of the body but for the features.
type body struct {
	silhouette, panes [][]view.ImagePoint // closed, to be filled
	lines, contour    []visibleLine
}

// visibleLine is a line and those of its runs that nothing hides.
type visibleLine struct {
	view.Line
	runs []view.Stroke
}

func newPicture(s *view.Solid, lines []view.Line, c view.Camera) *picture {
	p := &picture{Scene: view.NewScene(s, c)}
	var others []view.Line
	for _, l := range lines {
		switch l.Kind {
		case view.SectionLine, view.CentreLine: // drawn by others or not at all
		case view.PillarLine, view.LampLine:
			p.features = append(p.features, visibleLine{l, p.Visible(l)})
		default:
			others = append(others, l)
		}
	}
	p.body = sync.OnceValue(func() body {
		return body{p.Silhouette(), p.Panes(), p.visible(others), withoutDoubles(p.visible(p.Contour()))}
	})
	return p
}

func (p *picture) visible(lines []view.Line) []visibleLine {
	return parallel.Map(lines, func(l view.Line) visibleLine { return visibleLine{l, p.Visible(l)} })
}

// withoutDoubles leaves out runs of a contour that lie along a longer one: over a nearly level roof two of its edges are one line to the
// eye.
func withoutDoubles(lines []visibleLine) []visibleLine {
	const near view.ImageLength = .012 // in wheels; places of a run lie at most .02 apart
	var runs, kept []view.Stroke
	for _, l := range lines {
		runs = append(runs, l.runs...)
	}
	slices.SortStableFunc(runs, func(a, b view.Stroke) int { return cmp.Compare(len(b.Points), len(a.Points)) })
	for _, run := range runs {
		isDouble := slices.ContainsFunc(kept, func(longer view.Stroke) bool {
			return !slices.ContainsFunc(run.Points, func(p view.ImagePoint) bool {
				return !slices.ContainsFunc(longer.Points, func(q view.ImagePoint) bool { return q.Sub(p).Len() < near })
			})
		})
		if !isDouble {
			kept = append(kept, run)
		}
	}
	return []visibleLine{{runs: kept}}
}

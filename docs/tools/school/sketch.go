package main

import (
	"fmt"
	"math"
	"math/rand/v2"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/segments/reading"
)

// handOnPaper is how far marks on the crisp lines of a sketch lie off, one standard deviation, in pixels.
const handOnPaper = 1.2

// sketch is a student's drawing on a practice sheet: what the student got wrong, and how the sheet was photographed.
type sketch struct {
	name       string                 // of its files
	student    string                 // "" where the sheet is nobody's
	roof       float64                // how much higher the greenhouse is than asked for, as a share of it
	nose, tail float64                // how much longer the overhangs are, as shares of them
	lean       float64                // wheels that the roof slides back
	corners    [4]geom.Point[float64] // of the sheet on the photograph, clockwise from its top left
}

// oneSketch is the one that is handed back against a brief; classSketches are a class's.
func oneSketch() sketch {
	corners := [4]geom.Point[float64]{{X: 62, Y: 52}, {X: 1538, Y: 38}, {X: 1566, Y: 1096}, {X: 30, Y: 1078}}
	return sketch{"sketch", "", -.20, .16, .02, .05, corners}
}

func classSketches() []sketch {
	at := func(dx, dy float64) [4]geom.Point[float64] {
		return [4]geom.Point[float64]{{X: 50 + dx, Y: 46}, {X: 1548, Y: 40 + dy}, {X: 1560 - dx, Y: 1090}, {X: 36, Y: 1092 - dy}}
	}
	return []sketch{
		{"fenna", "Fenna Rook", .02, -.02, .03, .01, at(6, 4)},
		{"tibor", "Tibor Halm", .16, .02, -.12, -.02, at(-8, 12)},
		{"ysolde", "Ysolde Perrin", -.06, .20, .05, .08, at(14, -6)},
		{"wendel", "Wendel Oake", .01, -.15, .16, .02, at(2, 10)},
	}
}

// bent returns where the student drew a place of the plan.
func (s sketch) bent(p layout.Plan, q layout.Point) layout.Point {
	belt := p.BeltAt(q.X)
	if above := q.Y - belt; above > 0 {
		q.Y = belt + above*geom.Wheels(1+s.roof)
		q.X += above * geom.Wheels(s.lean)
	}
	if over := -.5 - q.X; over > 0 {
		q.X -= over * geom.Wheels(s.nose)
	}
	if over := q.X - p.RearEdge(); over > 0 {
		q.X += over * geom.Wheels(s.tail)
	}
	return q
}

// drawn adds the sketch to its sheet.
func (s sketch) drawn(page render.Page, p layout.Plan, place func(layout.Point) render.Point, seed uint64) render.Page {
	page = page.Flatten()
	page.Guides = append(page.Guides, render.Guide{Name: "sketch", Title: "Sketch"})
	pen := pencil{rand.New(rand.NewPCG(seed, 31))}
	line := func(run []layout.Point, closed bool, width geom.MM) {
		points := make([]render.Point, len(run))
		for i, q := range run {
			points[i] = place(s.bent(p, q))
		}
		for pass := range 2 {
			page.Marks = append(page.Marks, &render.Stroke{
				Tagged: render.Tagged{Guide: "sketch"}, Path: pen.stroke(points, closed), Pen: render.Pen{
					Width: width * geom.MM(1-.35*float64(pass)), Ink: render.Colour{R: 62, G: 66, B: 78},
				},
			})
		}
	}
	const chords = 16
	for _, l := range outline.Of(p).Lines {
		width := geom.MM(.32)
		if l.Kind == outline.Body {
			width = .55
		}
		for _, run := range l.Path.Flatten(chords) {
			line(run, l.Kind == outline.Body || l.Kind == outline.Glass, width)
		}
	}
	for _, w := range [2]struct{ x, r geom.Wheels }{{0, .5}, {p.Wheelbase(), p.RearRadius()}} {
		for _, share := range []geom.Wheels{1, geom.Wheels(p.Rim())} {
			line(round(layout.Point{X: w.x, Y: w.r}, w.r*share), true, .45)
		}
	}
	return page
}

// round returns a circle as points.
func round(centre layout.Point, r geom.Wheels) []layout.Point {
	var out []layout.Point
	for i := range 73 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 36)
		out = append(out, centre.Add(layout.Point{X: r * geom.Wheels(cos), Y: r * geom.Wheels(sin)}))
	}
	return out
}

// pencil draws lines as a hand does: they waver, and run past their ends.
type pencil struct{ *rand.Rand }

// stroke returns a line through points of the page.
func (p pencil) stroke(points []render.Point, closed bool) render.Path {
	if closed {
		points = append(points, points[0], points[1])
	}
	phase := [4]float64{p.Float64() * 6.3, p.Float64() * 6.3, p.Float64() * 6.3, p.Float64() * 6.3}
	long, last := 0., points[0]
	var out []geom.Point[float64]
	for i, q := range points {
		from := last
		n := max(1, int(q.Sub(from).Len()/1.2))
		for k := range n {
			if i == 0 && k > 0 {
				break
			}
			at := from.Lerp(q, float64(k+1)/float64(n))
			long += float64(at.Sub(last).Len())
			last = at
			x := float64(at.X) + .30*math.Sin(long/31+phase[0]) + .10*math.Sin(long/7+phase[1])
			y := float64(at.Y) + .30*math.Sin(long/27+phase[2]) + .10*math.Sin(long/8+phase[3])
			out = append(out, geom.Point[float64]{X: x, Y: y})
		}
	}
	var path render.Path
	for i, q := range out {
		if at := (render.Point{X: geom.MM(q.X), Y: geom.MM(q.Y)}); i == 0 {
			path = path.Move(at)
		} else {
			path = path.Line(at)
		}
	}
	return path
}

// clicks are the points that the instructor marks on the sketch, on the page, in millimetres.
func (s sketch) clicks(p layout.Plan, place func(layout.Point) render.Point) map[reading.Name][]render.Point {
	out := map[reading.Name][]render.Point{}
	set := func(n reading.Name, points ...layout.Point) {
		for _, q := range points {
			out[n] = append(out[n], place(s.bent(p, q)))
		}
	}
	for i, w := range [2]struct{ x, r geom.Wheels }{{0, .5}, {p.Wheelbase(), p.RearRadius()}} {
		on := round(layout.Point{X: w.x, Y: w.r}, w.r)
		set(reading.TyreFront+reading.Name(i), on[3], on[66], on[8], on[14], on[22], on[28], on[33], on[39])
	}
	all := outline.Of(p).Line("body").Flatten(24)[0]
	nose, tail, roof := all[0], all[0], all[0]
	for _, q := range all {
		if q.X < nose.X {
			nose = q
		}
		if q.X > tail.X {
			tail = q
		}
		if s.bent(p, q).Y > s.bent(p, roof).Y {
			roof = q
		}
	}
	foot, head, base := p.PillarFoot(), p.PillarHead(), p.Wheelbase()
	set(reading.Nose, nose)
	set(reading.Tail, tail)
	set(reading.Roof, roof)
	set(reading.BeltLine, layout.Point{X: foot.X + .25, Y: p.BeltAt(foot.X + .25)}, layout.Point{X: base * .8, Y: p.BeltAt(base * .8)})
	set(reading.SillEdge, layout.Point{X: base / 2, Y: p.Sill()})
	set(reading.APillar, foot, head)
	set(reading.GlassEnd, layout.Point{X: p.GlassEnd(), Y: p.BeltAt(p.GlassEnd()) + .12})
	return out
}

// file is the marks file of a sketch, whose sheet is photographed through warp.
func (s sketch) file(marks map[reading.Name][]render.Point, paper request.Paper, warp matrix, seed uint64) string {
	text := fmt.Sprintf("# Drawn and marked by docs/tools/school; the student is invented.\nkind: marks\npicture: %s.jpg\n", s.name)
	if s.student != "" {
		text += "student: " + s.student + "\n"
	}
	text += fmt.Sprintf("size: [%d, %d]\nfacing: left\npm: 2.5\non-sheet:\n  paper: A3\n", sheetWide, sheetHigh)
	for i, end := range paper.CentringEnds(false) {
		at := warp.at(end)
		text += fmt.Sprintf("  %s: [%s, %s]\n", []string{"left", "top", "right", "bottom"}[i], tenth(at.X), tenth(at.Y))
	}
	k := clicks{}
	for n, points := range marks {
		for _, q := range points {
			k[n] = append(k[n], warp.at(q))
		}
	}
	return text + k.shaken(seed, handOnPaper, sheetWide, false).yaml()
}

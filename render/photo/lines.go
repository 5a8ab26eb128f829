package photo

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// construction draws what a side view's sheet draws, through the camera.
func (d *drawing) construction() {
	if d.Against == nil {
		d.counted()
		d.levels()
		d.pillar()
		d.ends()
	}
	d.wheels()
	if d.Against == nil || d.lanes != nil {
		d.brackets()
	}
	if d.Against != nil {
		d.arrows()
	} else if d.hasWords() {
		d.numerals()
	}
}

// line draws a line between two points of the body as far as the picture reaches.
func (d *drawing) line(l draft.Line, a, b draft.Point) {
	s := draft.Segment{A: a, B: b}
	from, to, inside := s.Clip(d.box)
	if inside {
		d.Line(l, a.Lerp(b, from), a.Lerp(b, to))
	}
}

// circle draws a circle of the wheels' plane: its exact ellipse, or the part of it that lies on the picture.
func (d *drawing) circle(l draft.Line, x, y, radius geom.Wheels) {
	h := d.picture.Homography(0)
	column := func(p [3]float64) (out geom.Homogeneous) {
		for i := range 3 {
			out[i] = h[i][0]*p[0] + h[i][1]*p[1] + h[i][2]*p[2]
		}
		return out
	}
	r := float64(radius)
	e, ok := geom.ImageOfCircle[reading.Pixel](column([3]float64{r}), column([3]float64{0, r}), column([3]float64{float64(x), float64(y), 1}))
	if !ok {
		return
	}
	shape := geom.TransformEllipse(e, geom.Similarity[reading.Pixel, geom.MM]{At: d.onPage, Scale: float64(d.scale)})
	bounds := draft.Box{Min: shape.Centre.Sub(shape.Half), Max: shape.Centre.Add(shape.Half)}
	if d.box.Contains(bounds) {
		d.Ellipse(l, shape, 0, 0)
		return
	}
	d.arc(l, arc{x, y, radius, 0, 2 * math.Pi})
}

// arc is part of a circle of the wheels' plane, between two angles.
type arc struct {
	x, y, radius geom.Wheels
	from, to     float64
}

// arc draws an arc as far as it lies on the picture.
func (d *drawing) arc(l draft.Line, a arc) {
	const chords = 180
	point := func(i int) draft.Point {
		sin, cos := math.Sincos(a.from + (a.to-a.from)*float64(i)/chords)
		return d.at(a.x+geom.Wheels(float64(a.radius)*cos), a.y+geom.Wheels(float64(a.radius)*sin), 0)
	}
	var path render.Path
	open := false
	for i := range chords {
		p, q := point(i), point(i+1)
		if inside := d.box.Contains(geom.BoxOf(p, q)); !inside {
			open = false
			continue
		}
		if !open {
			path = path.Move(p)
		}
		path, open = path.Line(q), true
	}
	if len(path) > 0 {
		d.Curve(l, path, 1)
	}
}

// wheels draws both tyres and the ground.
func (d *drawing) wheels() {
	from, to := d.extent()
	d.line(counting.GroundLine().For("ground", "ground"), d.at(from, 0, 0), d.at(to, 0, 0))
	d.circle(counting.TyreLine().For("wheels", "wheel-front"), 0, .5, .5)
	d.circle(counting.TyreLine().For("wheels", "wheel-rear"), d.base, d.q/2, d.q/2)
	for i, x := range []geom.Wheels{0, d.base} {
		id := []string{"axle-front", "axle-rear"}[i]
		d.line(counting.AxleLine().For("wheels", id), d.at(x, -.1, 0), d.at(x, 1.25, 0))
	}
}

// extent returns where guides along the vehicle begin and end.
func (d *drawing) extent() (from, to geom.Wheels) {
	const beyond = .25
	from, to = -1, d.base+1
	if x, ok := d.length(segments.FrontOverhangAxle); ok {
		from = -x
	}
	if x, ok := d.length(segments.RearOverhangAxle); ok {
		to = d.base + x
	}
	return from - beyond, to + beyond
}

// level is a height that is drawn from end to end.
type level struct {
	figure segments.Figure
	guide  request.Guide
	name   string
	mark   reading.Name
	style  draft.LineStyle
}

// levelsRead lists the levels from the top down.
func levelsRead() []level {
	return []level{
		{segments.Height, "roof", "roof", reading.Roof, counting.RoofLine()},
		{segments.Belt, "belt", "belt", reading.BeltLine, counting.GuideLine()},
		{segments.Sill, "sill", "sill", reading.SillEdge, counting.SillLine()},
		{segments.Clearance, "clearance", "clearance", reading.Lowest, counting.ClearanceLine()},
	}
}

// levels draws each level as deep in the body as its mark lies, so that it passes through the mark.
func (d *drawing) levels() {
	from, to := d.extent()
	for _, l := range levelsRead() {
		y, ok := d.length(l.figure)
		if !ok {
			continue
		}
		depth := d.picture.DepthOf(l.mark, 0)
		d.line(l.style.For(l.guide, string(l.guide)), d.at(from, y+d.rise(l.figure, from), depth), d.at(to, y+d.rise(l.figure, to), depth))
	}
}

// rise returns how much higher a level lies at x than at mid-wheelbase: only the belt slopes.
func (d *drawing) rise(f segments.Figure, x geom.Wheels) geom.Wheels {
	v, ok := d.read(segments.BeltRise)
	if !ok || f != segments.Belt {
		return 0
	}
	return (x - d.base/2) * geom.Wheels(geom.Degrees(v.Value).Tan())
}

// pillar draws the A-pillar through its marks and on to its aim on the front axle's vertical.
func (d *drawing) pillar() {
	aim, ok := d.length(segments.PillarAim)
	low, one := d.picture.Mark(reading.APillar, 0)
	high, two := d.picture.Mark(reading.APillar, 1)
	if !ok || !one || !two {
		return
	}
	end := d.at(0, aim, 0)
	d.line(counting.AimLine().For("pillar", "pillar-aim"), d.onPage(low), end)
	d.line(counting.PillarLine().For("pillar", "pillar"), d.onPage(low), d.onPage(high))
	if d.box.Contains(geom.BoxOf(end)) {
		d.Circle(counting.RingLine().For("pillar", "pillar-mark"), draft.Circle{Centre: end, R: .9})
	}
}

// ends draws where nose, tail and side glass end. Nose and tail stand on the centre plane: a line over the ground joins them to their
// brackets in the wheels' plane.
func (d *drawing) ends() {
	for i, f := range []segments.Figure{segments.FrontOverhangAxle, segments.RearOverhangAxle} {
		x, ok := d.length(f)
		n := []reading.Name{reading.Nose, reading.Tail}[i]
		mark, set := d.picture.Mark(n, 0)
		if x = -x; i == 1 {
			x = d.base - x
		}
		if !ok || !set {
			continue
		}
		foot := d.at(x, 0, d.picture.DepthOf(n, 0))
		style, id := counting.GuideLine(), n.String()
		d.line(style.For("overhangs", id), foot, d.onPage(mark))
		d.line(counting.RimLine().For("overhangs", ""), foot, d.at(x, 0, 0))
		tip := d.onPage(mark)
		if d.shows(tip) {
			d.Circle(counting.RingLine().For("overhangs", ""), draft.Circle{Centre: tip, R: .7})
		}
	}
	if x, ok := d.length(segments.GlassEnd); ok {
		depth := d.picture.DepthOf(reading.GlassEnd, 0)
		end := d.base + d.q/2 + x
		low, high := geom.Wheels(1), geom.Wheels(2)
		if y, ok := d.length(segments.Belt); ok {
			low, high = y-.25, y+.75
		}
		if y, ok := d.length(segments.Height); ok {
			high = y + .1
		}
		d.line(counting.GlassLine().For("glass", "glass-end"), d.at(end, low, depth), d.at(end, high, depth))
	}
}

// bracketDrop is how far below the ground brackets lie, in wheels.
const bracketDrop geom.Wheels = .14

// bracket is a length along the ground, from one x to another.
type bracket struct {
	figure   segments.Figure
	name     string
	from, to geom.Wheels
}

// bracketsRead lists the lengths along the ground.
func (d *drawing) bracketsRead() []bracket {
	rear := d.base + d.q/2
	out := []bracket{{segments.WheelsBetween, "wheels between", .5, d.base - d.q/2}}
	if x, ok := d.length(segments.FrontOverhang); ok {
		out = append(out, bracket{segments.FrontOverhang, "front overhang", -.5 - x, -.5})
	}
	if x, ok := d.length(segments.RearOverhang); ok {
		out = append(out, bracket{segments.RearOverhang, "rear overhang", rear, rear + x})
	}
	return out
}

// brackets draws them, in the wheels' plane.
func (d *drawing) brackets() {
	style := draft.TickLine()
	for _, b := range d.bracketsRead() {
		d.line(style.For("ticks", ""), d.at(b.from, -bracketDrop, 0), d.at(b.to, -bracketDrop, 0))
		for _, x := range []geom.Wheels{b.from, b.to} {
			d.line(style.For("ticks", ""), d.at(x, -bracketDrop-.05, 0), d.at(x, 0, 0))
		}
	}
}

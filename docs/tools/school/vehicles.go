package main

import (
	"fmt"
	"image/color"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/segments"
)

// The school, its vehicles and its students are invented.
const school = "Tarnholt"

// car is one vehicle, and how it was photographed and marked.
type car struct {
	name, segment, tyre string
	pins                string // "height=2.3w belt-rise=3"
	colour              color.RGBA
	shot                shot
}

// shot is how a picture was taken.
type shot struct {
	distance  float64      // m from the near side of the vehicle
	lens      float64      // mm, for 35 mm film
	turn      geom.Degrees // off square-on, positive: the camera stands farther back
	eye       float64      // m above the road
	aim       float64      // share of the wheelbase that the lens points at
	roll      geom.Degrees
	sunk      float64 // wheels that the tyres are flattened by
	right     bool    // the vehicle faces right
	cropped   bool    // the marks file says so, and no focal length
	far       bool    // the far tyres are marked
	ground    bool    // where the tyres meet the road is marked
	cutLeft   int     // pixels that were cut off
	cutBottom int
}

// cars lists them in the order of their names.
func cars() []car {
	paint := func(r, g, b uint8) color.RGBA { return color.RGBA{r, g, b, 255} }
	return []car{
		{"averle", "crossover", "225/60R17", "wheels-between=2.80 height=2.33w front-overhang=.75w rear-overhang=.70w sill=.40w glass-end=-.10w",
			paint(178, 60, 42), shot{distance: 28, lens: 180, turn: 2, eye: 1.2, aim: .5, sunk: .012, far: true, ground: true}},
		{"bontry", "crossover", "215/65R17", "wheels-between=2.72 height=2.40w front-overhang=.72w rear-overhang=.66w sill=.42w width=2.58w",
			paint(214, 208, 190), shot{distance: 24, lens: 155, turn: -4, eye: 1.1, aim: .46, roll: .4, sunk: .010, far: true, ground: true}},
		{"cassim", "crossover", "235/50R19", "wheels-between=2.90 height=2.26w front-overhang=.80w rear-overhang=.74w sill=.36w greenhouse-to-body=.50",
			paint(58, 84, 112), shot{distance: 34, lens: 220, turn: 1, eye: 1.3, aim: .52, sunk: .011, far: true}},
		{"dovrel", "suv", "235/60R18", "wheels-between=2.84 height=2.36w front-overhang=.66w rear-overhang=.74w sill=.39w",
			paint(92, 108, 78), shot{distance: 15, lens: 98, turn: 8, eye: 1.5, aim: .55, sunk: .013, far: true, ground: true}},
		{"elmsk", "crossover", "225/55R18", "wheels-between=2.78 height=2.37w front-overhang=.77w rear-overhang=.62w sill=.43w pillar-rake=31",
			paint(196, 150, 62), shot{distance: 24, lens: 155, turn: -3, eye: 1.2, aim: .5, roll: -.3, sunk: .024, far: true, ground: true}},
		{"farrop", "crossover", "225/60R17", "wheels-between=2.86 height=2.31w front-overhang=.79w rear-overhang=.72w sill=.38w belt-rise=4.4",
			paint(126, 132, 138), shot{distance: 32, lens: 205, turn: 3, eye: 1.25, aim: .5, sunk: .010, right: true, far: true, ground: true}},
		{"gulvane", "crossover", "235/55R18", "wheels-between=2.75 height=2.42w front-overhang=.70w rear-overhang=.76w sill=.44w",
			paint(60, 108, 112), shot{distance: 20, lens: 125, turn: -10, eye: 1.35, aim: .5, sunk: .012, far: true, ground: true}},
		{"hestrin", "suv", "225/65R17", "wheels-between=2.76 height=2.34w front-overhang=.68w rear-overhang=.68w sill=.41w glass-end=-.06w",
			paint(146, 84, 96), shot{distance: 19, lens: 115, turn: 2, eye: 1.3, aim: .5, sunk: .009, far: true, ground: true,
				cropped: true, cutLeft: 150, cutBottom: 160}},
		{"ilvory", "crossover", "235/55R18", "wheels-between=2.82 height=2.29w front-overhang=.82w rear-overhang=.69w sill=.37w width=2.66w",
			paint(228, 228, 224), shot{distance: 30, lens: 190, turn: -1, eye: 1.15, aim: .48, sunk: .012, far: true}},
	}
}

// plan solves the vehicle.
func (c car) plan() (layout.Plan, error) {
	profile, err := segments.Find(c.segment)
	if err != nil {
		return layout.Plan{}, err
	}
	tyre, err := segments.ParseTyre(c.tyre)
	if err != nil {
		return layout.Plan{}, err
	}
	own := *profile
	own.SetTyres(tyre, tyre)
	pins, err := parsePins(c.pins)
	if err != nil {
		return layout.Plan{}, fmt.Errorf("%s: %w", c.name, err)
	}
	return layout.Solve(segments.Brief{Profile: &own, Pins: pins})
}

// camera is a view's camera, and how its picture becomes pixels.
type camera struct {
	view.Camera
	right, up, forward view.Point3
	focal              float64 // pixels
	centre             geom.Point[float64]
	width, height      int
	mirrored           bool
	sunk               float64
}

// The size of a picture before anything is cut off it.
const wide, high = 1920, 1280

// camera places the shot before the vehicle: eye and aim in plan space, with the road at the height by which the tyres are flattened.
func (s shot) camera(p layout.Plan) camera {
	wheel := float64(p.Profile.Wheel.Diameter) / 1000
	near := view.NewSolid(p).Wheels()[0].Centre.Z
	sin, cos := math.Sincos(s.turn.Radians())
	aim := view.Point3{X: p.Wheelbase() * geom.Wheels(s.aim), Y: .52 * p.Height(), Z: near}
	d := geom.Wheels(s.distance / wheel)
	eye := view.Point3{X: aim.X + d*geom.Wheels(sin), Y: geom.Wheels(s.eye/wheel + s.sunk), Z: aim.Z + d*geom.Wheels(cos)}
	forward := aim.Sub(eye).Unit()
	level := view.Point3{X: geom.Wheels(cos), Z: geom.Wheels(-sin)}
	up := level.Cross(forward)
	turn, off := math.Sincos(s.roll.Radians())
	right := level.Times(off).Add(up.Times(turn))
	c := camera{
		Camera: view.Sighted(eye, right, forward), right: right, up: right.Cross(forward), forward: forward,
		focal:  s.lens / 43.267 * math.Hypot(wide, high),
		centre: geom.Point[float64]{X: wide / 2, Y: high / 2}, width: wide, height: high, mirrored: s.right, sunk: s.sunk,
	}
	c.centre.X -= float64(s.cutLeft)
	c.width -= s.cutLeft
	c.height -= s.cutBottom
	return c
}

// pixel returns where the picture shows a place, before it is turned to face right.
func (c *camera) pixel(p view.Point3) geom.Point[float64] {
	at := c.Project(p)
	return geom.Point[float64]{X: c.centre.X + c.focal*float64(at.X), Y: c.centre.Y + c.focal*float64(at.Y)}
}

// ray returns the direction in which the picture's place lies.
func (c *camera) ray(x, y float64) view.Point3 {
	return c.forward.Add(c.right.Times((x - c.centre.X) / c.focal)).Add(c.up.Times(-(y - c.centre.Y) / c.focal))
}

package main

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// hand is how far a person's marks lie off, one standard deviation, in pixels.
const hand = 1.8

// clicks are the points that a person marks on a picture, in pixels.
type clicks map[reading.Name][]geom.Point[float64]

// marked returns the true points of the solid as the picture shows them. Nothing is off yet.
func marked(c car, r *relief, cam camera) clicks {
	out := clicks{}
	set := func(n reading.Name, points ...view.Point3) {
		for _, q := range points {
			out[n] = append(out[n], cam.pixel(q))
		}
	}
	p := r.plan
	for i, w := range r.wheels[:2] {
		set(reading.TyreFront+reading.Name(i), onTyre(w.Centre, w.Radius, 20, -6, -32, 47, 133, 160, 186, 212)...)
		if c.shot.far {
			set(reading.FarFront+reading.Name(i), r.farPoints(cam, i+2)...)
		}
		if c.shot.ground {
			set(reading.Ground, view.Point3{X: w.Centre.X, Y: geom.Wheels(cam.sunk), Z: w.Centre.Z})
		}
	}
	out[reading.Nose] = []geom.Point[float64]{r.extreme(cam, func(q geom.Point[float64]) float64 { return -q.X })}
	out[reading.Tail] = []geom.Point[float64]{r.extreme(cam, func(q geom.Point[float64]) float64 { return q.X })}
	out[reading.Roof] = []geom.Point[float64]{r.extreme(cam, func(q geom.Point[float64]) float64 { return -q.Y })}
	base, foot, head := p.Wheelbase(), p.PillarFoot(), p.PillarHead()
	for _, x := range []geom.Wheels{foot.X + .25, base * .8} {
		set(reading.BeltLine, r.side(layout.Point{X: x, Y: p.BeltAt(x)}))
	}
	set(reading.SillEdge, r.side(layout.Point{X: base / 2, Y: p.Sill() + .001}))
	set(reading.APillar, r.side(foot), r.side(head))
	lines := r.solid.Lines()
	line := func(name string) []view.Point3 {
		i := slices.IndexFunc(lines, func(l view.Line) bool { return l.Name == name })
		return lines[i].Points
	}
	set(reading.GlassEnd, slices.MaxFunc(line("glass-left"), func(a, b view.Point3) int { return cmp.Compare(a.X, b.X) }))
	for n, ends := range r.lamps(lines, cam) {
		out[reading.FrontLamp+reading.Name(n)] = ends[:]
	}
	set(reading.ArchFront, r.archTop(0))
	set(reading.ArchRear, r.archTop(1))
	return out
}

// lamps returns the lowest and the highest point that is seen of the front and of the rear lamp.
func (r *relief) lamps(lines []view.Line, cam camera) (out [2][2]geom.Point[float64]) {
	scene := view.NewScene(r.solid, cam.Camera)
	for _, l := range lines {
		if l.Kind != view.LampLine || !strings.HasSuffix(l.Name, "-left") {
			continue
		}
		var seen []geom.Point[float64]
		for _, s := range scene.Visible(l) {
			seen = append(seen, cam.loop(s.Points)...)
		}
		end := 0
		if strings.HasPrefix(l.Name, "lamp-rear") {
			end = 1
		}
		lower := func(a, b geom.Point[float64]) int { return cmp.Compare(a.Y, b.Y) }
		out[end] = [2]geom.Point[float64]{slices.MaxFunc(seen, lower), slices.MinFunc(seen, lower)}
	}
	return out
}

// onTyre returns points of a circle at angles from the rear, upwards.
func onTyre(centre view.Point3, radius geom.Wheels, angles ...float64) []view.Point3 {
	var out []view.Point3
	for _, a := range angles {
		sin, cos := math.Sincos(a * math.Pi / 180)
		out = append(out, centre.Add(view.Point3{X: radius * geom.Wheels(cos), Y: radius * geom.Wheels(sin)}))
	}
	return out
}

// farPoints returns four points low on the side of a far tyre that faces the camera, as high up as they are seen.
func (r *relief) farPoints(cam camera, i int) []view.Point3 {
	w := r.wheels[i]
	seen := func(angle float64) bool {
		q := onTyre(w.Inner, w.Radius*.985, angle)[0]
		h := r.meet(cam.Eye, q.Sub(cam.Eye), cam.sunk)
		return h.part == farTyre && h.wheel == i
	}
	var out []view.Point3
	for _, side := range []float64{-1, 1} {
		high := 70.
		for ; high > 34 && !seen(-90+side*high); high-- {
		}
		if high > 34 {
			out = append(out, onTyre(w.Inner, w.Radius, -90+side*(high-3), -90+side*32)...)
		}
	}
	return out
}

// side returns a place of the side view on the near side.
func (r *relief) side(q layout.Point) view.Point3 {
	return view.Point3{X: q.X, Y: q.Y, Z: geom.Wheels(r.solid.HalfWidth(q))}
}

// archTop returns the top of a wheel arch.
func (r *relief) archTop(i int) view.Point3 {
	a := r.arches[i]
	return r.side(layout.Point{X: a.Centre.X, Y: a.Centre.Y + geom.Wheels(a.Radius) + .001})
}

// extreme returns the point of the body's silhouette that lies farthest in a direction of the picture.
func (r *relief) extreme(cam camera, how func(geom.Point[float64]) float64) geom.Point[float64] {
	best, most := geom.Point[float64]{}, math.Inf(-1)
	try := func(x, y float64) {
		half := r.solid.HalfWidth(layout.Point{X: geom.Wheels(x), Y: geom.Wheels(y)})
		for _, z := range []geom.Wheels{half, -half} {
			if half == 0 {
				continue
			}
			q := cam.pixel(view.Point3{X: geom.Wheels(x), Y: geom.Wheels(y), Z: z})
			if v := how(q); v > most {
				best, most = q, v
			}
		}
	}
	for i, column := range r.half {
		for j := range column {
			x, y := r.x0+float64(i)*grain, float64(j)*grain
			if column[j] == 0 || i > 30 && i < len(r.half)-30 && j < len(column)-30 {
				continue
			}
			try(x, y)
			try(x+grain/3, y)
			try(x-grain/3, y)
			try(x, y+grain/3)
		}
	}
	return best
}

// shaken moves every click by what a hand is off, in pixels, and turns the picture to face right where it does.
func (k clicks) shaken(seed uint64, off float64, width int, mirrored bool) clicks {
	noise := rand.New(rand.NewPCG(seed, 15))
	out := clicks{}
	for _, n := range reading.Names() {
		for _, q := range k[n] {
			q.X += off * noise.NormFloat64()
			q.Y += off * noise.NormFloat64()
			if mirrored {
				q.X = float64(width) - q.X
			}
			out[n] = append(out[n], q)
		}
	}
	return out
}

// yaml writes the marks in the order in which they are set.
func (k clicks) yaml() string {
	var b strings.Builder
	b.WriteString("marks:\n")
	for _, n := range reading.Names() {
		var points []string
		for _, q := range k[n] {
			points = append(points, fmt.Sprintf("[%s, %s]", tenth(q.X), tenth(q.Y)))
		}
		switch {
		case len(points) == 0:
		case n.Info().Most == 1:
			fmt.Fprintf(&b, "  %s: %s\n", n, points[0])
		default:
			fmt.Fprintf(&b, "  %s: [%s]\n", n, strings.Join(points, ", "))
		}
	}
	return b.String()
}

func tenth(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// file is a marks file of a photograph.
func (c car) file(k clicks, cam camera) string {
	facing := "left"
	if c.shot.right {
		facing = "right"
	}
	text := fmt.Sprintf("# The %s of the %s school of form: invented, painted and marked by docs/tools/school.\n"+
		"kind: marks\npicture: %s.jpg\nsize: [%d, %d]\nfacing: %s\ntyre: %s\nlike: crossover\n",
		title(c.name), school, c.name, cam.width, cam.height, facing, c.tyre)
	if c.shot.cropped {
		text += "cropped: true\n"
	} else {
		text += fmt.Sprintf("focal: %.0f\n", c.shot.lens)
	}
	return text + k.yaml()
}

func title(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// parsePins reads "height=2.3w sill=.4w".
func parsePins(text string) ([]segments.Pin, error) {
	var out []segments.Pin
	for _, word := range strings.Fields(text) {
		name, value, _ := strings.Cut(word, "=")
		f, ok := segments.Lookup(name)
		if !ok {
			return nil, fmt.Errorf("no figure %s", name)
		}
		pin, err := segments.ParsePin(f, value)
		if err != nil {
			return nil, err
		}
		out = append(out, pin)
	}
	return out, nil
}

package view

import "hubrule/internal/geom"

// Seats of an open car, in wheels; judged by eye. Their backs are the side view's, as thick pads beside the centre line.
const (
	seatMiddle = .40 // of a seat, as a share of half the width
	seatHalf   = .24 // half its width
	seatRound  = .20 // depth over which its top rounds into its sides
)

// seatPanels returns every seat's back as a sheet that runs round it from front to rear.
func (s *Solid) seatPanels() []panel {
	const across = 12
	var out []panel
	for _, outline := range s.anatomy.Outline.Line("seats").Flatten(10) {
		high := outline[0].Y
		for _, q := range outline {
			high = max(high, q.Y)
		}
		half := func(y float64) float64 {
			e, _ := quarter(float64(high)+.002-y, seatRound, crownSquare)
			return seatHalf * (.5 + e/2)
		}
		p := panel{mirrors: true, at: func(q place) vertex { return s.onSeat(outline, q, half) }}
		for i := range outline {
			var column []node
			for k := range across + 1 {
				column = append(column, p.node(place{float64(i), float64(2*k)/across - 1}, noRim))
			}
			p.nodes = append(p.nodes, column)
		}
		out = append(out, p)
	}
	return out
}

// onSeat returns the point a share q.y of its half-width from a seat's middle, at place q.x along its side view, and the normal
// of the side view there, which turns evenly from corner to corner.
func (s *Solid) onSeat(outline []point, q place, half func(y float64) float64) vertex {
	last := len(outline) - 1
	i := max(0, min(last-1, int(q.x)))
	a := outline[i].Lerp(outline[i+1], q.x-float64(i))
	corner := func(i int) point { return outline[min(i+1, last)].Sub(outline[max(i-1, 0)]).Unit() }
	dir := corner(i).Lerp(corner(i+1), q.x-float64(i)).Unit()
	y := float64(a.Y)
	return vertex{point3(float64(a.X), y, seatMiddle*s.width/2+float64(q.y*half(y))), point3(-float64(dir.Y), float64(dir.X), 0)}
}

// seatLines are the edges of the seats' backs on one side.
func (s *Solid) seatLines(d side) []Line {
	var out []Line
	for _, p := range s.seatPanels() {
		for _, row := range [2]int{0, len(p.nodes[0]) - 1} {
			l := Line{Name: d.suffixed("seat")}
			for _, column := range p.nodes {
				n := column[row]
				l.add(n.leaning(Point3{Z: geom.Wheels(n.q.y)}).on(d))
			}
			out = append(out, l)
		}
	}
	return out
}

package geom

import "math"

// Setback is how far a corner is softened: it takes over Before along the line that leads into it, After along the next.
type Setback[U Scalar] struct{ Before, After U }

// End is the end of a line that a corner takes over: place, direction of travel (of length 1) and signed curvature.
type End[U Scalar] struct {
	At        Point[U]
	Dir       Point[U]
	Curvature float64 // per U, positive turns counter-clockwise in plan space
}

// Ends returns the two ends of q, both looking along the direction of travel.
func (q Quad[U]) Ends() (start, end End[U]) {
	in, out := q[1].Sub(q[0]), q[2].Sub(q[1])
	area := in.Cross(out) / 2
	bend := func(leg Point[U]) float64 {
		n := float64(leg.Len())
		if n == 0 {
			return 0
		}
		return area / (n * n * n)
	}
	return End[U]{q[0], in.Unit(), bend(in)}, End[U]{q[2], out.Unit(), bend(out)}
}

// Corner returns the one cubic that leaves a and reaches b with their tangents and curvatures.
// With legs A and B to the point where both tangents meet, the exact conditions on its handles are
//
//	a = A − 3/2·κb·b²/sin,  b = B − 3/2·κa·a²/sin
//
// solved by moving half way in each round, then by Newton's steps. It reports false where the tangents do not meet
// ahead of a and behind b, or where a handle leaves [.15, 1.8] of its leg: there the curve would bulge or fold.
// Between straight lines both handles end on the theoretical corner: curvature is zero at both ends with
// a single lobe between, which is why no bump can appear.
func Corner[U Scalar](a, b End[U]) (Cubic[U], bool) {
	step, sin := b.At.Sub(a.At), a.Dir.Cross(b.Dir)
	if math.Abs(sin) < 1e-4 { // one straight run: no corner
		return Cubic[U]{}, false
	}
	legA, legB := step.Cross(b.Dir)/sin, a.Dir.Cross(step)/sin
	if legA <= 0 || legB <= 0 {
		return Cubic[U]{}, false
	}
	ka, kb := 1.5*a.Curvature/sin, 1.5*b.Curvature/sin
	ha, hb := legA, legB
	for range 60 {
		beforeA, beforeB := ha, hb
		wantA, wantB := legA-float64(kb*hb*hb), legB-float64(ka*ha*ha)
		ha = (ha + clamp(wantA, .15*legA, 1.8*legA)) / 2
		hb = (hb + clamp(wantB, .15*legB, 1.8*legB)) / 2
		if ha == beforeA && hb == beforeB { // further rounds change nothing
			break
		}
	}
	for range 4 { // Newton's steps reach the last digit
		offA, offB := legA-float64(kb*hb*hb)-ha, legB-float64(ka*ha*ha)-hb
		det := 1 - float64(4*ka*kb*ha*hb)
		if det < .03 { // two solutions merge here: either is as wrong as the other
			return Cubic[U]{}, false
		}
		ha += (offA - float64(2*kb*hb*offB)) / det
		hb += (offB - float64(2*ka*ha*offA)) / det
	}
	off := math.Abs(legA-float64(kb*hb*hb)-ha) + math.Abs(legB-float64(ka*ha*ha)-hb)
	inside := ha > .15*legA && ha < 1.8*legA && hb > .15*legB && hb < 1.8*legB
	if !inside || !(off < 1e-12*(legA+legB)) {
		return Cubic[U]{}, false
	}
	return Cubic[U]{a.At, a.At.Add(a.Dir.Times(ha)), b.At.Sub(b.Dir.Times(hb)), b.At}, true
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }

// Blend softens the corners between lines that meet end to end; soft[i] belongs to the corner after lines[i].
// It returns line, corner, line, …, line. Set-backs that do not fit on a line shrink in proportion, and a
// corner that has no curvature-matched cubic is tightened until it has one.
func Blend[U Scalar](lines []Quad[U], soft []Setback[U]) []Cubic[U] {
	return newBlend(lines, soft).cubics(len(lines) - 1)
}

// BlendClosed is Chain for a closed figure: the last corner lies between the last line and the first.
func BlendClosed[U Scalar](lines []Quad[U], soft []Setback[U]) []Cubic[U] {
	return newBlend(lines, soft).cubics(len(lines))
}

// blend holds the set-backs at the start and the end of each line while they shrink.
type blend[U Scalar] struct {
	lines      []Quad[U]
	length     []float64
	start, end []float64
}

func newBlend[U Scalar](lines []Quad[U], soft []Setback[U]) *blend[U] {
	n := len(lines)
	c := &blend[U]{lines, make([]float64, n), make([]float64, n), make([]float64, n)}
	for i, s := range soft {
		c.end[i], c.start[(i+1)%n] = float64(s.Before), float64(s.After)
	}
	const use = .985 // of a line: a remnant of it stays between two corners
	for i, q := range lines {
		c.length[i] = math.Max(float64(q.Length()), 1e-9)
		if over := (c.start[i] + c.end[i]) / (use * c.length[i]); over > 1 {
			c.start[i] /= over
			c.end[i] /= over
		}
	}
	return c
}

// cut returns what the set-backs leave of line i.
func (c *blend[U]) cut(i int) Quad[U] {
	return c.lines[i].Cut(c.start[i]/c.length[i], 1-c.end[i]/c.length[i])
}

// corner returns the softened corner after line i.
func (c *blend[U]) corner(i int) (Cubic[U], bool) {
	_, a := c.cut(i).Ends()
	b, _ := c.cut((i + 1) % len(c.lines)).Ends()
	return Corner(a, b)
}

// tighten shrinks the set-backs of corner i to the largest share at which it has a solution. It halves the
// interval instead of stepping down, so that a corner moves smoothly with the figures behind it.
// A corner without a solution stays sharp.
func (c *blend[U]) tighten(i int) {
	next := (i + 1) % len(c.lines)
	before, after := c.end[i], c.start[next]
	try := func(share float64) bool {
		c.end[i], c.start[next] = before*share, after*share
		_, ok := c.corner(i)
		return ok
	}
	if try(1) {
		return
	}
	good, bad := 0., 1.
	for range 30 {
		if mid := (good + bad) / 2; try(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	try(good)
}

func (c *blend[U]) cubics(corners int) []Cubic[U] {
	for i := range corners {
		c.tighten(i)
	}
	var out []Cubic[U]
	for i := range c.lines {
		out = append(out, c.cut(i).Elevate())
		if i < corners {
			if corner, ok := c.corner(i); ok {
				out = append(out, corner)
			}
		}
	}
	return out
}

package geom

import "math"

// Fillet is how much a softened corner takes off its lines: Before off the one that leads into it, After off the next.
type Fillet[U Scalar] struct{ Before, After U }

// EndCondition is what a curve has to meet at one end: place, direction of travel (of length 1) and signed curvature.
type EndCondition[U Scalar] struct {
	At        Point[U]
	Dir       Point[U]
	Curvature float64 // per U, positive turns counter-clockwise in plan space
}

// Ends returns the two ends of q, both looking along the direction of travel.
func (q Quad[U]) Ends() (start, end EndCondition[U]) {
	in, out := q[1].Sub(q[0]), q[2].Sub(q[1])
	area := in.Cross(out) / 2
	bend := func(leg Point[U]) float64 {
		n := float64(leg.Len())
		if n == 0 {
			return 0
		}
		return area / (n * n * n)
	}
	return EndCondition[U]{q[0], in.Unit(), bend(in)}, EndCondition[U]{q[2], out.Unit(), bend(out)}
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
func Corner[U Scalar](a, b EndCondition[U]) (Cubic[U], bool) {
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
		ha = (ha + Clamp(wantA, .15*legA, 1.8*legA)) / 2
		hb = (hb + Clamp(wantB, .15*legB, 1.8*legB)) / 2
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

// Blend softens the corners between lines that meet end to end; fillets[i] belongs to the corner after lines[i]. With as many
// fillets as lines the figure is closed: the last corner lies between the last line and the first.
// It returns line, corner, line, …, line. Fillets that do not fit on a line shrink in proportion, and a
// corner that has no curvature-matched cubic is tightened until it has one.
func Blend[U Scalar](lines []Quad[U], fillets []Fillet[U]) []Cubic[U] {
	out, _ := BlendAt(lines, fillets)
	return out
}

// BlendAt is Blend that also returns the position of each corner's middle on the line, as a Spline.
func BlendAt[U Scalar](lines []Quad[U], fillets []Fillet[U]) (Spline[U], []float64) {
	b := newBlend(lines, fillets)
	for i := range fillets {
		b.tighten(i)
	}
	var out Spline[U]
	var at []float64
	for i := range lines {
		out = append(out, b.cut(i).Elevate())
		if i < len(fillets) {
			position := float64(len(out))
			if corner, ok := b.corner(i); ok {
				out, position = append(out, corner), position+.5
			}
			at = append(at, position)
		}
	}
	return out, at
}

// blend holds what the fillets take at the start and the end of each line while they shrink.
type blend[U Scalar] struct {
	lines              []Quad[U]
	length, start, end []float64
}

func newBlend[U Scalar](lines []Quad[U], fillets []Fillet[U]) *blend[U] {
	n := len(lines)
	b := &blend[U]{lines, make([]float64, n), make([]float64, n), make([]float64, n)}
	for i, f := range fillets {
		b.end[i], b.start[(i+1)%n] = float64(f.Before), float64(f.After)
	}
	const use = .985 // of a line: a remnant of it stays between two corners
	for i, q := range lines {
		b.length[i] = math.Max(float64(q.Length()), 1e-9)
		if over := (b.start[i] + b.end[i]) / (use * b.length[i]); over > 1 {
			b.start[i] /= over
			b.end[i] /= over
		}
	}
	return b
}

// cut returns what the fillets leave of line i.
func (b *blend[U]) cut(i int) Quad[U] {
	return b.lines[i].Cut(b.start[i]/b.length[i], 1-b.end[i]/b.length[i])
}

// corner returns the softened corner after line i.
func (b *blend[U]) corner(i int) (Cubic[U], bool) {
	_, from := b.cut(i).Ends()
	to, _ := b.cut((i + 1) % len(b.lines)).Ends()
	return Corner(from, to)
}

// tighten shrinks the fillet of corner i to the largest share at which it has a solution. It halves the
// interval instead of stepping down, so that a corner moves smoothly with the figures behind it.
// A corner without a solution stays sharp.
func (b *blend[U]) tighten(i int) {
	next := (i + 1) % len(b.lines)
	before, after := b.end[i], b.start[next]
	try := func(share float64) bool {
		b.end[i], b.start[next] = before*share, after*share
		_, ok := b.corner(i)
		return ok
	}
	if !try(1) {
		good, _ := Bisect(0, 1, 30, try)
		try(good)
	}
}

// Bisect halves the interval between yes, where holds is true, and no, where it is not, a number of times.
func Bisect[T ~float64](yes, no T, rounds int, holds func(T) bool) (T, T) {
	for range rounds {
		if mid := (yes + no) / 2; holds(mid) {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes, no
}

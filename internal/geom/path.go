package geom

import (
	"math"
	"slices"
)

// Verb says what one Step of a Path does.
type Verb uint8

// The verbs of a path. ArcTo is a circular arc; it stays an arc as far as the file format has one.
const (
	MoveTo Verb = iota
	LineTo
	CurveTo
	ArcTo
	Close
)

// Step is one piece of a path, ending at To.
// CurveTo uses C1 and C2 (a cubic's control points); ArcTo uses R, Large and Sweep as an SVG path does:
// Sweep means that the angle grows in the sense from x to y of the space the path lives in.
type Step[U Scalar] struct {
	Verb         Verb
	C1, C2, To   Point[U]
	R            U
	Large, Sweep bool
}

// Path is a sequence of steps; it starts with a MoveTo and may hold several runs.
type Path[U Scalar] []Step[U]

// Move returns p with a new run started at q.
func (p Path[U]) Move(q Point[U]) Path[U] { return append(p, Step[U]{Verb: MoveTo, To: q}) }

// Line returns p with a straight line to q.
func (p Path[U]) Line(q Point[U]) Path[U] { return append(p, Step[U]{Verb: LineTo, To: q}) }

// Lines returns p with a new run through the points, which must not be empty.
func (p Path[U]) Lines(points ...Point[U]) Path[U] {
	p = slices.Grow(p, len(points)).Move(points[0])
	for _, q := range points[1:] {
		p = p.Line(q)
	}
	return p
}

// Curve returns p with a cubic to q.
func (p Path[U]) Curve(c1, c2, q Point[U]) Path[U] {
	return append(p, Step[U]{Verb: CurveTo, C1: c1, C2: c2, To: q})
}

// Arc returns p with a circular arc of radius r to q.
func (p Path[U]) Arc(r U, large, sweep bool, q Point[U]) Path[U] {
	return append(p, Step[U]{Verb: ArcTo, R: r, Large: large, Sweep: sweep, To: q})
}

// Close returns p with its last run closed.
func (p Path[U]) Close() Path[U] { return append(p, Step[U]{Verb: Close}) }

// Similarity maps points from one space to another: a uniform scale with a shift, possibly mirrored, never a shear.
type Similarity[U, V Scalar] struct {
	At     func(Point[U]) Point[V]
	Scale  float64 // V per U, > 0
	Mirror bool    // the sense from x to y turns over
}

// Transform returns p in the other space of pl.
func Transform[U, V Scalar](p Path[U], pl Similarity[U, V]) Path[V] {
	out := make(Path[V], len(p))
	for i, s := range p {
		out[i] = Step[V]{Verb: s.Verb, R: V(float64(s.R) * pl.Scale), Large: s.Large, Sweep: s.Sweep != pl.Mirror}
		if s.Verb == Close {
			continue
		}
		out[i].To = pl.At(s.To)
		if s.Verb == CurveTo {
			out[i].C1, out[i].C2 = pl.At(s.C1), pl.At(s.C2)
		}
	}
	return out
}

// Cubics returns every run of p as cubics, arcs and lines included, one slice per run.
// An arc comes out in pieces of at most a quarter turn, each within 3e-4 of its radius.
func (p Path[U]) Cubics() (runs [][]Cubic[U]) {
	p.each(func(c Cubic[U], begins bool) {
		if begins {
			runs = append(runs, nil)
		}
		last := &runs[len(runs)-1]
		*last = append(*last, c)
	})
	return runs
}

// each calls do with every cubic of p, arcs and lines included, and whether a run begins with it.
func (p Path[U]) each(do func(c Cubic[U], begins bool)) {
	var start, at Point[U]
	begins := true
	add := func(c Cubic[U]) {
		do(c, begins)
		begins = false
	}
	for _, s := range p {
		switch s.Verb {
		case MoveTo:
			begins, start = true, s.To
		case LineTo:
			add(Straight(at, s.To))
		case CurveTo:
			add(Cubic[U]{at, s.C1, s.C2, s.To})
		case ArcTo:
			for _, c := range arcCubics(at, s) {
				add(c)
			}
		case Close:
			if at != start {
				add(Straight(at, start))
			}
			at = start
			continue
		}
		at = s.To
	}
}

// ArcCentre returns the centre, start angle and signed turn (radians, positive with Sweep) of the arc s that starts at from.
func ArcCentre[U Scalar](from Point[U], s Step[U]) (c Point[U], start, turn float64) {
	half := s.To.Sub(from).Times(.5)
	d := float64(half.Len())
	h := math.Sqrt(math.Max(0, float64(s.R*s.R)-float64(d*d)))
	n := Point[U]{-half.Y, half.X}.Unit()
	if s.Large == s.Sweep {
		h = -h
	}
	c = from.Add(half).Add(n.Times(h))
	a, b := from.Sub(c), s.To.Sub(c)
	start = math.Atan2(float64(a.Y), float64(a.X))
	turn = math.Atan2(float64(b.Y), float64(b.X)) - start
	if s.Sweep && turn < 0 {
		turn += 2 * math.Pi
	}
	if !s.Sweep && turn > 0 {
		turn -= 2 * math.Pi
	}
	return c, start, turn
}

// arcCubics approximates one arc, at most a quarter turn a piece; the last piece ends exactly on s.To.
func arcCubics[U Scalar](from Point[U], s Step[U]) []Cubic[U] {
	c, start, turn := ArcCentre(from, s)
	n := max(1, int(math.Ceil(math.Abs(turn)/(math.Pi/2)-1e-9)))
	out := make([]Cubic[U], n)
	at := from
	for i := range n {
		out[i] = quarter(c, float64(s.R), start+turn*float64(i)/float64(n), turn/float64(n))
		out[i][0] = at
		at = out[i][3]
	}
	out[n-1][3] = s.To
	return out
}

// quarter is the cubic of an arc round c of radius r from angle a over turn t, |t| ≤ π/2.
func quarter[U Scalar](c Point[U], r, a, t float64) Cubic[U] {
	k := 4. / 3 * math.Tan(t/4)
	on := func(a float64) (p, d Point[U]) {
		x, y := math.Cos(a), math.Sin(a)
		return c.Add(Point[U]{U(r * x), U(r * y)}), Point[U]{U(-r * y), U(r * x)}
	}
	p, d := on(a)
	q, e := on(a + t)
	return Cubic[U]{p, p.Add(d.Times(k)), q.Sub(e.Times(k)), q}
}

// CircleCubics returns the circle round c as four cubics, clockwise on a page from three o'clock.
func CircleCubics[U Scalar](c Point[U], r U) [4]Cubic[U] {
	var out [4]Cubic[U]
	for i := range out {
		out[i] = quarter(c, float64(r), float64(i)*math.Pi/2, math.Pi/2)
	}
	return out
}

// Flatten returns every run of p as a polyline of n chords a cubic.
func (p Path[U]) Flatten(n int) (runs [][]Point[U]) {
	points, start := make([]Point[U], 0, n*len(p)+1), 0
	end := func() {
		if start < len(points) {
			runs = append(runs, points[start:len(points):len(points)])
		}
		start = len(points)
	}
	p.each(func(c Cubic[U], begins bool) {
		if begins {
			end()
			points = append(points, c[0])
		}
		for i := range n {
			points = append(points, c.At(float64(i+1)/float64(n)))
		}
	})
	end()
	return runs
}

// Polyline returns run, which must not be empty, as n chords a cubic.
func Polyline[U Scalar](run []Cubic[U], n int) []Point[U] {
	out := append(make([]Point[U], 0, 1+n*len(run)), run[0][0])
	for _, c := range run {
		for i := range n {
			out = append(out, c.At(float64(i+1)/float64(n)))
		}
	}
	return out
}

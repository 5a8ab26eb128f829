// Package tidy cleans the lines of a picture of the body: it leaves out what runs along another line and short pieces that meet none.
package tidy

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// What is too near to another line to be read as one of its own, on the canvas: the contour that runs along another line, other lines
// that do, a short piece that does; and for how long.
const (
	contourWithin geom.MM = .5
	alongWithin   geom.MM = .3
	shortWithin   geom.MM = 1.2
	alongFor      geom.MM = 1.5
	touching      geom.MM = .2
	leastPiece    geom.MM = 3 // reads as a dash
)

// stub is the length in near wheels of a short piece, which is left out where an end of it meets no other line.
const stub = .25

// rank is the order in which lines take their place: of two that run along each other the later one is left out there.
var rank = map[view.LineKind]int{
	view.PillarLine: 0, view.EdgeLine: 1, view.ArchLine: 1, view.ContourLine: 2, view.GlassLine: 3, view.LampLine: 4, view.DetailLine: 5,
}

// piece is a visible piece of a line of the body.
type piece struct {
	line   int // index into the projection's lines
	kind   view.LineKind
	points []view.ImagePoint
	length geom.MM
	fixed  bool
}

// Line is what is seen of a line of the body.
type Line struct {
	Kind  view.LineKind
	Runs  [][]view.ImagePoint
	Fixed bool // it stays whatever runs along it
}

// Canvas is where lines are drawn.
type Canvas struct {
	Focal  geom.MM             // length on the page of the image's unit
	Wheel  geom.MM             // height on the page of the nearest wheel
	Others [][]view.ImagePoint // what else is drawn there, and may be met
}

// Lines returns the runs of each line without double strokes and stray dashes. Kinds that are no lines of the body stay as they are.
func (c Canvas) Lines(lines []Line) [][][]view.ImagePoint {
	out := make([][][]view.ImagePoint, len(lines))
	var pieces []piece
	for i, l := range lines {
		if _, drawn := rank[l.Kind]; !drawn {
			out[i] = l.Runs
			continue
		}
		for _, run := range l.Runs {
			p := c.newPiece(i, l.Kind, run)
			p.fixed = l.Fixed
			pieces = append(pieces, p)
		}
	}
	slices.SortStableFunc(pieces, func(a, b piece) int {
		if shortA, shortB := a.length < c.Short(), b.length < c.Short(); shortA != shortB {
			return cmp.Compare(b.length, a.length)
		}
		return cmp.Or(cmp.Compare(rank[a.kind], rank[b.kind]), cmp.Compare(b.length, a.length))
	})
	pieces = c.withoutStubs(pieces)
	var kept []piece
	placed := c.newIndex(pieces)
	for _, p := range pieces {
		for _, q := range c.offOthers(p, placed) {
			placed.add(len(kept), q.points)
			kept = append(kept, q)
		}
	}
	for _, p := range c.withoutStubs(kept) {
		out[p.line] = append(out[p.line], p.points)
	}
	return out
}

// Length returns the length on the page of a run.
func (c Canvas) Length(run []view.ImagePoint) (out geom.MM) {
	for k := 1; k < len(run); k++ {
		out += c.length(run[k].Sub(run[k-1]).Len())
	}
	return out
}

func (c Canvas) length(l view.ImageLength) geom.MM { return geom.MM(l) * c.Focal }

func (c Canvas) toPage(p view.ImagePoint) draft.Point { return draft.Pt(c.length(p.X), c.length(p.Y)) }

// newPiece measures a run of line i.
func (c Canvas) newPiece(i int, kind view.LineKind, run []view.ImagePoint) piece {
	return piece{line: i, kind: kind, points: run, length: c.Length(run)}
}

// offOthers returns what is left of p off the lines that are kept already: where it runs along one it is left out, from where the two
// touch; where it only crosses or meets one it is not.
func (c Canvas) offOthers(p piece, lines *index) []piece {
	if p.fixed {
		return []piece{p}
	}
	run := c.fine(p.points)
	off := make([]geom.MM, len(run)) // from the nearest line along it
	for i := range run {
		before, next := c.toPage(run[max(i-1, 0)]), c.toPage(run[min(i+1, len(run)-1)])
		off[i] = lines.along(c.toPage(run[i]), next.Sub(before).Unit())
	}
	if p.length < alongFor || p.length < c.Short() && slices.Max(off) < shortWithin {
		return nil
	}
	within := alongWithin
	if p.kind == view.ContourLine {
		within = contourWithin
	}
	var out []piece
	start := 0
	keep := func(to int) {
		q := c.newPiece(p.line, p.kind, run[start:to+1])
		if q.length >= alongFor && (q.length >= c.Short() || slices.Max(off[start:to+1]) >= shortWithin) {
			out = append(out, q)
		}
	}
	cuts := slices.DeleteFunc(stretches(off, within), func(s [2]int) bool {
		return c.newPiece(p.line, p.kind, run[s[0]:s[1]+1]).length < alongFor
	})
	if len(cuts) == 0 {
		return []piece{p}
	}
	for _, s := range cuts {
		keep(s[0])
		start = s[1]
	}
	keep(len(run) - 1)
	return out
}

// stretches returns the first and the last index of each row of distances that are less than within. A row that goes down to where two
// lines touch ends there.
func stretches(off []geom.MM, within geom.MM) (out [][2]int) {
	for i := 0; i < len(off); i++ {
		j := i
		for j < len(off) && off[j] < within {
			j++
		}
		if j == i {
			continue
		}
		touches := func(d geom.MM) bool { return d <= touching }
		if from := slices.IndexFunc(off[i:j], touches); from >= 0 {
			to := j - 1
			for !touches(off[to]) {
				to--
			}
			out = append(out, [2]int{i + from, to})
		} else {
			out = append(out, [2]int{i, j - 1})
		}
		i = j
	}
	return out
}

// fine returns a run with points no further apart than its neighbours are looked for.
func (c Canvas) fine(run []view.ImagePoint) []view.ImagePoint {
	out := append(make([]view.ImagePoint, 0, len(run)+int(c.Length(run)/contourWithin)), run[0])
	for i := 1; i < len(run); i++ {
		n := max(1, math.Ceil(float64(c.length(run[i].Sub(run[i-1]).Len())/contourWithin)))
		for k := 1.; k <= n; k++ {
			out = append(out, run[i-1].Lerp(run[i], k/n))
		}
	}
	return out
}

// Short is the length on the page below which a piece is short.
func (c Canvas) Short() geom.MM { return stub * c.Wheel }

// withoutStubs leaves out short pieces of which an end lies in the middle of nowhere.
func (c Canvas) withoutStubs(pieces []piece) []piece {
	var ends []end // of short pieces, two of each
	for i, p := range pieces {
		if first, last := c.toPage(p.points[0]), c.toPage(p.points[len(p.points)-1]); !p.fixed && p.length < c.Short() && first != last {
			ends = append(ends, end{first, i, false}, end{last, i, false})
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.at.X, b.at.X) })
	for i, p := range pieces {
		c.meet(ends, i, p.points)
	}
	for _, run := range c.Others {
		c.meet(ends, -1, run)
	}
	isStub := make([]bool, len(pieces))
	for _, e := range ends {
		isStub[e.piece] = isStub[e.piece] || !e.meets || pieces[e.piece].length < leastPiece
	}
	var out []piece
	for i, p := range pieces {
		if !isStub[i] {
			out = append(out, p)
		}
	}
	return out
}

// end is an end of a short piece, and whether it meets another one.
type end struct {
	at    draft.Point
	piece int
	meets bool
}

// meet marks those of the ends, sorted by x, at which a run of another piece ends or passes.
func (c Canvas) meet(ends []end, piece int, run []view.ImagePoint) {
	for i := 1; i < len(run); i++ {
		s := chord{Segment: draft.Segment{A: c.toPage(run[i-1]), B: c.toPage(run[i])}, piece: piece}
		from, _ := slices.BinarySearchFunc(ends, min(s.A.X, s.B.X)-shortWithin, func(e end, x geom.MM) int { return cmp.Compare(e.at.X, x) })
		for k := from; k < len(ends) && ends[k].at.X <= max(s.A.X, s.B.X)+shortWithin; k++ {
			if e := &ends[k]; !e.meets && e.piece != piece {
				e.meets = s.distance(e.at) < shortWithin
			}
		}
	}
}

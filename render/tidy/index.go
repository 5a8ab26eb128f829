package tidy

import (
	"iter"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// index finds the pieces of lines near a place: their chords lie in a grid of square cells.
type index struct {
	canvas        Canvas
	origin        draft.Point
	cell          geom.MM // width of a cell, at least shortWithin
	columns, rows int
	last          []int32 // entry of each cell, counted from 1; 0: none
	entries       []entry
	chords        []chord
}

// entry is a chord in a cell.
type entry struct{ chord, before int32 }

// chord is a straight part of a piece.
type chord struct {
	draft.Segment
	direction draft.Point // of length 1; only in an index
	piece     int
}

// newIndex returns an empty index for parts of pieces.
func (c Canvas) newIndex(pieces []piece) *index {
	const most = 256 // cells along a side
	var box draft.Box
	points := 0
	for _, p := range pieces {
		for _, q := range p.points {
			box = geom.BoxOf(c.toPage(q), box.Min, box.Max)
		}
		points += len(p.points)
	}
	cell := max(shortWithin, box.Width()/most, box.Height()/most)
	x := &index{canvas: c, origin: box.Min, cell: cell, columns: int(box.Width()/cell) + 1, rows: int(box.Height()/cell) + 1}
	x.last = make([]int32, x.columns*x.rows)
	x.chords, x.entries = make([]chord, 0, points), make([]entry, 0, 2*points)
	return x
}

// around calls do with each cell of a box, as long as that returns true.
func (x *index) around(box draft.Box, do func(cell int) bool) {
	at := func(v geom.MM, cells int) int { return geom.Clamp(int(v/x.cell), 0, cells-1) }
	fromX, toX := at(box.Min.X-x.origin.X, x.columns), at(box.Max.X-x.origin.X, x.columns)
	fromY, toY := at(box.Min.Y-x.origin.Y, x.rows), at(box.Max.Y-x.origin.Y, x.rows)
	for row := fromY; row <= toY; row++ {
		for column := fromX; column <= toX; column++ {
			if !do(row*x.columns + column) {
				return
			}
		}
	}
}

// add enters a piece.
func (x *index) add(piece int, run []view.ImagePoint) {
	for i := 1; i < len(run); i++ {
		s := chord{Segment: draft.Segment{A: x.canvas.toPage(run[i-1]), B: x.canvas.toPage(run[i])}, piece: piece}
		s.direction = s.B.Sub(s.A).Unit()
		x.chords = append(x.chords, s)
		x.around(geom.BoxOf(s.A, s.B), func(cell int) bool {
			x.entries = append(x.entries, entry{int32(len(x.chords) - 1), x.last[cell]})
			x.last[cell] = int32(len(x.entries))
			return true
		})
	}
}

// near returns all chords nearer to p than shortWithin, some others, and some of them several times.
func (x *index) near(p draft.Point) iter.Seq[*chord] {
	return func(yield func(*chord) bool) {
		x.around(draft.Box{Min: p, Max: p}.Grow(shortWithin), func(cell int) bool {
			for e := x.last[cell]; e > 0; e = x.entries[e-1].before {
				if !yield(&x.chords[x.entries[e-1].chord]) {
					return false
				}
			}
			return true
		})
	}
}

// along returns how far p is from the nearest line that another one in the direction runs along; infinite where none is nearer than
// shortWithin.
func (x *index) along(p, direction draft.Point) geom.MM {
	const parallel = .94 // cosine of 20°
	out := geom.MM(math.Inf(1))
	for s := range x.near(p) {
		if math.Abs(float64(s.direction.Dot(direction))) > parallel {
			if off := s.distance(p); off < min(out, shortWithin) {
				out = off
			}
		}
	}
	return out
}

// distance returns how far p is from s.
func (s *chord) distance(p draft.Point) geom.MM {
	along := s.B.Sub(s.A)
	length := float64(along.Dot(along))
	if length == 0 {
		return p.Sub(s.A).Len()
	}
	t := min(1, max(0, float64(p.Sub(s.A).Dot(along))/length))
	return p.Sub(s.A.Lerp(s.B, t)).Len()
}

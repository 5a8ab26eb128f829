package compare

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
)

// Distances on a spread, in mm.
const (
	blockGap    geom.MM = 12   // between blocks of rows
	valueGap    geom.MM = 4    // between columns of values
	widestName  geom.MM = 24   // over a column
	leastTrack  geom.MM = 40   // of a block beside others
	narrowPitch geom.MM = 5    // of rows on half a page
	widePitch   geom.MM = 10.5 // at most
)

// divide chooses how the rows stand: those of one segment in so many blocks that half of the page holds them, all others in one block.
func (s *spreadPage) divide() {
	half := (s.Space.Min.Y+s.Space.Max.Y)/2 - s.top
	for blocks := 1; s.alike && blocks <= 3; blocks++ {
		s.intoBlocks(blocks)
		from, to := s.track()
		if s.pitch = min(narrowPitch, half/geom.MM(s.rows)); s.pitch >= s.least() && (blocks == 1 || to-from >= leastTrack) {
			return
		}
	}
	s.intoBlocks(1)
	s.pitch = min(widePitch, (s.bottom-s.top)/geom.MM(s.rows))
}

// intoBlocks divides the rows into blocks side by side, and measures the columns of the first. They are as wide as the plans' names where
// these leave room for the ranges.
func (s *spreadPage) intoBlocks(n int) {
	s.rows = (len(s.figures) + n - 1) / n
	wide := (s.Space.Width() - blockGap*geom.MM(n-1)) / geom.MM(n)
	s.left, s.right = s.Space.Min.X, s.Space.Min.X+wide
	var total geom.MM
	s.columns, s.named = nil, true
	for _, name := range s.names {
		width := draft.Name(name).Width()
		s.named = s.named && width <= widestName
		s.columns = append(s.columns, max(s.numbers, width)+valueGap)
		total += s.columns[len(s.columns)-1]
	}
	if s.named = s.named && total <= wide*.4; !s.named {
		for k := range s.columns {
			s.columns[k] = s.numbers + valueGap
		}
	}
}

// lanes is how many ranges stand under each other in a row.
func (s *spreadPage) lanes() int {
	if s.alike {
		return 1
	}
	return len(s.plans)
}

// laneGap is how far the ranges of one row stand apart at least.
const laneGap geom.MM = 1.2

// least is the smallest height of a row at which neither words nor ranges touch.
func (s *spreadPage) least() geom.MM { return max(4, laneGap*geom.MM(s.lanes()+1)) }

// track returns where the ranges of all rows are drawn.
func (s *spreadPage) track() (from, to geom.MM) {
	to = s.right - 6 - s.numbers
	for _, width := range s.columns {
		to -= width
	}
	return s.left + s.label + 4 + s.numbers + 3, to
}

// columnEnd is where the values of plan k end.
func (s *spreadPage) columnEnd(k int) geom.MM {
	end := s.right
	for _, width := range s.columns[k+1:] {
		end -= width
	}
	return end
}

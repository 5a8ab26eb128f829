package draft

import (
	"hubrule/internal/geom"
	"hubrule/render/request"
)

// enlargementOf is how much larger lettering, lines and gaps are than on A3: from A2 up the next
// step of ISO 128 and ISO 3098, 1.4 times, because a big sheet is read from further away. Sheets larger than A0, which are
// glued of tiles or come off a roll, take the steps after it: a full-size vehicle is viewed from across the room.
func enlargementOf(p request.Paper) float64 {
	switch short := min(p.Width, p.Height); {
	case short < 400:
		return 1
	case short < 1100:
		return 1.4
	case short < 2200:
		return 2
	}
	return 2.8
}

// Margins of ISO 5457 (1999 edition, 2nd-hand): 20 mm at the filing edge, 10 mm elsewhere.
const (
	FilingMargin geom.MM = 20
	OtherMargin  geom.MM = 10
	// Between the frame line and what is drawn inside it.
	frameInset geom.MM = 6
	// tileMargin is that of a large sheet which will be cut into tiles, inside all windows.
	tileMargin geom.MM = 5
	// PrinterEdge is what printers cannot reach.
	PrinterEdge geom.MM = 5
)

// spaceOf returns the drawing space of p in real millimetres.
func spaceOf(p request.Paper) Box {
	return Box{
		Min: Pt(FilingMargin, OtherMargin),
		Max: Pt(p.Width-OtherMargin, p.Height-OtherMargin),
	}
}

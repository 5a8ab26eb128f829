package request

import (
	"fmt"
	"strconv"
	"strings"

	"hubrule/internal/geom"
)

// Paper is a sheet of paper as it lies on the desk.
type Paper struct {
	Name          string // "A3", or as the user wrote a custom size
	Width, Height geom.MM
}

// Papers lists the named papers in landscape, largest first.
// A sizes are ISO 216; letter, legal and tabloid are the US sizes of ANSI/ASME Y14.1 and trade custom.
func Papers() []Paper {
	return []Paper{
		{"A1", 841, 594}, {"A2", 594, 420}, {"A3", 420, 297}, {"A4", 297, 210},
		{"tabloid", 431.8, 279.4}, {"legal", 355.6, 215.9}, {"letter", 279.4, 215.9},
	}
}

// The narrowest paper holds the title block: its 100 mm bar beside the wheel on paper, inside the margins and a frame.
// The largest is two A0 sheets, far beyond any printer.
const (
	LeastWidth  geom.MM = 180
	LeastHeight geom.MM = 105
	MostPaper   geom.MM = 2400
)

// FindPaper returns a named paper, any case, in landscape.
func FindPaper(name string) (Paper, bool) {
	for _, p := range Papers() {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Paper{}, false
}

// Named returns the name of p's size, of a custom one like "500x300mm", and whether it stands on its short side. Two names of one size are
// one.
func (p Paper) Named() (name string, upright bool) {
	side := func(l geom.MM) string { return strconv.FormatFloat(float64(l), 'f', -1, 64) }
	name = side(p.Width) + "x" + side(p.Height) + "mm"
	for _, q := range Papers() {
		turned := q.Portrait()
		stands := turned.Width == p.Width && turned.Height == p.Height
		if stands || q.Width == p.Width && q.Height == p.Height {
			name, upright = q.Name, stands
		}
	}
	return name, upright
}

// Check returns an error if no sheet can be laid out on p as it lies.
func (p Paper) Check() error {
	if p.Width < LeastWidth || p.Height < LeastHeight {
		return fmt.Errorf("paper %s is too small as it lies; at least %g x %g mm are needed for the title block and its 100 mm bar",
			p.Name, LeastWidth, LeastHeight)
	}
	if max(p.Width, p.Height) > MostPaper {
		return fmt.Errorf("paper %s is too large; at most %g mm a side", p.Name, MostPaper)
	}
	return nil
}

// Portrait returns p standing on its short side.
func (p Paper) Portrait() Paper {
	p.Width, p.Height = min(p.Width, p.Height), max(p.Width, p.Height)
	return p
}

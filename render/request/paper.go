package request

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
)

// Paper is a sheet of paper as it lies on the desk.
type Paper struct {
	Name          string // "A3", or as the user wrote a custom size
	Width, Height geom.MM
	DPI           float64 // pixels per inch of a page for a screen, which is a whole number of them; 0: the size is in millimetres
}

// pixelsIn returns a page for a screen, so many pixels wide and high.
func PixelsIn(name string, width, height int, dpi float64) Paper {
	side := func(n int) geom.MM { return geom.MM(float64(n) * float64(geom.Inch) / dpi) }
	return Paper{Name: name, Width: side(width), Height: side(height), DPI: dpi}
}

// pixels returns how many pixels a page for a screen has.
func (p Paper) pixels() (width, height int) {
	count := func(l geom.MM) int { return int(math.Round(float64(l) * p.DPI / float64(geom.Inch))) }
	return count(p.Width), count(p.Height)
}

// At returns a page for a screen at another resolution, and other papers as they are.
func (p Paper) At(dpi float64) Paper {
	if p.DPI == 0 {
		return p
	}
	width, height := p.pixels()
	return PixelsIn(p.Name, width, height, dpi)
}

// Papers lists the named papers in landscape, largest first.
// A sizes are ISO 216; letter, legal and tabloid are the US sizes of ANSI/ASME Y14.1 and trade custom.
func Papers() []Paper {
	return []Paper{
		{"A0", 1189, 841, 0}, {"A1", 841, 594, 0}, {"A2", 594, 420, 0}, {"A3", 420, 297, 0}, {"A4", 297, 210, 0}, {"A5", 210, 148, 0},
		{"tabloid", 431.8, 279.4, 0}, {"legal", 355.6, 215.9, 0}, {"letter", 279.4, 215.9, 0},
	}
}

// Margins of ISO 5457 (1999 edition, 2nd-hand): 20 mm at the filing edge, 10 mm elsewhere. Without a frame the centring marks end a gap
// outside them, with one they reach into the drawing space.
const (
	FilingMargin  geom.MM = 20
	OtherMargin   geom.MM = 10
	CentringGap   geom.MM = 1.5
	CentringReach geom.MM = 5
)

// CentringEnds returns the inner ends of the centring marks of a page: left, top, right, bottom.
func (p Paper) CentringEnds(framed bool) [4]geom.Point[geom.MM] {
	in := -CentringGap
	if framed {
		in = CentringReach
	}
	return [4]geom.Point[geom.MM]{
		{X: FilingMargin + in, Y: p.Height / 2}, {X: p.Width / 2, Y: OtherMargin + in},
		{X: p.Width - OtherMargin - in, Y: p.Height / 2}, {X: p.Width / 2, Y: p.Height - OtherMargin - in},
	}
}

// The narrowest paper holds the title block: its 100 mm bar beside the wheel on paper, inside the margins and a frame. A demonstration has
// no bar. The largest is two A0 sheets, far beyond any printer.
const (
	LeastWidth  geom.MM = 180
	LeastHeight geom.MM = 105
	MostPaper   geom.MM = 2400

	LeastProjectedWidth  geom.MM = 150
	LeastProjectedHeight geom.MM = 84
)

// The sides of a page for a screen, in pixels: fewer than 320 show nothing, and more no screen has.
const (
	LeastPixels = 320
	MostPixels  = 16384
)

// FindPaper returns a named paper, any case, in landscape.
func FindPaper(name string) (Paper, bool) {
	return slice.Find(Papers(), func(p Paper) bool { return strings.EqualFold(p.Name, name) })
}

// Named returns the name of p's size, of a custom one like "500x300mm", and whether it stands on its short side. Two names of one size are
// one.
func (p Paper) Named() (name string, upright bool) {
	if width, height := p.pixels(); p.DPI > 0 {
		return fmt.Sprintf("%dx%dpx", width, height), false
	}
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

// Check returns an error if p as it lies is too small or too large for a sheet of some kinds.
func (p Paper) Check(kinds []Kind) error {
	width, height, why := LeastWidth, LeastHeight, " are needed for the title block and its 100 mm bar"
	if onlyProjected(kinds) {
		width, height, why = LeastProjectedWidth, LeastProjectedHeight, " are needed"
	}
	switch {
	case p.Width < width || p.Height < height:
		cure := ""
		if p.DPI > 0 {
			cure = fmt.Sprintf("; it is %.0f x %.0f mm at %g dpi: --dpi %.0f is large enough", p.Width, p.Height, p.DPI,
				math.Floor(p.DPI*float64(min(p.Width/width, p.Height/height))))
		}
		return fmt.Errorf("paper %s is too small as it lies; at least %g x %g mm%s%s", p.Name, width, height, why, cure)
	case max(p.Width, p.Height) > MostPaper:
		cure := ""
		if p.DPI > 0 {
			cure = fmt.Sprintf(": --dpi %.0f is small enough", math.Ceil(p.DPI*float64(max(p.Width, p.Height)/MostPaper)))
		}
		return fmt.Errorf("paper %s is too large; at most %g mm a side%s", p.Name, MostPaper, cure)
	}
	return nil
}

// Cure is what to do where a sheet has no room.
func (p Paper) Cure() string {
	if p.DPI > 0 {
		return "use a lower --dpi"
	}
	return "use larger paper"
}

// Portrait returns p standing on its short side.
func (p Paper) Portrait() Paper {
	p.Width, p.Height = min(p.Width, p.Height), max(p.Width, p.Height)
	return p
}

// Landscape returns p lying on its long side.
func (p Paper) Landscape() Paper {
	p.Width, p.Height = max(p.Width, p.Height), min(p.Width, p.Height)
	return p
}

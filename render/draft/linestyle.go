package draft

import (
	"fmt"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// Role is what a line or word is for; an ink set gives each role a colour.
type Role uint8

// The roles.
const (
	Strong   Role = iota // ground, tyres, rules
	Plain                // most guides
	Muted                // axle lines
	Body                 // the silhouette
	Soft                 // what else of the body is drawn
	Accent               // the A-pillar; the second vehicle of an overlay
	Contrast             // the third vehicle of an overlay
	Words
	notes
)

// Inks holds one colour a role, and the fills; a nil fill is left out.
type Inks struct {
	Colours          [notes + 1]render.Colour
	Body, Side, Wash *render.Colour // body fill, side glass, A-pillar band
}

// hex reads "#rrggbb"; the literals of this file are all well-formed.
func hex(s string) render.Colour {
	v, err := strconv.ParseUint(s[1:], 16, 24)
	if err != nil {
		panic(fmt.Sprintf("draft: colour %q", s))
	}
	return render.Colour{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}
}

// hexes reads the colours of all roles, separated by spaces.
func hexes(s string) (out [notes + 1]render.Colour) {
	for i, colour := range strings.Fields(s) {
		out[i] = hex(colour)
	}
	return out
}

// InksOf returns the colours of a set. The thinner a line, the darker its ink; grey keeps every
// guide through a hard copy at threshold 158 of 255, pale is gone at 140.
func InksOf(i request.Ink) Inks {
	tint := func(s string) *render.Colour { c := hex(s); return &c }
	switch i {
	case request.Dark:
		return Inks{
			Colours: hexes("#1f252b #49525a #656f78 #7f8890 #a9b1b8 #b23c22 #1d5f96 #1f252b #565f67"),
			Body:    tint("#f5f6f7"), Side: tint("#e8ebee"), Wash: tint("#f7e8e3"),
		}
	case request.Grey:
		return Inks{Colours: hexes("#6a6a6a #808080 #929292 #a6a6a6 #b4b4b4 #808080 #929292 #6a6a6a #808080")}
	case request.Pale:
		return Inks{Colours: hexes("#6cb6da #8fcbe6 #a4dded #b2e1ef #bfe6f1 #8fcbe6 #a4dded #6cb6da #8fcbe6")}
	}
	panic("draft: no inks " + string(i))
}

// The widths of ISO 128, each the one before it times the square root of two, on A3: most lines are 4 : 2 : 1.
const (
	Wide       geom.MM = .5
	MediumWide geom.MM = .35
	Narrow     geom.MM = .25
	Fine       geom.MM = .18
	Hair       geom.MM = .13
)

// LineStyle is how one guide is drawn. Dashes are in line widths after ISO 128; chain dots are two
// widths long, because printers drop the standard's half width and the axle line turns into the roof's.
type LineStyle struct {
	Width geom.MM
	Dash  []float64
	Role  Role
}

// Line is a style of line with the guide and the id of what is drawn in it. Marks without a name have an empty id.
type Line struct {
	LineStyle
	Guide request.Guide
	ID    string
}

// For returns the style k for a line of a guide.
func (k LineStyle) For(guide request.Guide, id string) Line { return Line{k, guide, id} }

// Lighter is how a line is drawn that stood there before: in a hair line, so that a copy still teaches.
func (k LineStyle) Lighter() LineStyle {
	k.Width = Hair
	if k.Role == Accent {
		k.Role = Plain
	}
	return k
}

// Heavier is how a step's own line is drawn.
func (k LineStyle) Heavier() LineStyle {
	switch {
	case k.Dash == nil && k.Width > Hair:
		k.Width = Wide
	case k.Width > Hair:
		k.Width = Narrow
	}
	if k.Role == Body || k.Role == Soft {
		k.Role = Strong
	}
	return k
}

// NewLineStyle returns a style of line; the dashes, in line widths, alternate with gaps. Without dashes the line is solid.
func NewLineStyle(width geom.MM, role Role, dash ...float64) LineStyle {
	return LineStyle{Width: width, Dash: dash, Role: role}
}

// The styles of line that every sheet has.
func RuleLine() LineStyle       { return NewLineStyle(Narrow, Strong) }
func TickLine() LineStyle       { return NewLineStyle(Hair, Strong) }
func LeaderLine() LineStyle     { return NewLineStyle(Hair, Plain) }
func TitleBlockLine() LineStyle { return NewLineStyle(Wide, Strong) }

package sheet

import (
	"fmt"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// role is what a line or word is for; an ink set gives each role a colour.
type role uint8

const (
	strong role = iota // ground, tyres, rules
	plain              // most guides
	middle             // axle lines
	soft               // the outline
	accent             // the A-pillar
	words
	notes
)

// inkSet holds one colour a role, and the fills; a nil fill is left out.
type inkSet struct {
	colours          [notes + 1]render.Colour
	body, side, wash *render.Colour // body fill, side glass, A-pillar band
}

// hex reads "#rrggbb"; the literals of this file are all well-formed.
func hex(s string) render.Colour {
	v, err := strconv.ParseUint(s[1:], 16, 24)
	if err != nil {
		panic(fmt.Sprintf("sheet: colour %q", s))
	}
	return render.Colour{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}
}

// inks returns the colours of a set. The thinner a line, the darker its ink; grey keeps every
// guide through a hard copy at threshold 158 of 255, pale is gone at 140.
func inks(i request.Ink) inkSet {
	tint := func(s string) *render.Colour { c := hex(s); return &c }
	switch i {
	case request.Dark:
		return inkSet{
			colours: [...]render.Colour{hex("#1f252b"), hex("#49525a"), hex("#656f78"), hex("#a9b1b8"), hex("#b23c22"), hex("#1f252b"), hex("#565f67")},
			body:    tint("#f5f6f7"), side: tint("#e8ebee"), wash: tint("#f7e8e3"),
		}
	case request.Grey:
		return inkSet{colours: [...]render.Colour{hex("#6a6a6a"), hex("#808080"), hex("#929292"), hex("#b4b4b4"), hex("#808080"), hex("#6a6a6a"), hex("#808080")}}
	case request.Pale:
		return inkSet{colours: [...]render.Colour{hex("#6cb6da"), hex("#8fcbe6"), hex("#a4dded"), hex("#bfe6f1"), hex("#8fcbe6"), hex("#6cb6da"), hex("#8fcbe6")}}
	}
	panic("sheet: no inks " + string(i))
}

// The widths of ISO 128, 4 : 2 : 1, on A3.
const (
	wide   geom.MM = .5
	narrow geom.MM = .25
	hair   geom.MM = .13
)

// lineKind is how one guide is drawn. Dashes are in line widths after ISO 128; chain dots are two
// widths long, because printers drop the standard's half width and the axle line turns into the roof's.
type lineKind struct {
	width geom.MM
	dash  []float64
	role  role
}

// The kinds of line.
func groundLine() lineKind    { return lineKind{wide, nil, strong} }
func tyreLine() lineKind      { return lineKind{wide, nil, strong} }
func rimLine() lineKind       { return lineKind{hair, nil, plain} }
func countedLine() lineKind   { return lineKind{narrow, []float64{12, 3}, plain} }
func spareLine() lineKind     { return lineKind{narrow, []float64{1.2, 3}, plain} }
func axleLine() lineKind      { return lineKind{narrow, []float64{24, 3, 2, 3}, middle} }
func roofLine() lineKind      { return lineKind{narrow, []float64{24, 3}, plain} }
func sillLine() lineKind      { return lineKind{narrow, []float64{6, 3}, plain} }
func clearanceLine() lineKind { return lineKind{narrow, []float64{2, 2}, plain} }
func glassLine() lineKind     { return lineKind{narrow, []float64{24, 3, 6, 3}, plain} }
func angleLine() lineKind     { return lineKind{narrow, []float64{16, 4}, accent} }
func guideLine() lineKind     { return lineKind{narrow, nil, plain} } // belt, arches, lamps, nose, tail
func pillarLine() lineKind    { return lineKind{wide, nil, accent} }
func aimLine() lineKind       { return lineKind{narrow, []float64{24, 3, 2, 3, 2, 3}, accent} }
func bandLine() lineKind      { return lineKind{hair, nil, accent} }
func ringLine() lineKind      { return lineKind{narrow, nil, accent} }
func outlineLine() lineKind   { return lineKind{narrow, nil, soft} }
func detailLine() lineKind    { return lineKind{hair, nil, soft} }
func dashedLine() lineKind    { return lineKind{hair, []float64{12, 6}, soft} }
func levelLine() lineKind     { return lineKind{hair, nil, plain} }
func ruleLine() lineKind      { return lineKind{narrow, nil, strong} }
func tickLine() lineKind      { return lineKind{hair, nil, strong} }
func leaderLine() lineKind    { return lineKind{hair, nil, plain} }
func stripLine() lineKind     { return lineKind{wide, nil, strong} }

// The kinds of line that only perspectives have.
func gridLine() lineKind         { return lineKind{hair, nil, soft} }
func horizonLine() lineKind      { return lineKind{narrow, []float64{24, 3, 2, 3}, middle} }
func boxLine() lineKind          { return lineKind{hair, nil, plain} }
func behindLine() lineKind       { return lineKind{hair, []float64{9, 7}, plain} }
func contourLine() lineKind      { return lineKind{.35, nil, soft} }
func sectionLine() lineKind      { return lineKind{hair, nil, soft} }
func centreLine() lineKind       { return lineKind{narrow, []float64{24, 3, 2, 3}, soft} }
func hiddenPillarLine() lineKind { return lineKind{narrow, []float64{6, 4}, accent} }
func innerLine() lineKind        { return lineKind{narrow, nil, strong} }
func spareEdge() lineKind        { return lineKind{narrow, []float64{10, 8}, strong} }
func hiddenLine() lineKind       { return lineKind{hair, []float64{10, 8}, strong} }

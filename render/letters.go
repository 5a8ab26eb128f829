package render

import (
	"math"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

// Outlines returns the outlines of the letters of each span where they stand on the page, to be filled by the nonzero rule.
func (t *Text) Outlines() []Path {
	sin, cos := math.Sincos(t.Angle.Radians())
	ahead := Point{X: geom.MM(math.Round(cos*1e6) / 1e6), Y: geom.MM(math.Round(-sin*1e6) / 1e6)} // as in a PDF
	up := Point{X: ahead.Y, Y: -ahead.X}
	at := t.At.Sub(ahead.Times(float64(t.BeforeAnchor())))
	var out []Path
	for _, s := range t.Spans {
		unit := float64(fonts.Size(s.Height)) / fonts.UnitsPerEm
		letters := Path{}
		for _, g := range fonts.Shape(s.Text, s.Weight) {
			letters = append(letters, geom.Transform(fonts.Outline(g, s.Weight), geom.Similarity[fonts.Units, geom.MM]{Scale: unit,
				At: func(p geom.Point[fonts.Units]) Point {
					return at.Add(ahead.Times(float64(float64(p.X) * unit))).Add(up.Times(float64(float64(p.Y) * unit)))
				}})...)
			at = at.Add(ahead.Times(float64(float64(g.Advance+g.Kern) * unit)))
		}
		out = append(out, letters)
	}
	return out
}

package fonts

import (
	"fmt"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hubrule/internal/geom"
)

// Units is a length in font units, of which UnitsPerEm make an em.
type Units float64

// Outline returns the outline of g's letter in weight w: closed runs whose inside is filled (nonzero), in font units,
// x right and y up from the letter's origin on the baseline. A space has none.
func Outline(g Glyph, w Weight) geom.Path[Units] {
	f := faceOf(w)
	if g.Fallback {
		f = CurrentFallback().face
	}
	f.lock.Lock()
	defer f.lock.Unlock()
	var out geom.Path[Units]
	var at geom.Point[Units]
	for i, s := range must(f.font.LoadGlyph(&f.buffer, sfnt.GlyphIndex(g.Index), oneEm, nil)) {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				out = out.Close()
			}
			at = unitsOf(s.Args[0])
			out = out.Move(at)
		case sfnt.SegmentOpLineTo:
			at = unitsOf(s.Args[0])
			out = out.Line(at)
		case sfnt.SegmentOpQuadTo:
			c := geom.Quad[Units]{at, unitsOf(s.Args[0]), unitsOf(s.Args[1])}.Elevate()
			at = c[3]
			out = out.Curve(c[1], c[2], at)
		default: // cubics are for faces of another kind
			panic(fmt.Sprintf("fonts: outline with operation %d", s.Op))
		}
	}
	if len(out) > 0 {
		out = out.Close()
	}
	return out
}

// unitsOf turns y up: sfnt lets it run down.
func unitsOf(p fixed.Point26_6) geom.Point[Units] {
	return geom.Point[Units]{X: Units(p.X), Y: Units(-p.Y)}
}

// Package fonts holds the one face of the sheets, IBM Plex Sans Condensed, and measures words in it.
//
// Words are measured here and nowhere else, from the face's own advances and kerning, so that a label
// placed by this package comes out in the same place from every writer. Heights are those of a capital
// letter, as lettering is specified on drawings (ISO 3098), never sizes of an em.
//
// The face is licensed under the SIL Open Font License 1.1, see OFL.txt.
package fonts

import (
	_ "embed"

	"hubrule/internal/geom"
)

// Weight is a weight of the face, on the usual scale of 100 to 900.
type Weight uint16

// The three weights that are embedded.
const (
	Regular  Weight = 400
	Medium   Weight = 500
	SemiBold Weight = 600
)

// Weights returns the embedded weights, lightest first.
func Weights() []Weight { return []Weight{Regular, Medium, SemiBold} }

// Family is the name of the face as installed fonts spell it.
const Family = "IBM Plex Sans Condensed"

// UnitsPerEm is the number of font units in an em, the same in all three weights.
const UnitsPerEm = 1000

// CapHeight is the height of a capital letter in ems (OS/2 table, sCapHeight), the same in all three weights.
const CapHeight = 0.698

// Size returns the size of an em at which capital letters are of the given height.
func Size(height geom.MM) geom.MM { return height / CapHeight }

// The files lie in the program and are read where they lie: nothing writes to them.
var (
	//go:embed IBMPlexSansCondensed_400Regular.ttf
	regular []byte
	//go:embed IBMPlexSansCondensed_500Medium.ttf
	medium []byte
	//go:embed IBMPlexSansCondensed_600SemiBold.ttf
	semiBold []byte
)

// TTF returns the font file of weight w. It is shared: callers must not change it.
func TTF(w Weight) []byte { return faceOf(w).ttf }

// Width returns the width of text on paper, kerning included, in capital letters of the given height.
// A letter that the face lacks counts with the width of its empty box; see Missing.
func Width(text string, height geom.MM, w Weight) geom.MM {
	units := 0
	for _, g := range Shape(text, w) {
		units += g.Advance + g.Kern
	}
	return Size(height) * geom.MM(units) / UnitsPerEm
}

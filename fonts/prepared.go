package fonts

import (
	_ "embed" // the prepared metrics
	"strings"
)

// Parsing three faces costs a cold start more than measuring all words of a sheet, so what sheets measure lies prepared.
//
//go:generate go test -run TestPreparedMetrics -update

//go:embed prepared/400.metrics
var prepared400 metrics

//go:embed prepared/500.metrics
var prepared500 metrics

//go:embed prepared/600.metrics
var prepared600 metrics

// metrics is what the file of one weight says of the letters that have a place. All its numbers have two bytes, the
// higher first: for each place the glyph's index and its advance; then a row for each place with the kerning to every
// other, signed. It is a string, since nobody may change it.
type metrics string

// The letters of Latin-1 from the space on have a place, beside signs.
const (
	firstLetter = ' '
	letters     = 0x100 - firstLetter
)

// signs are the other letters that sheets use, each three bytes long.
const signs = "–—‘’“”…−≤≥"

// places is the number of letters that lie prepared.
const places = letters + len(signs)/3

// place returns where letter lies in metrics.
func place(letter rune) (at int, ok bool) {
	if letter < firstLetter+letters {
		return int(letter - firstLetter), letter >= firstLetter
	}
	at = strings.IndexRune(signs, letter)
	return letters + at/3, at >= 0
}

func (m metrics) glyph(letter rune, at int) Glyph {
	return Glyph{Letter: letter, Index: m.field(2 * at), Advance: int(m.field(2*at + 1))}
}

func (m metrics) kern(left, right int) int { return int(int16(m.field(places*(2+left) + right))) }

func (m metrics) field(i int) uint16 { return uint16(m[2*i])<<8 | uint16(m[2*i+1]) }

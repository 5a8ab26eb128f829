package fonts

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/bidi"
)

// visualOrder returns the letters of text as they are drawn, from left to right: those of right-to-left scripts turned
// round (Unicode Standard Annex 9), signs that are never seen left out. Letters are not joined or shaped.
func visualOrder(text string) []rune {
	letters := []rune(text)
	if HasRTL(text) {
		letters = reordered(text, letters)
	}
	return slices.DeleteFunc(letters, isInvisible)
}

// HasRTL reports whether letters of text run from right to left.
func HasRTL(text string) bool { return strings.ContainsFunc(text, isRTL) }

// firstRTL is the first letter that may run from right to left; nearly all text lies before it.
const firstRTL = 0x590

// classOf returns the bidirectional class of letter.
func classOf(letter rune) bidi.Class {
	p, _ := bidi.LookupRune(letter)
	return p.Class()
}

// isRTL reports whether letter runs, or makes others run, from right to left.
func isRTL(letter rune) bool {
	if letter < firstRTL {
		return false
	}
	switch classOf(letter) {
	case bidi.R, bidi.AL, bidi.RLE, bidi.RLO, bidi.RLI:
		return true
	}
	return false
}

// cluster is a letter with the combining marks behind it, which stay behind it wherever it goes.
type cluster struct {
	letters []rune
	level   int
}

// reordered puts letters in the order in which they are seen (rule L2).
func reordered(text string, letters []rune) []rune {
	levels := levelsOf(text, letters)
	var line []cluster
	for i, letter := range letters {
		if n := len(line); n > 0 && isMark(letter) {
			line[n-1].letters = append(line[n-1].letters, letter)
			continue
		}
		if levels[i]%2 == 1 {
			letter = []rune(bidi.ReverseString(string(letter)))[0] // brackets open to the other side
		}
		line = append(line, cluster{[]rune{letter}, levels[i]})
	}
	for level := 2; level >= 1; level-- {
		for from := 0; from < len(line); from++ {
			to := from
			for to < len(line) && line[to].level >= level {
				to++
			}
			slices.Reverse(line[from:to])
			from = max(from, to-1)
		}
	}
	var out []rune
	for _, c := range line {
		out = append(out, c.letters...)
	}
	return out
}

// levelsOf returns how deep each letter is embedded: odd ones run from right to left. The library reports the runs of
// one direction, not their levels: of two runs to the right, one of digits behind a letter that runs left belongs to
// the letters round it and is deeper (rules W2 to I2). Embeddings that a text spells out are taken for one deep.
func levelsOf(text string, letters []rune) []int {
	levels := make([]int, len(letters))
	var p bidi.Paragraph
	p.SetString("\t" + text) // a tab lies as deep as the whole paragraph (rule L1); never an error
	order, err := p.Order()
	if err != nil {
		return levels
	}
	base := order.Run(0)
	for i := range order.NumRuns() {
		run := order.Run(i)
		from, to := run.Pos() // the last one's, which is where it ends without the tab
		from, level := max(from-1, 0), 1
		switch {
		case run.Direction() == bidi.RightToLeft:
		case base.Direction() == bidi.RightToLeft:
			level = 2
		case i > 0:
			to, level = from+digits(letters[from:to]), 2
		default:
			level = 0
		}
		for k := from; k < to; k++ {
			levels[k] = level
		}
	}
	return levels
}

// digits returns how many of the letters, from the first on, are a number with its signs.
func digits(letters []rune) int {
	for i, letter := range letters {
		switch classOf(letter) {
		case bidi.EN, bidi.AN, bidi.ET, bidi.ES, bidi.CS, bidi.NSM, bidi.BN:
		default:
			return i
		}
	}
	return len(letters)
}

// softHyphen is the one sign below the combining marks that is never seen.
const softHyphen = '\u00ad'

// isInvisible reports whether letter is a format character, a joiner or a mark of direction say, or another sign that
// Unicode says is to be ignored where it is not understood, like the variation selectors behind emoji.
func isInvisible(letter rune) bool {
	if letter < 0x300 {
		return letter == softHyphen
	}
	return unicode.In(letter, unicode.Cf, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point)
}

// isMark reports whether letter stands over or under the one before it.
func isMark(letter rune) bool {
	return letter >= 0x300 && unicode.In(letter, unicode.Mn, unicode.Me)
}

package strict

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// Nearest returns the name of names closest to a mistyped word, or "" when none is near:
// a third of the word's letters may be wrong, at most three. The first of equals wins.
func Nearest(word string, names []string) string {
	letters := utf8.RuneCountInString(word)
	if letters > 100 {
		return "" // no slip of the finger
	}
	best, least, swapped := "", min(3, (letters+2)/3)+1, false
	for _, name := range names {
		d := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(name))
		// Letters that changed places are one slip, though two differ.
		same := sameLetters(word, name)
		if d < letters && (d < least || d == least && same && !swapped) {
			best, least, swapped = name, d, same
		}
	}
	return best
}

// sameLetters reports whether two words have the same letters in whatever order.
func sameLetters(a, b string) bool {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	slices.Sort(x)
	slices.Sort(y)
	return slices.Equal(x, y)
}

// Unknown is the message for a word that is no name of its kind. It suggests the nearest name, or lists all:
// unknown figure "hight"; did you mean "height"?
func Unknown(kind, word string, names []string) string {
	if near := Nearest(word, names); near != "" {
		return fmt.Sprintf("unknown %s %s; did you mean %q?", kind, Quote(word), near)
	}
	return fmt.Sprintf("unknown %s %s; want %s", kind, Quote(word), JoinOr(names))
}

// JoinOr joins alternatives: "a", "a or b", "a, b or c".
func JoinOr(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// Quote returns untrusted text in quotes, shortened to 40 characters, with nothing unprintable left.
func Quote(text string) string { return fmt.Sprintf("%q", shorten(text)) }

func shorten(text string) string {
	const most = 40
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most]) + "…"
}

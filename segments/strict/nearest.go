package strict

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// Nearest returns the name of names closest to a mistyped word, or "" when none is near: one edit in three letters, at most two (judged
// by eye). Of shorter words only case may differ: A5 is no slip for A4. The first of equals wins.
func Nearest(word string, names []string) string {
	letters := utf8.RuneCountInString(word)
	if letters > 100 {
		return "" // no slip of the finger
	}
	best, least := "", min(2, letters/3)+1
	for _, name := range names {
		edits := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(name))
		if edits == 2 && sameLetters(word, name) {
			edits = 1 // two letters changed places
		}
		if edits < least {
			best, least = name, edits
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

// fewNames is how many names a message lists besides the nearest one: judged by eye.
const fewNames = 8

// Unknown is the message for a word that is no name of its kind. It suggests the nearest name; where there is none, or where
// names are few, it lists all: unknown form "twobox"; did you mean "two-box"? want one-box, two-box or bed
func Unknown(kind, word string, names []string) string {
	text := fmt.Sprintf("unknown %s %s", kind, Quote(word))
	near := Nearest(word, names)
	if near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	}
	switch {
	case near == "":
		return text + "; want " + JoinOr(names)
	case len(names) <= fewNames:
		return text + " want " + JoinOr(names)
	}
	return text
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

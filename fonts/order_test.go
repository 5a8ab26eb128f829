package fonts

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// TestVisualOrder: what is drawn from left to right, after Unicode Standard Annex 9 (CALC by hand with its rules;
// the examples of its section on reordering, with Hebrew letters for its capitals).
func TestVisualOrder(t *testing.T) {
	hebrew := strings.NewReplacer("A", "א", "B", "ב", "C", "ג", "D", "ד", "E", "ה", "F", "ו", "`", "\u05b7")
	tests := []struct{ text, want, direction string }{
		{"", "", ""},
		{"plain words", "plain words", ""},
		{"ABC", "CBA", "rtl"},
		{"car means CAB", "car means BAC", "ltr"},
		{"CAB 318", "318 BAC", "rtl"},
		{"car CAB 318 EF", "car FE 318 BAC", "ltr"}, // digits belong to the letters round them
		{"car CAB 318", "car 318 BAC", "ltr"},
		{"car CAB 31.5%", "car 31.5% BAC", "ltr"},
		{"CAB car DEF", "FED car BAC", "rtl"},
		{"car CAB car DEF", "car BAC car FED", "ltr"},
		{"AB (C)", "(C) BA", "rtl"}, // brackets open to the other side
		{"A`BC", "CBA`", "rtl"},     // a point stays behind its letter
		{"\u200fcar AB", "BA car", "rtl"},
		{"١٢ ABC", "CBA ١٢", "rtl"},
		{"soft\u00adhyphen 👩\u200d🔧\ufe0f", "softhyphen 👩🔧", ""},
	}
	for _, tt := range tests {
		text, want := tt.text, tt.want
		if tt.direction != "" {
			text, want = hebrew.Replace(text), hebrew.Replace(want)
		}
		if got := string(visual(text)); got != want {
			t.Errorf("visual(%q) = %q, want %q", text, got, want)
		}
		if got := Direction(text); got != tt.direction {
			t.Errorf("Direction(%q) = %q, want %q", text, got, tt.direction)
		}
	}
}

func FuzzShape(f *testing.F) {
	for _, text := range []string{"car CAB", "אב (ג) 12", "\u2067א\u2069 b", "e\u0301\u0301", "\u0301", "\xff", "👩\u200d🔧", "\u202eabc", "a\u2029ב"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		seen := 0
		for _, letter := range text {
			if !unseen(letter) {
				seen++
			}
		}
		glyphs := Shape(text, Regular)
		if len(glyphs) != seen {
			t.Errorf("%d glyphs of %q, %d letters to be seen of %d", len(glyphs), text, seen, utf8.RuneCountInString(text))
		}
		if got, want := units(text, Regular), sumOf(glyphs); got != want {
			t.Errorf("units(%q) = %d, its glyphs are %d", text, got, want)
		}
	})
}

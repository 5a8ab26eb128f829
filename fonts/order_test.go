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
	tests := []struct {
		text, want string
		rtl        bool
	}{
		{"", "", false},
		{"plain words", "plain words", false},
		{"ABC", "CBA", true},
		{"car means CAB", "car means BAC", true},
		{"CAB 318", "318 BAC", true},
		{"car CAB 318 EF", "car FE 318 BAC", true}, // digits belong to the letters round them
		{"car CAB 318", "car 318 BAC", true},
		{"car CAB 31.5%", "car 31.5% BAC", true},
		{"CAB car DEF", "FED car BAC", true},
		{"car CAB car DEF", "car BAC car FED", true},
		{"AB (C)", "(C) BA", true}, // brackets open to the other side
		{"A`BC", "CBA`", true},     // a point stays behind its letter
		{"\u200fcar AB", "BA car", true},
		{"١٢ ABC", "CBA ١٢", true},
		{"soft\u00adhyphen 👩\u200d🔧\ufe0f", "softhyphen 👩🔧", false},
	}
	for _, tt := range tests {
		text, want := tt.text, tt.want
		if tt.rtl {
			text, want = hebrew.Replace(text), hebrew.Replace(want)
		}
		if got := string(visualOrder(text)); got != want {
			t.Errorf("visual(%q) = %q, want %q", text, got, want)
		}
		if got := HasRTL(text); got != tt.rtl {
			t.Errorf("HasRTL(%q) = %v", text, got)
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
			if !isInvisible(letter) {
				seen++
			}
		}
		glyphs := Shape(text, Regular)
		if len(glyphs) != seen {
			t.Errorf("%d glyphs of %q, %d letters to be seen of %d", len(glyphs), text, seen, utf8.RuneCountInString(text))
		}
	})
}

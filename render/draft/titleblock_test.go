package draft

import (
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// TestShortened: the longest beginning that fits with its dots, found by trying all of them.
func TestShortened(t *testing.T) {
	for _, text := range []string{"", "W", "Sport utility", "AVAVATo. To. 1.1", "語字語字語字",
		"אבג דהו אבג דהו", "👩\u200d🔧👩\u200d🔧", strings.Repeat("long name ", 30)} {
		for room := geom.MM(0); room < 60; room += 3 {
			w := Name(text)
			want := text
			for letters := []rune(text); fonts.Width(want, w.Height, w.Weight) > room && len(letters) > 1; {
				letters = letters[:len(letters)-1]
				want = string(letters) + "…"
			}
			got := Truncated(w, room)
			if whole := got.whole; got.Text != want || want != text && whole != text || want == text && whole != "" {
				t.Errorf("shortened(%q, %v) = %q of %q, want %q", text, room, got.Text, whole, want)
			}
		}
	}
}

// TestNameFromRightToLeft is a word of its own; what follows it keeps its order.
func TestNameFromRightToLeft(t *testing.T) {
	for heading, want := range map[string]int{"Ali": 1, "אבג": 2} {
		c := NewCanvas(request.Setting{Paper: paperCalled(t, "A3")})
		b := &Surface{Space: c.Space}
		c.TitleLine(b, Caption{Heading: heading, Sub: "trace"}, "wheel", "facing left")
		if line := b.Marks[len(b.Marks)-1].(*render.Text); len(line.Spans) != want {
			t.Errorf("the title line of %q has %d words, want %d", heading, len(line.Spans), want)
		}
	}
}

package compare_test

import (
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
)

// A letter stands for a vehicle where a name would be cut; its whole name then stands on the sheet once, after its letter. Short names need
// none, of several vehicles neither.
func TestKeysOfAnOverlay(t *testing.T) {
	t.Parallel()
	plan := func(title string, pins ...string) layout.Plan {
		p := testsheet.Pinned(t, "suv", pins...)
		p.Brief.Title = title
		return p
	}
	for _, c := range []struct {
		own     layout.Plan
		against []layout.Plan
		legend  []string // nil: without letters
		label   string
	}{
		{plan(""), []layout.Plan{plan("", "height=2.2w")}, nil, "roof, height 2.2w "},
		{plan(""), []layout.Plan{plan("Low", "height=2.2w")}, nil, "roof, Low "},
		{plan(""), []layout.Plan{plan("", "height=2.2w", "length=6.5w")}, []string{"typical", "height 2.2w, length 6.5w"}, "roof, B "},
		{plan(""), []layout.Plan{plan("A proposal with a long name", "height=2.2w")},
			[]string{"typical", "A proposal with a long name: height 2.2w"}, "roof, B "},
		{plan(""), []layout.Plan{plan("")}, []string{"typical", "typical"}, "roof 2.35"},
		{plan(""), []layout.Plan{plan("Low", "height=2.2w"), plan("High", "height=2.5w")},
			nil, "roof, High "},
		{plan(""), []layout.Plan{plan("Low", "height=2.2w"), plan("", "height=2.5w", "length=6.5w")},
			[]string{"typical", "Low: height 2.2w", "height 2.5w, length 6.5w"}, "roof, C "},
	} {
		words := wordsOf(t, request.Request{Plans: []layout.Plan{c.own}, Against: c.against, Kinds: []request.Kind{request.Overlay},
			Setting: testsheet.Setting(t, "A4")})
		if !slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, c.label) }) {
			t.Errorf("%q: no label that begins with %q in %q", c.legend, c.label, words)
		}
		for k, name := range c.legend {
			if i := slices.Index(words, string(rune('A'+k))); i < 0 || words[i+1] != name {
				t.Errorf("%q: no letter with %q in %q", c.legend, name, words)
			}
			if text := strings.Join(words, "\n"); len(name) > 10 && strings.Count(text, name) != 1 {
				t.Errorf("%q stands %d times", name, strings.Count(text, name))
			}
		}
		if c.legend == nil && slices.Contains(words, "B") {
			t.Errorf("%q: a letter", words)
		}
	}
}

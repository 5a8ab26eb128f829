package draw

import (
	"fmt"
	"strings"

	"hubrule/fonts"
	"hubrule/internal/slice"
	"hubrule/render"
)

// mostNamed is how many missing letters a warning names: judged by eye.
const mostNamed = 10

// MissingLetters returns the warning about letters of texts that no face has, each named once, in order; it is empty
// where all of them are there. It takes ten thousand names as well as one title.
func MissingLetters(texts ...string) string {
	missing := fonts.Missing(strings.Join(texts, ""))
	if len(missing) == 0 {
		return ""
	}
	named := slice.Map(missing[:min(len(missing), mostNamed)], func(letter rune) string { return fmt.Sprintf("%q", string(letter)) })
	more := ""
	if n := len(missing) - mostNamed; n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	faces := "the sheets' face; drawn as empty boxes; --font FILE adds a face"
	if fonts.CurrentFallback() != nil {
		faces = "the sheets' face nor in that of --font; drawn as empty boxes"
	}
	return fmt.Sprintf("no letter for %s%s in %s", strings.Join(named, ", "), more, faces)
}

// Words returns the words that are drawn on the pages of a document.
func Words(doc render.Document) []string {
	var out []string
	for _, p := range doc.Pages {
		for _, m := range p.Marks {
			if t, ok := m.(*render.Text); ok {
				for _, s := range t.Spans {
					out = append(out, s.Text)
				}
			}
		}
	}
	return out
}

package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/fonts"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/segments/strict"
)

// faceFlag is --font, a face of the user's own for letters that the sheets' face lacks. Every command that writes
// words of people's own has it: register it, use it before anything is measured, and tell with missingLetters.
type faceFlag struct{ path string }

func (f *faceFlag) register(c *cobra.Command) {
	c.Flags().StringVar(&f.path, "font", "", "take letters that the sheets' face lacks from this `FILE`, a TrueType font (.ttf)")
	must(c.MarkFlagFilename("font", "ttf"))
}

// mostFont is more than almost any font of one face has, in megabytes: a file larger than that is something else.
const mostFont = 32

// use reads the file, if one is named, and adds its face for the rest of the process.
func (f *faceFlag) use() error {
	if f.path == "" {
		return nil
	}
	fail := func(err error) error { return fmt.Errorf("--font %s: %w", f.path, err) }
	data, err := strict.ReadRegular(f.path, "a TrueType font, a .ttf", mostFont)
	if err != nil {
		return fail(err)
	}
	face, err := fonts.OpenFallback(data)
	if err != nil {
		return fail(err)
	}
	fonts.SetFallback(face)
	return nil
}

// mostNamed is how many missing letters a warning names: judged by eye.
const mostNamed = 10

// missingLetters returns the warning about letters of texts that no face has, each named once, in order; it is empty
// where all of them are there. It takes ten thousand names as well as one title.
func missingLetters(texts ...string) string {
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

// wordsOf returns the words that are drawn on the pages of a document.
func wordsOf(doc render.Document) []string {
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

package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"hubrule/fonts"
	"hubrule/segments/strict"
)

// faceFlag is --font, a face of the user's own for letters that the sheets' face lacks. Every command that writes
// words of people's own has it: register it, use it before anything is measured, and tell with draw.MissingLetters.
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

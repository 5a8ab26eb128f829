package cli

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"hubrule/segments/strict"
)

// pageLimit is --max-pages: a slip in a list, or in how many copies there are, does not fill the disk.
type pageLimit struct{ given string }

// usualPages is more than a class of forty draws in a year. Judged by eye.
const usualPages = 20_000

func (l *pageLimit) register(c *cobra.Command) {
	c.Flags().StringVar(&l.given, "max-pages", strconv.Itoa(usualPages), "refuse to write more than `N` pages")
}

// check refuses more pages than are allowed.
func (l *pageLimit) check(pages int) error {
	most, err := strict.Bounds{Lo: 1, Hi: 1e7, Whole: true}.Parse(l.given)
	switch {
	case err != nil:
		return usagef("--max-pages: %v", err)
	case float64(pages) > most:
		return fmt.Errorf("%d pages; want 1 to %.0f, or more with --max-pages", pages, most)
	}
	return nil
}

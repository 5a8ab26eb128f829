package cli

import (
	"strconv"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/segments/strict"
)

// pageLimit is --max-pages: a slip in a list, or in how many copies there are, does not fill the disk.
type pageLimit struct{ given string }

func (l *pageLimit) register(c *cobra.Command) {
	c.Flags().StringVar(&l.given, "max-pages", strconv.Itoa(draw.MostPages), "refuse to write more than `N` pages")
}

// most returns how many pages are allowed.
func (l *pageLimit) most() (float64, error) {
	most, err := strict.Bounds{Lo: 1, Hi: 1e7, Whole: true}.Parse(l.given)
	if err != nil {
		return 0, usagef("--max-pages: %v", err)
	}
	return most, nil
}

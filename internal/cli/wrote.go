package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/format"
	"hubrule/render/request"
)

// fileFacts are what is said of a finished file besides its name; each is left out where there is none.
type fileFacts struct {
	pages       string   // "2 pages", or the size of a picture
	papers      []string // each once
	least, most geom.MM  // wheels on paper
}

// factsOf returns what is said of file i that pages are written to in a format.
func factsOf(pages []render.Page, i int, f format.Format, options format.Options) (out fileFacts) {
	switch {
	case f.ManyPages():
		out.pages = counted(len(pages), "page")
	case f.Raster:
		width, height, _ := options.Size(pages[i]) // it was written
		out.pages, pages = fmt.Sprintf("%d x %d pixels", width, height), pages[i:i+1]
	default:
		pages = pages[i : i+1]
	}
	for _, p := range pages {
		out.add(p)
	}
	return out
}

// add takes in a page.
func (s *fileFacts) add(p render.Page) {
	name, upright := request.Paper{Width: p.Width, Height: p.Height}.Named()
	if _, known := request.FindPaper(name); !known { // a page in pixels has many decimals in millimetres
		name = draft.FormatTrimmed(float64(p.Width), 1) + "x" + draft.FormatTrimmed(float64(p.Height), 1) + "mm"
	} else if upright {
		name += " portrait"
	}
	s.merge(fileFacts{papers: []string{name}, least: p.Wheel, most: p.Wheel})
}

// merge takes in the papers and wheels of t.
func (s *fileFacts) merge(t fileFacts) {
	for _, name := range t.papers {
		if !slices.Contains(s.papers, name) {
			s.papers = append(s.papers, name)
		}
	}
	if s.least == 0 || t.least > 0 && t.least < s.least {
		s.least = t.least
	}
	s.most = max(s.most, t.most)
}

// tellWritten says that a file was written and what it holds: "wrote suv.pdf (2 pages, A3, wheel 46 mm)". Standard output, "-", needs no
// words.
func tellWritten(w io.Writer, what string, s fileFacts) {
	if what == "-" {
		return
	}
	parts := []string{s.pages, strings.Join(s.papers, " and "), ""}
	switch {
	case s.most > s.least:
		parts[2] = fmt.Sprintf("wheels %s to %s", draft.FormatTrimmed(float64(s.least), 2), draft.FormatMM(s.most))
	case s.most > 0:
		parts[2] = "wheel " + draft.FormatMM(s.most)
	}
	parts = slices.DeleteFunc(parts, func(part string) bool { return part == "" })
	if len(parts) > 0 {
		what += " (" + strings.Join(parts, ", ") + ")"
	}
	fmt.Fprintf(w, "wrote %s\n", what)
}

// counted writes a number of things: "1 page", "2 pages".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

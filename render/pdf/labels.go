package pdf

import (
	"fmt"
	"slices"
)

// pageLabels returns the catalog's entry about what pages are called, or nothing if none has a name of its own.
func (p *Writer) pageLabels() string {
	if !slices.ContainsFunc(p.pages, func(page writtenPage) bool { return page.label != "" }) {
		return ""
	}
	var b []byte
	for i, page := range p.pages {
		if page.label == "" {
			b = fmt.Appendf(b, "%d<</S/D/St %d>>", i, i+1) // its number
		} else {
			b = fmt.Appendf(b, "%d<</P%s>>", i, pdfText(page.label))
		}
	}
	return "/PageLabels<</Nums[" + string(b) + "]>>"
}

package cli

import (
	"fmt"
	"strings"

	"hubrule/internal/job"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/png"
)

// encode writes the document in one format and returns the contents of its files.
func encode(doc render.Document, f format.Format, picture png.Options) ([][]byte, error) {
	if f.Raster {
		doc.About.Job = inASCII(doc.About.Job) + job.WrittenPicture(picture)
	}
	return f.Files(doc, picture)
}

// inASCII spells letters beyond ASCII as YAML does in quotes, where those of a brief all stand: programs show the Latin-1 of a PNG as
// bytes that are no UTF-8, and many pass over its UTF-8.
func inASCII(brief string) string {
	var b strings.Builder
	for _, r := range brief {
		switch {
		case r <= 0x7e:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			fmt.Fprintf(&b, `\U%08x`, r)
		}
	}
	return b.String()
}

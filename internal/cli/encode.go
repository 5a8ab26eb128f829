package cli

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"hubrule/render"
)

// encode writes the document in one format: an SVG or a PNG a page, or one PDF.
func encode(doc render.Document, format string, picture render.PNG) ([][]byte, error) {
	var b bytes.Buffer
	if format == "pdf" {
		err := render.WritePDF(&b, doc)
		return [][]byte{b.Bytes()}, err
	}
	if format == "png" {
		doc.About.Job = inASCII(doc.About.Job) + pictureKeys(picture)
	}
	var out [][]byte
	for _, p := range doc.Pages {
		p.About = doc.About
		var b bytes.Buffer
		write := render.WriteSVG
		if format == "png" {
			write = func(w io.Writer, p render.Page) error { return render.WritePNG(w, p, picture) }
		}
		if err := write(&b, p); err != nil {
			return nil, err
		}
		out = append(out, b.Bytes())
	}
	return out, nil
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

// pictureKeys writes what a brief says of a picture.
func pictureKeys(p render.PNG) string {
	var keys string
	if p.DPI != usualDPI {
		keys += "dpi: " + strconv.FormatFloat(p.DPI, 'f', -1, 64) + "\n"
	}
	if p.Transparent {
		keys += "transparent: true\n"
	}
	return keys
}

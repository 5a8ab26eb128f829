// Package format lists the kinds of file that a document can be written as. A new writer is a folder beside this one and a line in All.
package format

import (
	"bytes"
	"io"
	"iter"

	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/render/svg"
)

// Format is one kind of file. Exactly one of document and page is set.
type Format struct {
	Name   string // "svg"; also the ending of its files, after a dot
	Noun   string // "an SVG", for messages
	Raster bool   // it takes a resolution and transparency

	Outlines bool // its words may be outlines

	Default bool // written where no name says which

	document func(w io.Writer, title string, about render.About) documentWriter
	page     func(io.Writer, render.Page, Options) error
}

// documentWriter writes the pages of one file.
type documentWriter interface {
	AddPage(render.Page) error
	Close() error
}

func newPDF(w io.Writer, title string, about render.About) documentWriter {
	return pdf.New(w, title, about)
}

// Options are choices about files, not about what is drawn.
type Options struct {
	png.Options
	Letters Letters // of a format that has outlines
}

// Letters is how words are written: as text with an embedded font, or as outlines.
type Letters string

// The ways to write words; the zero Letters is Text.
const (
	Text     Letters = "text"
	Outlines Letters = "outlines"
)

// All returns every format, in the order in which messages list them.
func All() []Format {
	return []Format{
		{Name: "svg", Noun: "an SVG", Outlines: true, page: writeSVG},
		{Name: "pdf", Noun: "a PDF", Default: true, document: newPDF},
		{Name: "png", Noun: "a PNG", Raster: true, page: func(w io.Writer, p render.Page, o Options) error {
			return png.Write(w, p, o.Options)
		}},
	}
}

// Names returns the names of the formats that are wanted, each after prefix.
func Names(prefix string, wanted func(Format) bool) []string {
	var out []string
	for _, f := range All() {
		if wanted(f) {
			out = append(out, prefix+f.Name)
		}
	}
	return out
}

// Any wants every format.
func Any(Format) bool { return true }

// IsRaster wants formats of pixels.
func IsRaster(f Format) bool { return f.Raster }

// HasOutlines wants formats whose words may be outlines.
func HasOutlines(f Format) bool { return f.Outlines }

func writeSVG(w io.Writer, p render.Page, o Options) error {
	if o.Letters == Outlines {
		return svg.WriteOutlined(w, p)
	}
	return svg.Write(w, p)
}

// Find returns the format of a name.
func Find(name string) (Format, bool) {
	return slice.Find(All(), func(f Format) bool { return f.Name == name })
}

// ManyPages reports whether one file holds all pages of a document; otherwise each page has a file of its own.
func (f Format) ManyPages() bool { return f.document != nil }

// Files returns the contents of the files that doc is written to: one, or one a page. The error says what cannot be written.
func (f Format) Files(doc render.Document, o Options) ([][]byte, error) {
	return f.FilesOf(doc, doc.Each(), o)
}

// FilesOf is Files for pages that are made one at a time, and forgotten when they are written: those of a document with photographs take
// much memory. The document's own pages are not looked at. An error of the pages ends it.
func (f Format) FilesOf(doc render.Document, pages iter.Seq2[render.Page, error], o Options) (out [][]byte, err error) {
	var b bytes.Buffer
	var document documentWriter
	if f.ManyPages() {
		document = f.document(&b, doc.Title, doc.About)
	}
	for p, err := range pages {
		switch {
		case err != nil:
		case document != nil:
			err = document.AddPage(p)
		default:
			p.About = doc.About
			var page bytes.Buffer
			err = f.page(&page, p, o)
			out = append(out, page.Bytes())
		}
		if err != nil {
			return nil, err
		}
	}
	if document != nil {
		err := document.Close()
		return [][]byte{b.Bytes()}, err
	}
	return out, nil
}

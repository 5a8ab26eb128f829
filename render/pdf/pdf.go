// Package pdf writes pages into a PDF file: a whole document by Write, page by page by a Writer.
package pdf

import (
	"bufio"
	"errors"
	"fmt"
	"hubrule/render"
	"io"
	"maps"
	"slices"
	"weak"
)

// Write writes doc as a PDF file whose pages have exactly their size, one bookmark a page, and text that can be
// selected and searched. Viewers are asked to print at 100 %. The guides are layers that a viewer can hide.
// The same document gives the same bytes on every machine.
//
// The error is w's, or says what on a page cannot be written (see Page.Check).
func Write(w io.Writer, doc render.Document) error {
	p := New(w, doc.Title, doc.About)
	for _, page := range doc.Pages {
		if err := p.AddPage(page); err != nil {
			return err
		}
	}
	return p.Close()
}

// The objects whose numbers are fixed before their contents are known; they are written last.
const (
	catalogObject = 1 + iota
	pagesObject
	resourcesObject
	fontsObject
	layersObject
	firstFreeObject
)

// Writer writes a PDF file page by page and forgets each page as soon as it is written. Close ends the file.
type Writer struct {
	out     *bufio.Writer
	at      int64   // bytes written
	offsets []int64 // of object n at n-1
	title   string
	about   render.About
	pages   []writtenPage
	used    usedGlyphs
	layers  []render.Guide // of all pages, in order of their first use
	packer  Packer
	bases   map[weak.Pointer[render.Page]]int // the objects of what pages share; the pages themselves are not kept
	shown   map[pictureKey]int                // the objects of pictures
}

type writtenPage struct {
	object                int
	chapter, title, label string
}

// New starts a PDF file on w. Title and about are what a viewer shows about the file; either may be empty.
func New(w io.Writer, title string, about render.About) *Writer {
	p := &Writer{
		out: bufio.NewWriterSize(w, 1<<14), offsets: make([]int64, firstFreeObject-1),
		title: title, about: about, used: usedGlyphs{}, bases: map[weak.Pointer[render.Page]]int{}, shown: map[pictureKey]int{},
	}
	p.printf("%%PDF-1.7\n%%\xe2\xe3\xcf\xd3\n") // four high bytes: this is no text file
	return p
}

// AddPage writes one page. After an error the file is worthless.
func (p *Writer) AddPage(page render.Page) error {
	packed, err := p.packer.Pack(page)
	if err != nil {
		return err
	}
	return p.AddPacked(packed)
}

// AddPacked writes a page that a Packer made ready. After an error the file is worthless.
func (p *Writer) AddPacked(page Packed) error {
	shown := p.picturesOf(page)
	if page.page.Base != nil {
		form, err := p.base(page.page.Base)
		if err != nil {
			return err
		}
		shown += fmt.Sprintf("%s %d 0 R", baseName, form)
	}
	resources := resourcesWith(shown)
	p.use(page)
	stream, box := p.stream("", page.content), mediaBox(page.page)
	object := p.add(fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox%s/CropBox%s/TrimBox%s/Resources %s/Contents %d 0 R>>",
		pagesObject, box, box, box, resources, stream))
	p.pages = append(p.pages, writtenPage{object, page.page.Chapter, page.page.Title, page.page.Label})
	_, err := p.out.Write(nil) // the buffer keeps the first error: a full disk ends a long run early
	return err
}

// base writes what pages share, at the first page that shares it, and returns its object.
func (p *Writer) base(shared *render.Page) (int, error) {
	known := weak.Make(shared)
	if n, ok := p.bases[known]; ok {
		return n, nil
	}
	packed, err := p.packer.Pack(*shared)
	if err != nil {
		return 0, err
	}
	p.use(packed)
	entries := fmt.Sprintf("/Type/XObject/Subtype/Form/BBox%s/Resources %s", mediaBox(packed.page), resourcesWith(p.picturesOf(packed)))
	p.bases[known] = p.stream(entries, packed.content)
	return p.bases[known], nil
}

// resourcesWith returns what a page may use: what all may, and XObjects of its own.
func resourcesWith(shown string) string {
	if shown == "" {
		return fmt.Sprintf("%d 0 R", resourcesObject)
	}
	return fmt.Sprintf("<</Font %d 0 R/Properties %d 0 R/XObject<<%s>>>>", fontsObject, layersObject, shown)
}

// mediaBox returns the rectangle of a page, in points.
func mediaBox(page render.Page) string {
	return fmt.Sprintf("[0 0 %.4f %.4f]", points(page.Width), points(page.Height))
}

// use notes the glyphs and layers of a page.
func (p *Writer) use(page Packed) {
	for font, glyphs := range page.used {
		p.used.note(font, maps.Values(glyphs))
	}
	for _, g := range page.layers {
		if !slices.ContainsFunc(p.layers, func(l render.Guide) bool { return l.Name == g.Name }) {
			p.layers = append(p.layers, g)
		}
	}
}

// Close writes what all pages share and ends the file. It does not close the writer below.
func (p *Writer) Close() error {
	if len(p.pages) == 0 {
		return errors.New("a PDF needs at least one page")
	}
	fontObjects, err := p.fonts()
	if err != nil {
		return err
	}
	layerObjects, layerNames := p.layerGroups()
	p.object(fontsObject, "<<"+fontObjects+">>")
	p.object(layersObject, "<<"+layerNames+">>")
	p.object(resourcesObject, fmt.Sprintf("<</Font %d 0 R/Properties %d 0 R>>", fontsObject, layersObject))
	kids := make([]byte, 0, 10*len(p.pages))
	for _, page := range p.pages {
		kids = fmt.Appendf(kids, "%d 0 R ", page.object)
	}
	p.object(pagesObject, fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", len(p.pages), kids))
	p.object(catalogObject, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Outlines %d 0 R%s/Lang(en)"+
		"/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>/OCProperties<</OCGs[%[4]s]/D<</Order[%[4]s]>>>>%[5]s>>",
		pagesObject, p.bookmarks(), p.metadata(), layerObjects, p.pageLabels()))
	creator := ""
	if p.about.Program != "" {
		creator = "/Creator" + pdfText(p.about.Program)
	}
	author := pdfText(p.about.Author)
	p.crossReferences(p.add(fmt.Sprintf("<</Title%s/Author%s%s/Producer(%s)>>", pdfText(p.title), author, creator, producer)))
	return p.out.Flush()
}

// layerGroups writes an optional content group for every layer and returns references to the groups, without and with the names by which
// the contents of pages call them.
func (p *Writer) layerGroups() (references, named string) {
	for _, g := range p.layers {
		reference := fmt.Sprintf(" %d 0 R", p.add("<</Type/OCG/Name"+pdfText(g.Title)+">>"))
		references += reference[1:] + " "
		named += layerName(g.Name) + reference
	}
	return references, named
}

// crossReferences ends the file with the table of where its objects stand.
func (p *Writer) crossReferences(info int) {
	start, count := p.at, len(p.offsets)+1
	p.printf("xref\n0 %d\n0000000000 65535 f \n", count)
	for _, at := range p.offsets {
		p.printf("%010d 00000 n \n", at)
	}
	p.printf("trailer\n<</Size %d/Root %d 0 R/Info %d 0 R>>\nstartxref\n%d\n%%%%EOF\n", count, catalogObject, info, start)
}

// newObject reserves the next object number.
func (p *Writer) newObject() int {
	p.offsets = append(p.offsets, 0)
	return len(p.offsets)
}

// object writes object n.
func (p *Writer) object(n int, body string) {
	p.offsets[n-1] = p.at
	p.printf("%d 0 obj\n%s\nendobj\n", n, body)
}

// add writes a new object and returns its number.
func (p *Writer) add(body string) int {
	n := p.newObject()
	p.object(n, body)
	return n
}

// stream writes compressed data as a new object, with the entries that it needs, and returns its number.
func (p *Writer) stream(entries string, data []byte) int {
	return p.add(fmt.Sprintf("<<%s/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream", entries, len(data), data))
}

func (p *Writer) printf(format string, args ...any) {
	n, _ := fmt.Fprintf(p.out, format, args...) // the buffer keeps the first error until Flush
	p.at += int64(n)
}

// fonts writes the glyphs used of every font and returns the entries of the font dictionary.
func (p *Writer) fonts() (string, error) {
	var entries []byte
	for _, w := range slices.Sorted(maps.Keys(p.used)) {
		if w == fallbackFont {
			entries = fmt.Appendf(entries, "%s %d 0 R", fontName(w), p.fallback(p.used[w]))
			break // it is the last
		}
		n, err := p.font(w)
		if err != nil {
			return "", err
		}
		entries = fmt.Appendf(entries, "%s %d 0 R", fontName(w), n)
	}
	return string(entries), nil
}

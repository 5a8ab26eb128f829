package render

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"unicode/utf16"

	"github.com/klauspost/compress/zlib"
)

// WritePDF writes doc as a PDF file whose pages have exactly their size, one bookmark a page, and text that can be
// selected and searched. Viewers are asked to print at 100 %. The guides are layers that a viewer can hide.
// The same document gives the same bytes on every machine.
//
// The error is w's, or says what on a page cannot be written (see Page.Check).
func WritePDF(w io.Writer, doc Document) error {
	p := NewPDF(w, doc.Title, doc.Author)
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
	firstFreeObject
)

// PDF writes a PDF file page by page and forgets each page as soon as it is written. Close ends the file.
type PDF struct {
	out           *bufio.Writer
	at            int64   // bytes written
	offsets       []int64 // of object n at n-1
	title, author string
	pages         []writtenPage
	letters       lettersUsed
	added         addedLetters
	layers        []Guide // of all pages, in order of their first use
	content       []byte
	packed        bytes.Buffer
	packer        *zlib.Writer
}

type writtenPage struct {
	object int
	title  string
}

// lettersUsed maps, for each weight, the glyphs drawn so far to their letters.
type lettersUsed map[Weight]map[uint16]rune

// NewPDF starts a PDF file on w. Title and author are what a viewer shows about the file; either may be empty.
func NewPDF(w io.Writer, title, author string) *PDF {
	p := &PDF{out: bufio.NewWriterSize(w, 1<<14), offsets: make([]int64, firstFreeObject-1), title: title, author: author, letters: lettersUsed{}, added: addedLetters{numbers: map[rune]uint16{}}}
	p.packer, _ = zlib.NewWriterLevel(&p.packed, zlib.BestSpeed) // fails only for levels that do not exist
	p.printf("%%PDF-1.7\n%%\xe2\xe3\xcf\xd3\n")                  // four high bytes: this is no text file
	return p
}

// AddPage writes one page. After an error the file is worthless.
func (p *PDF) AddPage(page Page) error {
	if err := page.Check(); err != nil {
		return err
	}
	p.content = p.pageContent(page)
	stream := p.stream(p.content)
	object := p.newObject()
	box := fmt.Sprintf("[0 0 %.4f %.4f]", points(page.Width), points(page.Height))
	p.object(object, fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox%s/CropBox%s/TrimBox%s/Resources %d 0 R/Contents %d 0 R>>",
		pagesObject, box, box, box, resourcesObject, stream))
	p.pages = append(p.pages, writtenPage{object, page.Title})
	_, err := p.out.Write(nil) // the buffer keeps the first error: a full disk ends a long run early
	return err
}

// Close writes what all pages share and ends the file. It does not close the writer below.
func (p *PDF) Close() error {
	if len(p.pages) == 0 {
		return errors.New("a PDF needs at least one page")
	}
	fontObjects, err := p.fonts()
	if err != nil {
		return err
	}
	layerObjects := p.layerGroups()
	p.object(resourcesObject, "<</Font<<"+fontObjects+">>/Properties<<"+layerNames(layerObjects)+">>>>")
	kids := make([]byte, 0, 10*len(p.pages))
	for _, page := range p.pages {
		kids = fmt.Appendf(kids, "%d 0 R ", page.object)
	}
	p.object(pagesObject, fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", len(p.pages), kids))
	p.object(catalogObject, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Outlines %d 0 R/Lang(en)"+
		"/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>/OCProperties<</OCGs[%[3]s]/D<</Order[%[3]s]>>>>>>",
		pagesObject, p.bookmarks(), references(layerObjects)))
	info := p.newObject()
	p.object(info, fmt.Sprintf("<</Title%s/Author%s/Producer(hubrule)>>", pdfText(p.title), pdfText(p.author)))
	p.crossReferences(info)
	return p.out.Flush()
}

// layerGroups writes an optional content group for every layer and returns the objects.
func (p *PDF) layerGroups() []int {
	var objects []int
	for _, g := range p.layers {
		n := p.newObject()
		p.object(n, "<</Type/OCG/Name"+pdfText(g.Title)+">>")
		objects = append(objects, n)
	}
	return objects
}

// bookmarks writes one bookmark a page and returns their root.
func (p *PDF) bookmarks() int {
	root := p.newObject()
	first := root + 1
	for i, page := range p.pages {
		links := fmt.Sprintf("/Parent %d 0 R", root)
		if i > 0 {
			links += fmt.Sprintf("/Prev %d 0 R", first+i-1)
		}
		if i < len(p.pages)-1 {
			links += fmt.Sprintf("/Next %d 0 R", first+i+1)
		}
		p.object(p.newObject(), fmt.Sprintf("<</Title%s%s/Dest[%d 0 R/Fit]>>", pdfText(page.title), links, page.object))
	}
	p.object(root, fmt.Sprintf("<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", first, first+len(p.pages)-1, len(p.pages)))
	return root
}

// crossReferences ends the file with the table of where its objects stand.
func (p *PDF) crossReferences(info int) {
	start, count := p.at, len(p.offsets)+1
	p.printf("xref\n0 %d\n0000000000 65535 f \n", count)
	for _, at := range p.offsets {
		p.printf("%010d 00000 n \n", at)
	}
	p.printf("trailer\n<</Size %d/Root %d 0 R/Info %d 0 R>>\nstartxref\n%d\n%%%%EOF\n", count, catalogObject, info, start)
}

// newObject reserves the next object number.
func (p *PDF) newObject() int {
	p.offsets = append(p.offsets, 0)
	return len(p.offsets)
}

// object writes object n.
func (p *PDF) object(n int, body string) {
	p.offsets[n-1] = p.at
	p.printf("%d 0 obj\n", n)
	p.write([]byte(body))
	p.printf("\nendobj\n")
}

// stream writes data, compressed, as a new object and returns its number. The fastest level is within a fifth of
// the smallest size, and a page is small beside the fonts.
func (p *PDF) stream(data []byte) int { return p.streamWith("", data) }

// streamWith is stream with more entries in the object's dictionary.
func (p *PDF) streamWith(entries string, data []byte) int {
	n := p.newObject()
	p.packed.Reset()
	p.packer.Reset(&p.packed)
	p.packer.Write(data) // a bytes.Buffer does not fail
	p.packer.Close()
	p.offsets[n-1] = p.at
	p.printf("%d 0 obj\n<</Filter/FlateDecode%s/Length %d>>\nstream\n", n, entries, p.packed.Len())
	p.write(p.packed.Bytes())
	p.printf("\nendstream\nendobj\n")
	return n
}

func (p *PDF) write(data []byte) {
	n, _ := p.out.Write(data) // the buffer keeps the first error until Flush
	p.at += int64(n)
}

func (p *PDF) printf(format string, args ...any) {
	n, _ := fmt.Fprintf(p.out, format, args...)
	p.at += int64(n)
}

// layerName returns the name by which the contents of pages call layer i.
func layerName(i int) string { return fmt.Sprintf("/L%d", i) }

func layerNames(objects []int) string {
	var b []byte
	for i, n := range objects {
		b = fmt.Appendf(b, "%s %d 0 R", layerName(i), n)
	}
	return string(b)
}

func references(objects []int) string {
	var b []byte
	for _, n := range objects {
		b = fmt.Appendf(b, "%d 0 R ", n)
	}
	return string(b)
}

// fonts writes the letters used of every weight and returns the entries of the font dictionary.
func (p *PDF) fonts() (string, error) {
	var entries []byte
	for _, w := range slices.Sorted(maps.Keys(p.letters)) {
		n, err := p.font(w)
		if err != nil {
			return "", err
		}
		entries = fmt.Appendf(entries, "%s %d 0 R", fontName(w), n)
	}
	if len(p.added.letters) > 0 {
		entries = fmt.Appendf(entries, "%s %d 0 R", addedFont, p.addedFace())
	}
	return string(entries), nil
}

// fontName returns the name by which the contents of pages call weight w.
func fontName(w Weight) string { return fmt.Sprintf("/F%d", w) }

// pdfText returns s as a text string: in parentheses where it is plain ASCII, else in UTF-16.
func pdfText(s string) string {
	var b []byte
	b = append(b, '(')
	for _, r := range s {
		switch {
		case r < ' ' || r > '~':
			b = []byte("<FEFF")
			for _, unit := range utf16.Encode([]rune(s)) {
				b = fmt.Appendf(b, "%04X", unit)
			}
			return string(append(b, '>'))
		case r == '(' || r == ')' || r == '\\':
			b = append(b, '\\', byte(r))
		default:
			b = append(b, byte(r))
		}
	}
	return string(append(b, ')'))
}

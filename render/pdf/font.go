package pdf

import (
	"bytes"
	"cmp"
	"embed"
	"fmt"
	"slices"
	"strings"

	"github.com/signintech/gopdf"

	"hubrule/fonts"
	"hubrule/render"
)

// font writes the objects of weight w with at least the letters used so far and returns the font's number.
//
// gopdf parses, subsets and embeds the face: it writes a document of one page that uses the letters, and its font
// objects are taken over. The document with the letters that almost every sheet gets by with lies prepared in
// this program, because that takes a third of the time of drawing a sheet.
func (p *Writer) font(w render.Weight) (int, error) {
	var letters []rune
	for index, g := range p.used[w] {
		if index != 0 { // the box is in every document of gopdf's
			letters = append(letters, g.Letter)
		}
	}
	doc, err := document(letters, w)
	if err != nil {
		return 0, err
	}
	s, err := splice(doc)
	if err != nil {
		return 0, err
	}
	descriptor := relink(s.descriptor, "/FontFile2", p.add(s.file))
	glyphs := relink(s.glyphs, "/FontDescriptor", p.add(descriptor))
	unicode := p.stream("", p.packer.squeeze(toUnicode(p.used[w])))
	if box, ok := p.used[w][0]; ok { // gopdf leaves out its width
		glyphs = strings.Replace(glyphs, "/W [", fmt.Sprintf("/W [0[%d]", box.Advance*1000/fonts.UnitsPerEm), 1)
	}
	return p.add(relink(relink(s.font, "/DescendantFonts", p.add(glyphs)), "/ToUnicode", unicode)), nil
}

//go:generate go test -run TestPreparedLetters -update

//go:embed prepared
var prepared embed.FS

// preparedLetters are ASCII and the signs that sheets use. Others, in a user's title say, go through gopdf.
func preparedLetters() []rune {
	var letters []rune
	for r := ' '; r <= '~'; r++ {
		letters = append(letters, r)
	}
	return append(letters, []rune("°±²³·×÷–—‘’“”…−≤≥½¼¾")...)
}

// document returns a document of gopdf's with at least the given letters in weight w.
func document(letters []rune, w render.Weight) ([]byte, error) {
	known := preparedLetters()
	if slices.ContainsFunc(letters, func(r rune) bool { return !slices.Contains(known, r) }) {
		slices.Sort(letters)
		return embedLetters(letters, w)
	}
	return prepared.ReadFile(fmt.Sprintf("prepared/%d.pdf", w))
}

// embedLetters has gopdf write a document with the given letters in weight w.
func embedLetters(letters []rune, w render.Weight) ([]byte, error) {
	// The six letters before the plus mark a subset (ISO 32000-1, 9.6.4); gopdf takes the name as it is.
	name := fmt.Sprintf("SUBSET+IBMPlexSansCondensed-%d", w)
	var doc gopdf.GoPdf
	doc.Start(gopdf.Config{PageSize: gopdf.Rect{W: 72, H: 72}})
	err := doc.AddTTFFontData(name, fonts.TTF(w))
	doc.AddPage()
	if err := cmp.Or(err, doc.SetFont(name, "", 10), doc.Text(string(letters))); err != nil {
		return nil, fmt.Errorf("embedding the font: %w", err)
	}
	var b bytes.Buffer
	doc.WriteTo(&b) // a bytes.Buffer does not fail
	return b.Bytes(), nil
}

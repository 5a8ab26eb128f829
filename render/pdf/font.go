package pdf

import (
	"bytes"
	"embed"
	"fmt"
	"maps"
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
	used := maps.Clone(p.letters[w])
	delete(used, 0) // the box is in every document of gopdf's
	letters := slices.Sorted(maps.Values(used))
	doc, err := document(letters, w)
	if err != nil {
		return 0, err
	}
	s, err := splice(doc)
	if err != nil {
		return 0, err
	}
	file := p.newObject()
	p.object(file, s.file)
	descriptor := p.newObject()
	p.object(descriptor, relink(s.descriptor, "/FontFile2", file))
	unicode := p.stream("", p.packer.squeeze(toUnicode(p.letters[w])))
	glyphs := p.newObject()
	if _, boxed := p.letters[w][0]; boxed {
		s.glyphs = strings.Replace(s.glyphs, "/W [", fmt.Sprintf("/W [0[%d]", boxWidth(w)), 1)
	}
	p.object(glyphs, relink(s.glyphs, "/FontDescriptor", descriptor))
	font := p.newObject()
	p.object(font, relink(relink(s.font, "/DescendantFonts", glyphs), "/ToUnicode", unicode))
	return font, nil
}

// boxWidth returns the width of the empty box in thousandths of an em, which gopdf leaves out.
func boxWidth(w render.Weight) int {
	return fonts.Shape("\uFFFF", w)[0].Advance * 1000 / fonts.UnitsPerEm // no letter, so no face has it
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

func subset(letters, of []rune) bool {
	return !slices.ContainsFunc(letters, func(r rune) bool { return !slices.Contains(of, r) })
}

// document returns a document of gopdf's with at least the given letters in weight w.
func document(letters []rune, w render.Weight) ([]byte, error) {
	if subset(letters, preparedLetters()) {
		return prepared.ReadFile(fmt.Sprintf("prepared/%d.pdf", w))
	}
	return embedLetters(letters, w)
}

// embedLetters has gopdf write a document with the given letters in weight w.
func embedLetters(letters []rune, w render.Weight) ([]byte, error) {
	// The six letters before the plus mark a subset (ISO 32000-1, 9.6.4); gopdf takes the name as it is.
	name := fmt.Sprintf("SUBSET+IBMPlexSansCondensed-%d", w)
	var doc gopdf.GoPdf
	doc.Start(gopdf.Config{PageSize: gopdf.Rect{W: 72, H: 72}})
	if err := doc.AddTTFFontData(name, fonts.TTF(w)); err != nil {
		return nil, fmt.Errorf("embedding the font: %w", err)
	}
	doc.AddPage()
	if err := doc.SetFont(name, "", 10); err != nil {
		return nil, fmt.Errorf("embedding the font: %w", err)
	}
	if err := doc.Text(string(letters)); err != nil {
		return nil, fmt.Errorf("embedding the font: %w", err)
	}
	var b bytes.Buffer
	if _, err := doc.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("embedding the font: %w", err)
	}
	return b.Bytes(), nil
}

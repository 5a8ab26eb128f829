package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
)

// fontObjects is the part of gopdf's document that embeds a font. Its references are still gopdf's.
type fontObjects struct {
	font       string // what pages name; /DescendantFonts leads to glyphs
	glyphs     string // their widths; /FontDescriptor leads to descriptor
	descriptor string // the face's measures; /FontFile2 leads to file
	file       string // the TrueType file, compressed
}

// splice finds the skeleton in a document of gopdf's that has one font.
func splice(doc []byte) (fontObjects, error) {
	objects, err := objectsOf(doc)
	if err != nil {
		return fontObjects{}, err
	}
	var s fontObjects
	for _, body := range objects {
		if strings.Contains(body, "/Subtype /Type0\n") {
			s.font = body
		}
	}
	if !strings.Contains(s.font, "/ToUnicode ") {
		return fontObjects{}, errors.New("pdf: gopdf's document has no font that can be searched")
	}
	s.glyphs = follow(objects, s.font, "/DescendantFonts")
	s.descriptor = follow(objects, s.glyphs, "/FontDescriptor")
	s.file = follow(objects, s.descriptor, "/FontFile2")
	if !strings.Contains(s.glyphs, "/Subtype /CIDFontType2\n") || !strings.Contains(s.descriptor, "/Type /FontDescriptor\n") ||
		!strings.Contains(s.file, "/Length1 ") || !strings.HasSuffix(s.file, "\nendstream") {
		return fontObjects{}, errors.New("pdf: gopdf's document does not embed its font where it did")
	}
	return s, nil
}

// objectsOf returns the bodies of a document's objects by number. The table at its end says where they are:
// compressed data may look like anything, so they are not searched for.
func objectsOf(doc []byte) (map[int]string, error) {
	broken := errors.New("pdf: gopdf's document has no table of its objects where it had")
	at := bytes.LastIndex(doc, []byte("\nxref\n0 "))
	if at < 0 {
		return nil, broken
	}
	table := strings.Fields(string(doc[at+len("\nxref\n0 "):])) // the count, then offset, generation and kind of each object
	count, err := strconv.Atoi(table[0])
	if err != nil || len(table) < 1+3*count {
		return nil, broken
	}
	offsets := make([]int, count+1)
	offsets[count] = at
	for n := range count {
		if offsets[n], err = strconv.Atoi(table[1+3*n]); err != nil {
			return nil, broken
		}
	}
	objects := map[int]string{}
	for n := 1; n < count; n++ {
		if offsets[n+1] > at || offsets[n] > offsets[n+1] {
			return nil, broken
		}
		body, ok := strings.CutPrefix(string(doc[offsets[n]:offsets[n+1]]), fmt.Sprintf("%d 0 obj\n", n))
		body, closed := strings.CutSuffix(strings.TrimRight(body, "\n"), "\nendobj")
		if !ok || !closed {
			return nil, broken
		}
		objects[n] = body
	}
	return objects, nil
}

// follow returns the object that key refers to in body, or nothing.
func follow(objects map[int]string, body, key string) string {
	from, to := reference(body, key)
	n, _ := strconv.Atoi(body[from:to]) // 0 is no object
	return objects[n]
}

// relink returns body with the reference under key leading to object n.
func relink(body, key string, n int) string {
	from, to := reference(body, key)
	return body[:from] + strconv.Itoa(n) + body[to:]
}

// reference returns where in body the object number under key stands: "/Key 7 0 R" or "/Key [7 0 R]".
func reference(body, key string) (from, to int) {
	_, after, ok := strings.Cut(body, key+" ")
	if !ok {
		return 0, 0
	}
	from = len(body) - len(strings.TrimPrefix(after, "["))
	to = from
	for to < len(body) && body[to] >= '0' && body[to] <= '9' {
		to++
	}
	return from, to
}

// toUnicode returns the table from glyphs to letters by which text is copied and searched. gopdf's own is not
// taken over: its code space leaves out most two-byte codes, and its blocks are longer than the 100 allowed.
func toUnicode(letters map[uint16]rune) []byte {
	b := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for block := range slices.Chunk(slices.Sorted(maps.Keys(letters)), 100) {
		b = fmt.Appendf(b, "%d beginbfchar\n", len(block))
		for _, glyph := range block {
			b = fmt.Appendf(b, "<%04X> <", glyph)
			for _, unit := range utf16.Encode([]rune{letters[glyph]}) {
				b = fmt.Appendf(b, "%04X", unit)
			}
			b = append(b, ">\n"...)
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}

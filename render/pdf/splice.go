package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
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
	end := bytes.LastIndex(doc, []byte("\nxref\n0 "))
	if end < 0 {
		return nil, broken
	}
	rest := string(doc[end+len("\nxref\n0 "):]) // the count, then offset, generation and kind of each object
	table, count := strings.Fields(rest), 0
	if _, err := fmt.Sscan(rest, &count); err != nil || len(table) < 1+3*count {
		return nil, broken
	}
	objects := map[int]string{}
	for n := count - 1; n > 0; n-- {
		from, err := strconv.Atoi(table[1+3*n])
		if err != nil || from > end {
			return nil, broken
		}
		body, ok := strings.CutPrefix(string(doc[from:end]), fmt.Sprintf("%d 0 obj\n", n))
		body, closed := strings.CutSuffix(strings.TrimRight(body, "\n"), "\nendobj")
		if !ok || !closed {
			return nil, broken
		}
		objects[n], end = body, from
	}
	return objects, nil
}

// reference matches what key refers to, as gopdf spells it: "/Key 7 0 R" or "/Key [7 0 R]".
func reference(key string) *regexp.Regexp { return regexp.MustCompile("(" + key + ` \[?)(\d+)`) }

// follow returns the object that key refers to in body, or nothing.
func follow(objects map[int]string, body, key string) string {
	found := reference(key).FindStringSubmatch(body)
	if found == nil {
		return ""
	}
	n, _ := strconv.Atoi(found[2]) // 0 is no object
	return objects[n]
}

// relink returns body with the reference under key leading to object n.
func relink(body, key string, n int) string {
	return reference(key).ReplaceAllString(body, "${1}"+strconv.Itoa(n))
}

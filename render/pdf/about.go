package pdf

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// producer is the library that wrote a file, where About.Program is what used it.
const producer = "hubrule"

// metadata writes the job, where there is one, as an XMP packet and returns the catalog's entry for it. The packet is
// not compressed, as the PDF standard advises: programs that know no PDF find it, and so does a search for text.
func (p *Writer) metadata() string {
	if p.about.Job == "" {
		return ""
	}
	// The id is the one that marks every XMP packet; r: it has no room to be changed in place.
	packet := "<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">" +
		p.about.RDF(p.title) + "</x:xmpmeta>\n<?xpacket end=\"r\"?>"
	n := p.add(fmt.Sprintf("<</Type/Metadata/Subtype/XML/Length %d>>\nstream\n%s\nendstream", len(packet), packet))
	return fmt.Sprintf("/Metadata %d 0 R", n)
}

// pdfText returns s as a text string: in parentheses where it is plain ASCII, else in UTF-16.
func pdfText(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return "<FEFF" + hexUTF16(s) + ">"
	}
	return "(" + strings.NewReplacer("(", `\(`, ")", `\)`, `\`, `\\`).Replace(s) + ")"
}

// hexUTF16 returns the hexadecimal digits of s in UTF-16.
func hexUTF16(s string) string {
	var b []byte
	for _, unit := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", unit)
	}
	return string(b)
}

package pdf

import (
	"fmt"
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
	n := p.newObject()
	p.object(n, fmt.Sprintf("<</Type/Metadata/Subtype/XML/Length %d>>\nstream\n%s\nendstream", len(packet), packet))
	return fmt.Sprintf("/Metadata %d 0 R", n)
}

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

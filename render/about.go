package render

import (
	"encoding/xml"
	"strings"
)

// About is the metadata of a file besides its title. Empty fields are left out.
// No writer adds a date, a file name or anything about the machine.
type About struct {
	Author  string
	Program string // that made the file, with its version
	Job     string // from which the file can be drawn again, in lines
}

// RDF returns title and a as RDF in the form that XMP prescribes (ISO 16684-1), which SVG's <metadata> may hold as well.
// The job is the description: general tools show that under a name, and need to know no vocabulary of ours.
func (a About) RDF(title string) string {
	var b strings.Builder
	b.WriteString(`<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"` +
		` xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">` +
		`<rdf:Description rdf:about="">` + "\n")
	in := func(start, text, end string) {
		if text != "" {
			b.WriteString(start + plainXML(text) + end + "\n")
		}
	}
	in(`<dc:title><rdf:Alt><rdf:li xml:lang="x-default">`, title, `</rdf:li></rdf:Alt></dc:title>`)
	in(`<dc:creator><rdf:Seq><rdf:li>`, a.Author, `</rdf:li></rdf:Seq></dc:creator>`)
	in(`<xmp:CreatorTool>`, a.Program, `</xmp:CreatorTool>`)
	in(`<dc:description><rdf:Alt><rdf:li xml:lang="x-default">`, a.Job, `</rdf:li></rdf:Alt></dc:description>`)
	b.WriteString(`</rdf:Description></rdf:RDF>`)
	return b.String()
}

// plainXML returns s as the content of an XML element, with its quotes and lines as they are: people search files for them.
func plainXML(s string) string {
	return strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&#xA;", "\n").Replace(EscapeXML(s))
}

// EscapeXML returns s as the value of an XML attribute.
func EscapeXML(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
	return b.String()
}

package render

import "strings"

// About is what a file says of itself, besides its title, to programs that look into files. What is empty is left out.
// No writer adds a date, a file's name or anything of the machine.
type About struct {
	Author  string
	Program string // that made the file, with its version
	Job     string // from which the file can be drawn again, in lines
}

// rdf returns title and about as RDF in the form that XMP prescribes (ISO 16684-1), which SVG's <metadata> may hold as well.
// The job is the description: general tools show that under a name, and need to know no vocabulary of ours.
func rdf(title string, about About) string {
	var b strings.Builder
	b.WriteString(`<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">` +
		`<rdf:Description rdf:about="">` + "\n")
	in := func(open, text, shut string) {
		if text != "" {
			b.WriteString(open + plainXML(text) + shut + "\n")
		}
	}
	in(`<dc:title><rdf:Alt><rdf:li xml:lang="x-default">`, title, `</rdf:li></rdf:Alt></dc:title>`)
	in(`<dc:creator><rdf:Seq><rdf:li>`, about.Author, `</rdf:li></rdf:Seq></dc:creator>`)
	in(`<xmp:CreatorTool>`, about.Program, `</xmp:CreatorTool>`)
	in(`<dc:description><rdf:Alt><rdf:li xml:lang="x-default">`, about.Job, `</rdf:li></rdf:Alt></dc:description>`)
	b.WriteString(`</rdf:Description></rdf:RDF>`)
	return b.String()
}

// plainXML returns s as the content of an XML element, with its quotes and lines as they are: people search files for them.
func plainXML(s string) string {
	return strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&#xA;", "\n").Replace(escaped(s))
}

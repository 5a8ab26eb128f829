package render_test

import (
	"bytes"
	"encoding/xml"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/svg"
)

// about is a sample with everything that has to be escaped somewhere.
func about(author string) render.About {
	return render.About{Author: author, Program: "hubrule 1 <&>", Job: "kind: brief\ntitle: \"a < b & ]]> 'c'\"\nauthor: " + author + "\n"}
}

// Go's own XML reader finds the texts as they were given, in the SVG and in the PDF's packet; without a job there are none.
func TestAboutIsFoundAgain(t *testing.T) {
	page := testpage.Sample()
	page.About = about("Zdeněk (Ω) 🚗")
	var picture, document bytes.Buffer
	if err := svg.Write(&picture, page); err != nil {
		t.Fatal(err)
	}
	if err := pdf.Write(&document, render.Document{Title: "Über <x>", About: page.About, Pages: []render.Page{page}}); err != nil {
		t.Fatal(err)
	}
	_, packet, found := bytes.Cut(document.Bytes(), []byte("<x:xmpmeta"))
	packet, _, ended := bytes.Cut(packet, []byte("<?xpacket end"))
	if !found || !ended {
		t.Fatal("no XMP packet in the PDF")
	}
	for name, data := range map[string][]byte{"SVG": picture.Bytes(), "PDF": append([]byte("<x:xmpmeta"), packet...)} {
		got := textsIn(t, data)
		for key, want := range map[string]string{"creator": page.About.Author, "CreatorTool": page.About.Program, "description": page.About.Job} {
			if got[key] != want {
				t.Errorf("%s: %s is %q, want %q", name, key, got[key], want)
			}
		}
	}
	page.About = render.About{}
	picture.Reset()
	if err := svg.Write(&picture, page); err != nil || bytes.Contains(picture.Bytes(), []byte("<metadata")) {
		t.Errorf("metadata without a job, or error %v", err)
	}
}

// textsIn gathers the texts of every element by its local name, its own and those inside it.
func textsIn(t *testing.T, data []byte) map[string]string {
	t.Helper()
	out := map[string]string{}
	var open []string
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.Token()
		if token == nil {
			if err.Error() != "EOF" {
				t.Fatal(err)
			}
			return out
		}
		switch x := token.(type) {
		case xml.StartElement:
			open = append(open, x.Name.Local)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, name := range open {
				if name != "metadata" {
					out[name] += string(x)
				}
			}
		}
	}
}

// Other programs read files with texts as they read files without: xmllint the SVG, qpdf the PDF, pdfinfo its packet.
func TestAboutOutside(t *testing.T) {
	t.Parallel()
	page := testpage.Sample()
	page.About = about("Zdeněk")
	var picture, document bytes.Buffer
	if err := svg.Write(&picture, page); err != nil {
		t.Fatal(err)
	}
	if err := pdf.Write(&document, render.Document{Title: "T", About: page.About, Pages: []render.Page{page}}); err != nil {
		t.Fatal(err)
	}
	outside.Need(t, "xmllint", "qpdf", "pdfinfo")
	image, file := outside.File(t, "a.svg", picture.Bytes()), outside.File(t, "a.pdf", document.Bytes())
	outside.Run(t, "xmllint", "--noout", image)
	for _, c := range []struct{ want, program, flag string }{
		{"No syntax or stream encoding errors", "qpdf", "--check"},
		{"author: Zdeněk", "pdfinfo", "-meta"},
		{"Creator:         hubrule 1 <&>", "pdfinfo", "-isodates"},
	} {
		if out := string(outside.Run(t, c.program, c.flag, file)); !strings.Contains(out, c.want) {
			t.Errorf("%s %s:\n%s\nwant %q", c.program, c.flag, out, c.want)
		}
	}
}

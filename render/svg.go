package render

import (
	"bufio"
	"encoding/hex"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	svg "github.com/ajstarks/svgo/float"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

// WriteSVG writes one page as an SVG 1.1 file whose user unit is the millimetre.
//
// Every guide with marks becomes one top-level group "guide-NAME", marked as a layer. Circles stay circles,
// straight lines lines, arcs arcs; only turned text carries a transform. The letters used are embedded as a
// font; programs that do not read embedded fonts take the first installed one of a list of narrow faces.
// The page is transparent, white only where a browser shows the file by itself: it can be laid over a photo.
//
// The error is w's, or says what on the page cannot be written (see Page.Check).
func WriteSVG(w io.Writer, p Page) error {
	p = p.flattened()
	if err := p.Check(); err != nil {
		return err
	}
	buffered := bufio.NewWriterSize(w, 1<<14)
	out := svgWriter{svg.New(buffered)}
	out.Decimals = places
	out.open(p)
	for _, g := range p.Guides {
		out.guide(g, p)
	}
	out.End()
	return buffered.Flush() // svgo drops errors; the buffer keeps the first one
}

// svgWriter adds the marks of a page to svgo's elements.
type svgWriter struct{ *svg.SVG }

// open writes the root element, the title and the embedded font.
func (out svgWriter) open(p Page) {
	width, height := number(p.Width), number(p.Height)
	css, families := fontFaces(p)
	var data strings.Builder
	for _, d := range p.Data {
		fmt.Fprintf(&data, ` data-%s="%s"`, escaped(d.Name), escaped(d.Value))
	}
	out.Startraw(
		`xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"`,
		fmt.Sprintf(`width="%smm" height="%smm" viewBox="0 0 %s %s"`, width, height, width, height),
		`style="background:#fff"`,
		fmt.Sprintf(`font-family="%s" font-stretch="condensed"%s`, families, data.String()))
	out.Title(p.Title)
	if p.About.Job != "" {
		io.WriteString(out.Writer, "<metadata>"+rdf(p.Title, p.About)+"</metadata>\n") // the buffer keeps errors
	}
	if css != "" {
		out.Def()
		out.Style("text/css", css)
		out.DefEnd()
	}
	if p.Clip != nil {
		at, to := p.clipCorners()
		out.ClipPath(`id="` + clipID + `"`)
		out.Rect(float64(at.X), float64(at.Y), float64(to.X-at.X), float64(to.Y-at.Y))
		out.ClipEnd()
	}
}

// windowID is what the window is called in an SVG; no mark may be called the same.
const clipID = "window"

// guide writes the marks of g as one layer, or nothing if there are none.
func (out svgWriter) guide(g Guide, p Page) {
	open := false
	for _, m := range p.Marks {
		if m.Tag().Guide != g.Name {
			continue
		}
		if !open {
			name := escaped(g.Name)
			attributes := []string{`id="guide-` + name + `"`, `inkscape:groupmode="layer"`, `inkscape:label="` + name + `"`}
			if p.cuts(g) {
				attributes = append(attributes, `clip-path="url(#`+clipID+`)"`)
			}
			out.Group(attributes...)
			out.Title(g.Title)
			open = true
		}
		out.mark(m)
	}
	if open {
		out.Gend()
	}
}

func (out svgWriter) mark(m Mark) {
	id := ""
	if tag := m.Tag(); tag.ID != "" {
		id = `id="` + escaped(tag.ID) + `" `
	}
	switch m := m.(type) {
	case *Stroke:
		if from, to, ok := straight(m.Path); ok {
			out.Line(rounded(from.X), rounded(from.Y), rounded(to.X), rounded(to.Y), id+penAttributes(m.Pen))
		} else {
			out.Path(pathData(m.Path), id+`fill="none" `+penAttributes(m.Pen)+` stroke-linejoin="round"`)
		}
	case *Circle:
		fill := "none"
		if m.Fill != nil {
			fill = colour(*m.Fill)
		}
		out.SVG.Circle(rounded(m.Centre.X), rounded(m.Centre.Y), rounded(m.R), id+`fill="`+fill+`" `+penAttributes(m.Pen))
	case *Ellipse:
		data, fill := m.svgData(), "none"
		if m.isSegment() {
			data = pathData(m.segment())
		}
		if m.Fill != nil {
			fill = colour(*m.Fill)
		}
		out.Path(data, id+`fill="`+fill+`" `+penAttributes(m.Pen)+` stroke-linejoin="round"`)
	case *Fill:
		out.Path(pathData(m.Path), id+`fill="`+colour(m.Ink)+`" fill-rule="evenodd"`)
	case *Text:
		out.text(m, id)
	default:
		panic(fmt.Sprintf("render: svg cannot draw %T", m))
	}
}

func (out svgWriter) text(t *Text, id string) {
	// Browsers keep runs of spaces only where the attribute stands on the text itself.
	attributes := id + `xml:space="preserve" text-anchor="` + t.Anchor.svg() + `"`
	if t.Angle != 0 {
		// SVG turns clockwise on a page whose y runs down.
		attributes += ` transform="rotate(` + number(-t.Angle) + ` ` + number(t.At.X) + ` ` + number(t.At.Y) + `)"`
	}
	out.Textspan(rounded(t.At.X), rounded(t.At.Y), "", attributes)
	if whole := t.fullText(); whole != "" {
		io.WriteString(out.Writer, "<title>"+escaped(whole)+"</title>") // svgo's own ends a line, which would be drawn as a space
	}
	for _, s := range t.Spans {
		out.Span(s.Text, spanAttributes(s))
	}
	out.TextEnd()
}

func spanAttributes(s Span) string {
	b := append(make([]byte, 0, 128), `font-size="`...)
	b = appendNumber(b, fonts.Size(s.Height))
	b = strconv.AppendInt(append(b, `" font-weight="`...), int64(s.Weight), 10)
	b = append(appendColour(append(b, `" fill="`...), s.Ink), '"')
	if fonts.HasRTL(s.Text) {
		// Each span is ordered by itself, as in the other formats. An attribute "direction" would turn the anchor too.
		b = append(b, ` unicode-bidi="plaintext"`...)
	}
	return string(b)
}

// svg returns the value of text-anchor.
func (a Anchor) svg() string {
	switch a {
	case Start:
		return "start"
	case Middle:
		return "middle"
	case End:
		return "end"
	default:
		panic(fmt.Sprintf("render: no anchor %d", a))
	}
}

// penAttributes returns the stroke attributes of p; caps are butt by default. A pen of no width draws nothing.
func penAttributes(p Pen) string {
	if p.Width == 0 {
		return `stroke="none"`
	}
	b := appendColour(append(make([]byte, 0, 128), `stroke="`...), p.Ink)
	b = append(b, `" stroke-width="`...)
	b = append(appendNumber(b, p.Width), '"')
	for i, d := range p.Dash {
		if i == 0 {
			b = append(b, ` stroke-dasharray="`...)
		} else {
			b = append(b, ' ')
		}
		b = appendNumber(b, d*float64(p.Width))
	}
	if len(p.Dash) > 0 {
		b = append(b, '"')
	}
	return string(b)
}

// straight returns the ends of a path that is one straight line.
func straight(p Path) (from, to Point, ok bool) {
	if len(p) != 2 || p[1].Verb != geom.LineTo {
		return from, to, false
	}
	return p[0].To, p[1].To, true
}

// pathData returns p in the path grammar of SVG, with absolute coordinates.
func pathData(p Path) string {
	var b []byte
	for _, s := range p {
		switch s.Verb {
		case geom.MoveTo:
			b = appendPoints(append(b, 'M'), s.To)
		case geom.LineTo:
			b = appendPoints(append(b, 'L'), s.To)
		case geom.CurveTo:
			b = appendPoints(append(b, 'C'), s.C1, s.C2, s.To)
		case geom.ArcTo:
			b = appendNumber(append(b, 'A'), s.R)
			b = appendNumber(append(b, ' '), s.R)
			b = append(b, ' ', '0', ' ', bit(s.Large), ' ', bit(s.Sweep), ' ')
			b = appendPoints(b, s.To)
		case geom.Close:
			b = append(b, 'Z')
		default:
			panic(fmt.Sprintf("render: no verb %d", s.Verb))
		}
	}
	return string(b)
}

func appendPoints(b []byte, points ...Point) []byte {
	for i, p := range points {
		if i > 0 {
			b = append(b, ' ')
		}
		b = appendNumber(b, p.X)
		b = appendNumber(append(b, ' '), p.Y)
	}
	return b
}

func bit(on bool) byte {
	if on {
		return '1'
	}
	return '0'
}

// colour returns c as SVG spells colours.
func colour(c Colour) string { return string(appendColour(nil, c)) }

func appendColour(b []byte, c Colour) []byte {
	return hex.AppendEncode(append(b, '#'), []byte{c.R, c.G, c.B})
}

// escaped returns s as the value of an XML attribute.
func escaped(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
	return b.String()
}

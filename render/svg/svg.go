// Package svg writes pages as SVG files, one a page. Ids, groups and units are a contract that other programs rely on.
package svg

import (
	"bufio"
	"encoding/base64"
	"fmt"
	"io"
	"math"
	"strings"

	svgo "github.com/ajstarks/svgo/float"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
)

// Write writes one page as an SVG 1.1 file whose user unit is the millimetre.
//
// Every guide with marks becomes one top-level group "guide-NAME", marked as a layer. Circles stay circles,
// straight lines lines, arcs arcs; only turned text carries a transform. The letters used are embedded as a
// font; programs that do not read embedded fonts take the first installed one of a list of narrow faces.
// The page is transparent, white only where a browser shows the file by itself: it can be laid over a photo.
//
// The error is w's, or says what on the page cannot be written (see Page.Check).
func Write(w io.Writer, p render.Page) error { return write(w, p, false) }

// WriteOutlined is Write with words as outlines, for programs that do not read embedded fonts: editors, cutters. What each says is its
// label for assistive technology (aria-label).
func WriteOutlined(w io.Writer, p render.Page) error { return write(w, p, true) }

func write(w io.Writer, p render.Page, outlined bool) error {
	p = p.Flatten()
	if err := p.Check(); err != nil {
		return err
	}
	buffered := bufio.NewWriterSize(w, 1<<14)
	out := writer{svgo.New(buffered), outlined}
	out.Decimals = render.Decimals
	out.open(p)
	for g, marks := range p.Layers() {
		out.layer(g, marks, p.Clips(g))
	}
	out.End()
	return buffered.Flush() // svgo drops errors; the buffer keeps the first one
}

// writer adds the marks of a page to svgo's elements.
type writer struct {
	*svgo.SVG
	outlined bool // words are outlines
}

// open writes the root element, the title and the embedded font.
func (out writer) open(p render.Page) {
	width, height := render.Number(p.Width), render.Number(p.Height)
	css, families := "", ""
	if !out.outlined {
		css, families = fontFaces(p)
		families = fmt.Sprintf(`font-family="%s" font-stretch="condensed"`, families)
	}
	var data strings.Builder
	for _, d := range p.Data {
		fmt.Fprintf(&data, ` data-%s="%s"`, render.EscapeXML(d.Name), render.EscapeXML(d.Value))
	}
	out.Startraw(
		`xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"`,
		fmt.Sprintf(`width="%smm" height="%smm" viewBox="0 0 %s %s"`, width, height, width, height),
		`style="background:#fff"`,
		families+data.String())
	out.Title(p.Title)
	if p.About.Job != "" {
		io.WriteString(out.Writer, "<metadata>"+p.About.RDF(p.Title)+"</metadata>\n") // the buffer keeps errors
	}
	if css != "" {
		out.Def()
		out.Style("text/css", css)
		out.DefEnd()
	}
	if p.Clip != nil {
		at, to := p.ClipCorners()
		out.ClipPath(`id="` + render.ClipID + `"`)
		out.Rect(float64(at.X), float64(at.Y), float64(to.X-at.X), float64(to.Y-at.Y))
		out.ClipEnd()
	}
}

// layer writes the marks of g as one group.
func (out writer) layer(g render.Guide, marks []render.Mark, clipped bool) {
	name := render.EscapeXML(g.Name)
	attributes := []string{`id="guide-` + name + `"`, `inkscape:groupmode="layer"`, `inkscape:label="` + name + `"`}
	if clipped {
		attributes = append(attributes, `clip-path="url(#`+render.ClipID+`)"`)
	}
	out.Group(attributes...)
	out.Title(g.Title)
	for _, m := range marks {
		out.mark(m)
	}
	out.Gend()
}

func (out writer) mark(m render.Mark) {
	id := ""
	if tag := m.Tag(); tag.ID != "" {
		id = `id="` + render.EscapeXML(tag.ID) + `" `
	}
	switch m := m.(type) {
	case *render.Stroke:
		if p := m.Path; len(p) == 2 && p[1].Verb == geom.LineTo {
			from, to := render.RoundPoint(p[0].To), render.RoundPoint(p[1].To)
			out.Line(float64(from.X), float64(from.Y), float64(to.X), float64(to.Y), id+penAttributes(m.Pen))
		} else {
			out.Path(pathData(p), id+`fill="none" `+penAttributes(m.Pen)+` stroke-linejoin="round"`)
		}
	case *render.Ellipse:
		out.Path(ellipseData(m), id+`fill="none" `+penAttributes(m.Pen)+` stroke-linejoin="round"`)
	case *render.Circle:
		fill := "none"
		if m.Fill != nil {
			fill = colour(*m.Fill)
		}
		out.Circle(render.Round(m.Centre.X), render.Round(m.Centre.Y), render.Round(m.R), id+`fill="`+fill+`" `+penAttributes(m.Pen))
	case *render.Fill:
		out.Path(pathData(m.Path), id+`fill="`+colour(m.Ink)+`" fill-rule="evenodd"`)
	case *render.Text:
		out.text(m, id)
	case *render.Picture:
		out.picture(m, id)
	default:
		panic(fmt.Sprintf("svg: cannot draw %T", m))
	}
}

// picture writes a picture into the file itself: a sheet is one file. The link is named as in SVG 1.1, which all readers know.
func (out writer) picture(m *render.Picture, id string) {
	data, _, _ := m.JPEG()
	at, to := render.RoundPoint(m.Box.Min), render.RoundPoint(m.Box.Max)
	fmt.Fprintf(out.Writer, `<image %sx="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" xlink:href="data:image/jpeg;base64,`,
		id, render.Number(at.X), render.Number(at.Y), render.Number(to.X-at.X), render.Number(to.Y-at.Y))
	encoder := base64.NewEncoder(base64.StdEncoding, out.Writer)
	encoder.Write(data) // the buffer keeps errors
	encoder.Close()
	io.WriteString(out.Writer, "\"/>\n")
}

func (out writer) text(t *render.Text, id string) {
	if out.outlined {
		words := t.FullText() // "" where nothing is cut
		if words == "" {
			for _, s := range t.Spans {
				words += s.Text
			}
		}
		out.Group(id+`role="img"`, `aria-label="`+render.EscapeXML(words)+`"`)
		for i, p := range t.Outlines() {
			if len(p) > 0 {
				out.Path(pathData(p), `fill="`+colour(t.Spans[i].Ink)+`"`)
			}
		}
		out.Gend()
		return
	}
	// Browsers keep runs of spaces only where the attribute stands on the text itself.
	attributes := id + `xml:space="preserve" text-anchor="` + [...]string{"start", "middle", "end"}[t.Anchor] + `"`
	if t.Angle != 0 {
		// SVG turns clockwise on a page whose y runs down.
		attributes += ` transform="rotate(` + render.Number(-t.Angle) + ` ` + render.Number(t.At.X) + ` ` + render.Number(t.At.Y) + `)"`
	}
	out.Textspan(render.Round(t.At.X), render.Round(t.At.Y), "", attributes)
	if whole := t.FullText(); whole != "" {
		io.WriteString(out.Writer, "<title>"+render.EscapeXML(whole)+"</title>") // svgo's own ends a line, which would be drawn as a space
	}
	for _, s := range t.Spans {
		out.Span(s.Text, spanAttributes(s))
	}
	out.TextEnd()
}

func spanAttributes(s render.Span) string {
	out := fmt.Sprintf(`font-size="%s" font-weight="%d" fill="%s"`, render.Number(fonts.Size(s.Height)), s.Weight, colour(s.Ink))
	if fonts.HasRTL(s.Text) {
		// Each span is ordered by itself, as in the other formats. An attribute "direction" would turn the anchor too.
		out += ` unicode-bidi="plaintext"`
	}
	return out
}

// penAttributes returns the stroke attributes of p; caps are butt by default. A pen of no width draws nothing.
func penAttributes(p render.Pen) string {
	if p.Width == 0 {
		return `stroke="none"`
	}
	out := `stroke="` + colour(p.Ink) + `" stroke-width="` + render.Number(p.Width) + `"`
	if len(p.Dash) > 0 {
		dashes := slice.Map(p.Dash, func(d float64) string { return render.Number(d * float64(p.Width)) })
		out += ` stroke-dasharray="` + strings.Join(dashes, " ") + `"`
	}
	return out
}

// ellipseData returns the ellipse in the path grammar of SVG: two arcs, one a third of it and one two thirds. Readers
// find an arc's centre from its ends; those of half an ellipse are as far apart as its axis is long, and a thousandth of
// a millimetre less would move the centre by a tenth.
func ellipseData(e *render.Ellipse) string {
	if e.IsEdgeOn() {
		return pathData(e.Outline())
	}
	from, to := e.Range()
	third := from + (to-from)/3
	b := appendPoints([]byte{'M'}, e.Shape.At(from))
	for i, t := range []float64{third, to} {
		b = render.AppendNumber(append(b, 'A'), e.Shape.Long)
		b = render.AppendNumber(append(b, ' '), e.Shape.Short)
		b = render.AppendNumber(append(b, ' '), geom.MM(e.Shape.Angle*180/math.Pi))
		large := i == 1 && to-third > math.Pi
		b = append(b, ' ', bit(large), ' ', '1', ' ') // the parameter grows with the clock
		b = appendPoints(b, e.Shape.At(t))
	}
	if e.IsWhole() {
		b = append(b, 'Z')
	}
	return string(b)
}

// pathData returns p in the path grammar of SVG, with absolute coordinates.
func pathData(p render.Path) string {
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
			b = render.AppendNumber(append(b, 'A'), s.R)
			b = render.AppendNumber(append(b, ' '), s.R)
			b = append(b, ' ', '0', ' ', bit(s.Large), ' ', bit(s.Sweep), ' ')
			b = appendPoints(b, s.To)
		case geom.Close:
			b = append(b, 'Z')
		default:
			panic(fmt.Sprintf("svg: no verb %d", s.Verb))
		}
	}
	return string(b)
}

func appendPoints(b []byte, points ...render.Point) []byte {
	for i, p := range points {
		if i > 0 {
			b = append(b, ' ')
		}
		b = render.AppendNumber(b, p.X)
		b = render.AppendNumber(append(b, ' '), p.Y)
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
func colour(c render.Colour) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

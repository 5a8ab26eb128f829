//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// suvPage composes the page that both writers draw.
func suvPage() (render.Page, error) {
	profile, err := segments.Find("suv")
	if err != nil {
		return render.Page{}, err
	}
	a3, _ := request.FindPaper("A3")
	doc, _, err := sheet.Compose(request.Request{
		Plans: []layout.Plan{layout.Typical(profile)}, Kinds: []request.Kind{request.Full},
		Setting: request.Setting{Paper: a3, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels},
	})
	if err != nil {
		return render.Page{}, err
	}
	return doc.Pages[0], nil
}

// samePages writes the page again and again into one file, with one worker.
func samePages(path string, count int) error {
	page, err := suvPage()
	if err != nil {
		return err
	}
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	out := pdf.New(file, "The same page", render.About{})
	for range count {
		if err := out.AddPage(page); err != nil {
			return err
		}
	}
	if err := out.Close(); err != nil {
		return err
	}
	sayPeak()
	return file.Close()
}

// exportMarks writes the page for cairo/marks.c: one mark a line or a few, in millimetres, in paint order.
func exportMarks(path string) error {
	page, err := suvPage()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "page %g %g\n", page.Width, page.Height)
	for _, w := range fonts.Weights() {
		name := fmt.Sprintf("%s.%d.ttf", path, w)
		if err := os.WriteFile(name, fonts.TTF(w), 0o666); err != nil {
			return err
		}
		fmt.Fprintf(&b, "face %d %s\n", w, name)
	}
	for _, g := range page.Guides {
		for _, m := range page.Marks {
			if m.Tag().Guide == g.Name {
				export(&b, m)
			}
		}
	}
	return os.WriteFile(path, b.Bytes(), 0o666)
}

func export(b *bytes.Buffer, m render.Mark) {
	switch m := m.(type) {
	case *render.Stroke:
		exportPath(b, m.Path)
		exportPen(b, m.Pen)
	case *render.Fill:
		exportPath(b, m.Path)
		fmt.Fprintf(b, "fill %s\n", rgb(m.Ink))
	case *render.Circle:
		if m.Fill != nil {
			fmt.Fprintf(b, "circle %g %g %g\nfill %s\n", m.Centre.X, m.Centre.Y, m.R, rgb(*m.Fill))
		}
		fmt.Fprintf(b, "circle %g %g %g\n", m.Centre.X, m.Centre.Y, m.R)
		exportPen(b, m.Pen)
	case *render.Text:
		exportText(b, m)
	default:
		panic(fmt.Sprintf("bench: no line for a %T", m))
	}
}

// exportPath writes a path; arcs go as the cubics that a PDF has for them too.
func exportPath(b *bytes.Buffer, p render.Path) {
	var at render.Point
	for _, s := range p {
		switch s.Verb {
		case geom.MoveTo:
			fmt.Fprintf(b, "move %g %g\n", s.To.X, s.To.Y)
		case geom.LineTo:
			fmt.Fprintf(b, "line %g %g\n", s.To.X, s.To.Y)
		case geom.CurveTo:
			fmt.Fprintf(b, "curve %g %g %g %g %g %g\n", s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.To.X, s.To.Y)
		case geom.ArcTo:
			for _, c := range (render.Path{}).Move(at).Arc(s.R, s.Large, s.Sweep, s.To).Cubics()[0] {
				fmt.Fprintf(b, "curve %g %g %g %g %g %g\n", c[1].X, c[1].Y, c[2].X, c[2].Y, c[3].X, c[3].Y)
			}
		case geom.Close:
			b.WriteString("close\n")
		}
		at = s.To
	}
}

func exportPen(b *bytes.Buffer, p render.Pen) {
	fmt.Fprintf(b, "stroke %s %g %d", rgb(p.Ink), p.Width, len(p.Dash))
	for _, d := range p.Dash {
		fmt.Fprintf(b, " %g", geom.MM(d)*p.Width)
	}
	b.WriteByte('\n')
}

// exportText writes every span at the place where this program sets it, so that cairo need not measure.
func exportText(b *bytes.Buffer, t *render.Text) {
	width := geom.MM(0)
	for _, s := range t.Spans {
		width += fonts.Width(s.Text, s.Height, s.Weight)
	}
	x := t.At.X
	switch t.Anchor {
	case render.Middle:
		x -= width / 2
	case render.End:
		x -= width
	}
	for _, s := range t.Spans {
		fmt.Fprintf(b, "text %s %d %g %g %g %s\n", rgb(s.Ink), s.Weight, fonts.Size(s.Height), x, t.At.Y, s.Text)
		x += fonts.Width(s.Text, s.Height, s.Weight)
	}
}

func rgb(c render.Colour) string {
	return fmt.Sprintf("%g %g %g", float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}

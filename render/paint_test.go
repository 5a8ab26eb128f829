package render_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testpage"
	"hubrule/render"
)

// painted says how one mark comes out, in the words of SVG. What is not there is empty.
type painted struct {
	stroke, width, dash string
	fill, rule          string
	font                string // size and weight
}

// pdfPainted reads how the marks of a page's content are painted, keeping the state that PDF operators change.
func pdfPainted(t *testing.T, content string) []painted {
	t.Helper()
	hex := func(operands []string) string {
		out := "#"
		for _, share := range operands {
			out += fmt.Sprintf("%02x", int(math.Round(Number(t, share)*255)))
		}
		return out
	}
	var out []painted
	line, area := painted{stroke: "#000000", width: "1"}, painted{fill: "#000000"}
	font := ""
	for _, op := range pdfOperations(content) {
		switch op.name {
		case "RG":
			line.stroke = hex(op.operands)
		case "w":
			line.width = op.operands[0]
		case "d":
			dash, _, _ := strings.Cut(strings.Join(op.operands, " "), "]")
			line.dash = strings.TrimSpace(strings.TrimPrefix(dash, "["))
		case "rg":
			area.fill = hex(op.operands)
		case "Tf":
			font = op.operands[1] + " " + strings.TrimPrefix(op.operands[0], "/F")
		case "S":
			out = append(out, line)
		case "f", "f*":
			out = append(out, painted{fill: area.fill, rule: map[string]string{"f": "nonzero", "f*": "evenodd"}[op.name]})
		case "B":
			both := line
			both.fill, both.rule = area.fill, "nonzero"
			out = append(out, both)
		case "TJ":
			out = append(out, painted{fill: area.fill, font: font})
		}
	}
	return out
}

// svgPainted reads how the elements of an SVG are painted, without those that are not.
func svgPainted(elements []element) []painted {
	var out []painted
	for _, e := range elements {
		var p painted
		a := e.attributes
		switch e.name {
		case "line", "path", "circle":
			if s := a["stroke"]; s != "" && s != "none" {
				p.stroke, p.width, p.dash = s, a["stroke-width"], a["stroke-dasharray"]
			}
			if f := a["fill"]; f != "" && f != "none" {
				p.fill, p.rule = f, a["fill-rule"]
				if p.rule == "" {
					p.rule = "nonzero"
				}
			}
		case "tspan":
			p = painted{fill: a["fill"], font: a["font-size"] + " " + a["font-weight"]}
		}
		if p != (painted{}) {
			out = append(out, p)
		}
	}
	return out
}

// pens is the sample and, behind it, marks that differ from the one before in a single thing: what a writer that
// remembers its state may forget.
func pens() render.Page {
	page := testpage.Sample()
	blue, red := render.Colour{R: 0x10, G: 0x60, B: 0xf0}, render.Colour{R: 0xf0, G: 0x20, B: 0x40}
	dashes := []float64{8, 2}
	tag := render.Tagged{Guide: "labels"}
	for i, pen := range []render.Pen{{Width: 0.25, Ink: blue}, {Width: 0.25, Ink: red}, {Width: 0.25, Dash: dashes, Ink: red},
		{Width: 0.5, Dash: dashes, Ink: red}, {Width: 0, Ink: blue}, {Width: 0.5, Ink: red}} {
		at := render.Point{X: 40 + 30*geom.MM(i), Y: 270}
		page.Marks = append(page.Marks,
			&render.Stroke{Tagged: tag, Pen: pen, Path: render.Path{}.Move(at).Line(at.Add(render.Point{X: 20}))},
			&render.Circle{Tagged: tag, Centre: at, R: 5, Pen: pen, Fill: &blue},
			&render.Circle{Tagged: tag, Centre: at, R: 3, Pen: pen},
			&render.Fill{Tagged: tag, Ink: red, Path: render.Path{}.Move(at).Line(at.Add(render.Point{X: 2})).Line(at.Add(render.Point{Y: 2})).Close()})
	}
	return page
}

// TestBothFormatsPaintTheSame: inks, widths, dashes, rules of filling, sizes and weights, mark by mark.
func TestBothFormatsPaintTheSame(t *testing.T) {
	elements, content := readSVG(t, svgOf(t, pens())), pdfPages(t, pdfOf(t, pens()))[0]
	want, got := svgPainted(elements), pdfPainted(t, content)
	if len(want) != len(got) || len(want) < 30 {
		t.Fatalf("the SVG paints %d marks, the PDF %d", len(want), len(got))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("mark %d: the PDF paints %+v, the SVG %+v", i+1, got[i], want[i])
		}
	}
	for _, p := range []painted{
		{stroke: "#f02040", width: "0.5", dash: "4 1", fill: "#1060f0", rule: "nonzero"},
		{fill: "#1060f0", rule: "nonzero"}, // the circle whose line has no width
		{fill: "#f02040", rule: "evenodd"},
	} {
		if !slices.Contains(want, p) {
			t.Errorf("nothing is painted as %+v", p)
		}
	}
}

// TestJoinsAreRound, of every line that has any.
func TestJoinsAreRound(t *testing.T) {
	for _, e := range readSVG(t, svgOf(t, pens())) {
		if e.name == "path" && e.attributes["stroke"] != "" && e.attributes["stroke-linejoin"] != "round" {
			t.Errorf("SVG: %v", e.attributes)
		}
	}
	for _, op := range pdfOperations(pdfPages(t, pdfOf(t, pens()))[0]) {
		switch op.name {
		case "j":
			return
		case "S", "B":
			t.Fatal("PDF: a line is drawn before joins are set")
		}
	}
}

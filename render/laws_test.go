package render_test

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/svg"
)

func svgOf(t testing.TB, p render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pdfOf(t testing.TB, pages ...render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, render.Document{Title: "Sämple (1)", About: render.About{Author: "A. \\ B."}, Pages: pages}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// micron is the last decimal that is written.
const micron = 0.001

func TestDoublingDoublesEveryCoordinate(t *testing.T) {
	one, two := svgPlaces(t, readSVG(t, svgOf(t, testpage.Sample()))), svgPlaces(t, readSVG(t, svgOf(t, testpage.Doubled(testpage.Sample()))))
	compareDoubled(t, "SVG", one, two)
	one, two = pdfPlaces(t, pdfPages(t, pdfOf(t, testpage.Sample()))[0]), pdfPlaces(t, pdfPages(t, pdfOf(t, testpage.Doubled(testpage.Sample())))[0])
	compareDoubled(t, "PDF", one, two)
}

func compareDoubled(t *testing.T, format string, one, two []place) {
	t.Helper()
	if len(one) != len(two) || len(one) < 20 {
		t.Fatalf("%s: %d places, doubled %d", format, len(one), len(two))
	}
	for i := range one {
		if apart(place{2 * one[i].x, 2 * one[i].y}, two[i]) > 2*micron {
			t.Errorf("%s: place %d is %v, doubled %v", format, i, one[i], two[i])
		}
	}
}

// TestBothFormatsCarryTheSameNumbers: every place of the SVG is one of the PDF, in the same order; what the PDF has
// besides are the joints of its arcs, on the arcs' circles.
func TestBothFormatsCarryTheSameNumbers(t *testing.T) {
	elements, content := readSVG(t, svgOf(t, testpage.Sample())), pdfPages(t, pdfOf(t, testpage.Sample()))[0]
	want, got := svgPlaces(t, elements), pdfPlaces(t, content)
	extra := 0
	for _, p := range want {
		for len(got) > 0 && apart(got[0], p) > micron {
			got, extra = got[1:], extra+1
		}
		if len(got) == 0 {
			t.Fatalf("the PDF lacks %v of the SVG, or has it elsewhere", p)
		}
		got = got[1:]
	}
	// The sample's two arcs turn by less than a half and more than a half: two pieces and three or four.
	if len(got) != 0 || extra < 2 || extra > 4 {
		t.Errorf("the PDF has %d places of its own between the SVG's and %d behind them", extra, len(got))
	}
	svgWidths, svgDashes := map[string]bool{}, map[string]bool{}
	for _, e := range elements {
		if w := e.attributes["stroke-width"]; w != "" {
			svgWidths[w] = true
			svgDashes[e.attributes["stroke-dasharray"]] = true
		}
	}
	pdfWidths, pdfDashes := map[string]bool{}, map[string]bool{"": true}
	for _, op := range pdfOperations(content) {
		switch op.name {
		case "w":
			pdfWidths[op.operands[0]] = true
		case "d":
			dash, _, _ := strings.Cut(strings.Join(op.operands, " "), "]")
			pdfDashes[strings.TrimSpace(strings.TrimPrefix(dash, "["))] = true
		}
	}
	if !mapsEqual(svgWidths, pdfWidths) || !mapsEqual(svgDashes, pdfDashes) {
		t.Errorf("widths and dashes: SVG %v %v, PDF %v %v", svgWidths, svgDashes, pdfWidths, pdfDashes)
	}
}

// TestArcsToWhereTheyStart: such arcs draw nothing. Readers of SVG leave them out (SVG 1.1, F.6.2, MEM; librsvg does,
// SEEN), so the PDF has to as well.
func TestArcsToWhereTheyStart(t *testing.T) {
	page := testpage.Sample()
	at := render.Point{X: 60, Y: 60}
	path := render.Path{}.Move(at).Arc(20, false, true, at).Arc(20, true, false, render.Point{X: 60, Y: 60.0001}).Line(render.Point{X: 70, Y: 60})
	page.Marks = []render.Mark{&render.Stroke{Tagged: render.Tagged{Guide: "belt"}, Path: path, Pen: render.Pen{Width: 0.5}}}
	content := pdfPages(t, pdfOf(t, page))[0]
	if want := "60 60 m\n70 60 l\nS\n"; !strings.Contains(content, want) {
		t.Errorf("the PDF draws %q, want %q", content, want)
	}
}

func mapsEqual(a, b map[string]bool) bool {
	for k := range a {
		if !b[k] {
			return false
		}
	}
	return len(a) == len(b)
}

func TestSameBytesAgain(t *testing.T) {
	if !bytes.Equal(svgOf(t, testpage.Sample()), svgOf(t, testpage.Sample())) {
		t.Error("two SVGs of one page differ")
	}
	if !bytes.Equal(pdfOf(t, testpage.Sample(), testpage.Busy()), pdfOf(t, testpage.Sample(), testpage.Busy())) {
		t.Error("two PDFs of one document differ")
	}
}

// TestNumbersInFiles: at most three decimals, no exponent, no negative zero.
func TestNumbersInFiles(t *testing.T) {
	right := regexp.MustCompile(`^(-?\d+\.\d{1,3}|-?\d+)$`)
	zero := regexp.MustCompile(`^-0(\.0*)?$`)
	check := func(where, number string) {
		if !right.MatchString(number) || zero.MatchString(number) {
			t.Errorf("%s: number %q", where, number)
		}
	}
	p := testpage.Sample()
	for _, path := range []render.Path{
		render.Path{}.Move(render.Point{X: -0.0001, Y: 0.00049}).Line(render.Point{X: 123456.78951, Y: -1e-9}),
		render.Path{}.Move(render.Point{X: -0.0001, Y: 1e-300}).Line(render.Point{X: 0.0005, Y: -0.05}).Line(render.Point{X: 1. / 3, Y: 200.9996}),
	} {
		p.Marks = append(p.Marks, &render.Stroke{Tagged: render.Tagged{Guide: "ground"}, Pen: render.Pen{Width: 0.13}, Path: path})
	}
	for _, e := range readSVG(t, svgOf(t, p)) {
		for _, name := range []string{"x1", "y1", "x2", "y2", "cx", "cy", "r", "x", "y", "stroke-width", "font-size"} {
			if v, ok := e.attributes[name]; ok {
				check("SVG "+e.name+" "+name, v)
			}
		}
		for _, v := range pathToken.FindAllString(e.attributes["d"], -1) {
			if !strings.ContainsAny(v, "MLCAZ") {
				check("SVG path", v)
			}
		}
	}
	for _, op := range pdfOperations(pdfPages(t, pdfOf(t, p))[0]) {
		switch op.name {
		case "m", "l", "c", "w", "RG", "rg":
			for _, v := range op.operands {
				check("PDF "+op.name, v)
			}
		case "Tm":
			check("PDF Tm", op.operands[4])
			check("PDF Tm", op.operands[5])
		}
	}
}

func TestSVGContract(t *testing.T) {
	elements := readSVG(t, svgOf(t, testpage.Sample()))
	root := elements[0].attributes
	if root["width"] != "420mm" || root["height"] != "297mm" || root["viewBox"] != "0 0 420 297" {
		t.Errorf("root: %v", root)
	}
	var layers, ids []string
	for i, e := range elements {
		if _, ok := e.attributes["transform"]; ok && e.name != "text" {
			t.Errorf("%s has a transform", e.name)
		}
		if e.name == "use" || e.name == "svg" && e.depth > 0 || strings.Contains(e.attributes["style"], "transform") {
			t.Errorf("%s %v is against the contract", e.name, e.attributes)
		}
		if e.name == "g" {
			name := strings.TrimPrefix(e.attributes["id"], "guide-")
			layers = append(layers, name)
			if e.depth != 1 || e.attributes["groupmode"] != "layer" || e.attributes["label"] != name || elements[i+1].name != "title" || elements[i+1].text == "" {
				t.Errorf("layer %v", e)
			}
		}
		if id := e.attributes["id"]; id != "" {
			if slices.Contains(ids, id) {
				t.Errorf("id %q occurs twice", id)
			}
			ids = append(ids, id)
		}
	}
	if want := []string{"ground", "wheels", "belt", "labels"}; !slices.Equal(layers, want) {
		t.Errorf("layers %v, want %v", layers, want)
	}
	for id, want := range map[string]string{"ground": "line", "wheel-front": "circle", "wheel-rear": "circle", "axle-line": "line", "outline": "path"} {
		i := slices.IndexFunc(elements, func(e element) bool { return e.attributes["id"] == id })
		if i < 0 || elements[i].name != want {
			t.Errorf("%s is not a %s", id, want)
		}
	}
	if words := elements[slices.IndexFunc(elements, func(e element) bool { return e.name == "text" })].text; words != "belt 1.69  AV To. office fjord" {
		t.Errorf("first words %q", words)
	}
}

package render_test

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Small readers of written files. They share no code with the writers.

// element is one XML element of an SVG.
type element struct {
	name       string
	attributes map[string]string
	text       string
	depth      int
}

func readSVG(t *testing.T, data []byte) []element {
	t.Helper()
	var out []element
	var open []int
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatalf("the SVG is not XML: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attributes: map[string]string{}, depth: len(open)}
			for _, a := range token.Attr {
				e.attributes[a.Name.Local] = a.Value
			}
			open = append(open, len(out))
			out = append(out, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, i := range open {
				out[i].text += string(token)
			}
		}
	}
}

func Number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("%q is no number", s)
	}
	return v
}

var pathToken = regexp.MustCompile(`[MLCAZ]|-?[0-9.]+`)

// place is a point that a line passes through, in millimetres.
type place struct{ x, y float64 }

// svgPlaces returns the points on all lines and areas of an SVG in order: ends of steps, and quarters of circles.
func svgPlaces(t *testing.T, elements []element) []place {
	t.Helper()
	var out []place
	for _, e := range elements {
		get := func(name string) float64 { return Number(t, e.attributes[name]) }
		switch e.name {
		case "line":
			out = append(out, place{get("x1"), get("y1")}, place{get("x2"), get("y2")})
		case "circle":
			x, y, r := get("cx"), get("cy"), get("r")
			out = append(out, place{x + r, y}, place{x, y + r}, place{x - r, y}, place{x, y - r}, place{x + r, y})
		case "path":
			tokens := pathToken.FindAllString(e.attributes["d"], -1)
			operands := map[string]int{"M": 2, "L": 2, "C": 6, "A": 7, "Z": 0}
			for len(tokens) > 0 {
				n, ok := operands[tokens[0]]
				if !ok {
					t.Fatalf("path %q: %q is no command", e.attributes["d"], tokens[0])
				}
				if n > 0 {
					out = append(out, place{Number(t, tokens[n-1]), Number(t, tokens[n])})
				}
				tokens = tokens[n+1:]
			}
		}
	}
	return out
}

var streamHead = regexp.MustCompile(`\d+ 0 obj\n<</Filter/FlateDecode/Length (\d+)>>\nstream\n`)

// pdfPages returns the contents of the pages of a PDF, unpacked.
func pdfPages(t *testing.T, data []byte) []string {
	t.Helper()
	var out []string
	for _, at := range streamHead.FindAllSubmatchIndex(data, -1) {
		n, _ := strconv.Atoi(string(data[at[2]:at[3]]))
		r, err := zlib.NewReader(bytes.NewReader(data[at[1] : at[1]+n]))
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(content), " cm ") {
			out = append(out, string(content))
		}
	}
	return out
}

// operation is one operator of a PDF page with what stands before it.
type operation struct {
	name     string
	operands []string
}

func pdfOperations(content string) []operation {
	var out []operation
	var operands []string
	for _, token := range strings.Fields(content) {
		switch {
		case regexp.MustCompile(`^[a-zA-Z]+\*?$`).MatchString(token):
			out = append(out, operation{token, operands})
			operands = nil
		default:
			operands = append(operands, token)
		}
	}
	return out
}

// pdfPlaces returns the ends of all steps of a page's paths in order.
func pdfPlaces(t *testing.T, content string) []place {
	t.Helper()
	var out []place
	for _, op := range pdfOperations(content) {
		if n := len(op.operands); op.name == "m" || op.name == "l" || op.name == "c" {
			out = append(out, place{Number(t, op.operands[n-2]), Number(t, op.operands[n-1])})
		}
	}
	return out
}

func apart(a, b place) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }

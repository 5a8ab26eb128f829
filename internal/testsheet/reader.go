// Package testsheet helps tests of sheets: it reads drawn files back by code of its own, and finds overlaps and marks over the margin.
package testsheet

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/render"
	"hubrule/render/svg"
)

// SVG is a written sheet as a reader of its own sees it: by id, from the file's text alone.
type SVG struct {
	Width, Height string
	ViewBox       string
	Shapes        map[string]Shape // by id
	Groups        map[string]string
	Texts         []Text
	Repeated      []string // ids used twice
	Transforms    []string // elements other than text that carry a transform
	Elements      map[string]int
}

// Shape is an element with its attributes, and the group that it lies in.
type Shape struct {
	Element string
	Group   string
	At      map[string]string
}

// Num reads a numeric attribute; a missing one fails.
func (s Shape) Num(t testing.TB, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s.At[name], 64)
	if err != nil {
		t.Fatalf("attribute %s of <%s>: %v", name, s.Element, err)
	}
	return v
}

// Text is a line of words as it stands on the page, in mm.
type Text struct {
	Group, Words, Anchor string
	X, Y                 float64
}

// ReadSVG reads a sheet's file. It shares no code with the writer; a file that is not XML ends the test.
func ReadSVG(t testing.TB, data []byte) SVG {
	t.Helper()
	f := SVG{Shapes: map[string]Shape{}, Groups: map[string]string{}, Elements: map[string]int{}}
	if before, rest, found := bytes.Cut(data, []byte("<![CDATA[")); found { // the letters' shapes: many bytes that hold no element
		_, after, _ := bytes.Cut(rest, []byte("]]>"))
		data = slices.Concat(before, after)
	}
	d := xml.NewDecoder(bytes.NewReader(data))
	var groups []string
	var text *Text
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return f
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			s := f.count(tok)
			switch s.Element {
			case "svg":
				f.Width, f.Height, f.ViewBox = s.At["width"], s.At["height"], s.At["viewBox"]
			case "g":
				groups = append(groups, s.At["id"])
				f.Groups[s.At["id"]] = s.At["groupmode"]
			case "text":
				text = &Text{Group: groups[len(groups)-1], Anchor: s.At["text-anchor"]}
				text.X, text.Y = s.Num(t, "x"), s.Num(t, "y")
			}
			if len(groups) > 0 {
				s.Group = groups[len(groups)-1]
			}
			f.keep(s)
		case xml.CharData:
			if text != nil {
				text.Words += string(tok)
			}
		case xml.EndElement:
			switch tok.Name.Local {
			case "g":
				groups = groups[:len(groups)-1]
			case "text":
				text.Words = strings.TrimSpace(text.Words)
				f.Texts = append(f.Texts, *text)
				text = nil
			}
		}
	}
}

var idOf = regexp.MustCompile(` id="([^"]*)"`)

// RepeatedIDs lists the ids that a file uses twice. It is much quicker than ReadSVG.
func RepeatedIDs(data []byte) (twice []string) {
	seen := map[string]bool{}
	for _, m := range idOf.FindAllSubmatch(data, -1) {
		if id := string(m[1]); seen[id] {
			twice = append(twice, id)
		} else {
			seen[id] = true
		}
	}
	return twice
}

// count returns an element with its attributes, and counts it.
func (f *SVG) count(e xml.StartElement) Shape {
	s := Shape{Element: e.Name.Local, At: map[string]string{}}
	for _, a := range e.Attr {
		s.At[a.Name.Local] = a.Value
	}
	f.Elements[s.Element]++
	if s.At["transform"] != "" && s.Element != "text" {
		f.Transforms = append(f.Transforms, s.Element)
	}
	return s
}

// keep keeps an element under its id, if it has one.
func (f *SVG) keep(s Shape) {
	if id := s.At["id"]; id != "" && s.Element != "svg" {
		if _, twice := f.Shapes[id]; twice {
			f.Repeated = append(f.Repeated, id)
		}
		f.Shapes[id] = s
	}
}

// SvgOf writes a page as an SVG file.
func SvgOf(t testing.TB, p render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pathStep is one command of a path's d attribute, absolute as this writer's are.
type pathStep struct {
	Verb    byte
	Numbers []float64
}

// Kind says what number k of a step is: x, y, a radius r, or a flag or rotation f of an arc.
func (s pathStep) Kind(k int) byte {
	if s.Verb == 'A' {
		return "rrfffxy"[k%7]
	}
	return "xy"[k%2]
}

// PathSteps reads a d attribute; an empty one has no steps.
func PathSteps(t testing.TB, d string) (out []pathStep) {
	t.Helper()
	for i := 0; i < len(d); {
		if !strings.ContainsRune("MLCAZ", rune(d[i])) {
			t.Fatalf("path %q: unexpected %q", d, d[i])
		}
		end := i + 1
		for end < len(d) && !strings.ContainsRune("MLCAZ", rune(d[end])) {
			end++
		}
		step := pathStep{Verb: d[i]}
		for _, f := range strings.FieldsFunc(d[i+1:end], func(r rune) bool { return r == ' ' || r == ',' }) {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatalf("path %q: %v", d, err)
			}
			step.Numbers = append(step.Numbers, v)
		}
		out, i = append(out, step), end
	}
	return out
}

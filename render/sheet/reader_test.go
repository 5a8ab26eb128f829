package sheet

import (
	"bytes"
	"encoding/xml"
	"io"
	"strconv"
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/render/svg"
)

// svgFile is a written sheet as a stranger reads it: by id, from the file's text alone.
type svgFile struct {
	width, height string
	viewBox       string
	shapes        map[string]shape // by id
	groups        map[string]string
	texts         []svgText
	repeated      []string // ids used twice
	transforms    []string // elements other than text that carry a transform
	elements      map[string]int
}

type shape struct {
	element string
	group   string
	at      map[string]string
}

// num reads a numeric attribute; a missing one fails.
func (s shape) num(t testing.TB, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s.at[name], 64)
	if err != nil {
		t.Fatalf("attribute %s of <%s>: %v", name, s.element, err)
	}
	return v
}

type svgText struct {
	group, words, anchor string
	x, y                 float64
}

func readSVG(t testing.TB, data []byte) svgFile {
	t.Helper()
	f := svgFile{shapes: map[string]shape{}, groups: map[string]string{}, elements: map[string]int{}}
	d := xml.NewDecoder(bytes.NewReader(data))
	var groups []string
	var text *svgText
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
			s := shape{element: tok.Name.Local, at: map[string]string{}}
			for _, a := range tok.Attr {
				s.at[a.Name.Local] = a.Value
			}
			f.elements[s.element]++
			if s.at["transform"] != "" && s.element != "text" {
				f.transforms = append(f.transforms, s.element)
			}
			switch s.element {
			case "svg":
				f.width, f.height, f.viewBox = s.at["width"], s.at["height"], s.at["viewBox"]
			case "g":
				groups = append(groups, s.at["id"])
				f.groups[s.at["id"]] = s.at["groupmode"]
			case "text":
				text = &svgText{group: groups[len(groups)-1], anchor: s.at["text-anchor"]}
				text.x, text.y = s.num(t, "x"), s.num(t, "y")
			}
			if len(groups) > 0 {
				s.group = groups[len(groups)-1]
			}
			if id := s.at["id"]; id != "" && s.element != "svg" {
				if _, twice := f.shapes[id]; twice {
					f.repeated = append(f.repeated, id)
				}
				f.shapes[id] = s
			}
		case xml.CharData:
			if text != nil {
				text.words += string(tok)
			}
		case xml.EndElement:
			switch tok.Name.Local {
			case "g":
				groups = groups[:len(groups)-1]
			case "text":
				text.words = strings.TrimSpace(text.words)
				f.texts = append(f.texts, *text)
				text = nil
			}
		}
	}
}

// sheetsOf composes and writes one plan's sheets and reads them back.
func sheetsOf(t testing.TB, p layout.Plan, s request.Setting, kinds ...request.Kind) []svgFile {
	t.Helper()
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	var out []svgFile
	for _, page := range doc.Pages {
		out = append(out, readSVG(t, svgOf(t, page)))
	}
	return out
}

func svgOf(t testing.TB, p render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pathStep is one command of a path's d attribute, absolute as this writer's are.
type pathStep struct {
	verb    byte
	numbers []float64
}

// kind says what number k of a step is: x, y, a radius r, or a flag or rotation f of an arc.
func (s pathStep) kind(k int) byte {
	if s.verb == 'A' {
		return "rrfffxy"[k%7]
	}
	return "xy"[k%2]
}

// pathSteps reads a d attribute; an empty one has no steps.
func pathSteps(t testing.TB, d string) (out []pathStep) {
	t.Helper()
	for i := 0; i < len(d); {
		if !strings.ContainsRune("MLCAZ", rune(d[i])) {
			t.Fatalf("path %q: unexpected %q", d, d[i])
		}
		end := i + 1
		for end < len(d) && !strings.ContainsRune("MLCAZ", rune(d[end])) {
			end++
		}
		step := pathStep{verb: d[i]}
		for _, f := range strings.FieldsFunc(d[i+1:end], func(r rune) bool { return r == ' ' || r == ',' }) {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatalf("path %q: %v", d, err)
			}
			step.numbers = append(step.numbers, v)
		}
		out, i = append(out, step), end
	}
	return out
}

package strict

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"gopkg.in/yaml.v3"

	"hubrule/internal/slice"
)

// ParseJSON reads a value that came without a file, as another program sends it. Its places are the paths of its values, and a number may
// stand in quotes. The error is about JSON itself (RFC 8259); names of one object are to be unique (RFC 7493, 2.3, MEM).
func ParseJSON(data []byte) (*Document, error) {
	d := &Document{isJSON: true}
	r := jsonReader{json.NewDecoder(bytes.NewReader(data)), 0}
	r.UseNumber()
	var err error
	if d.top, err = r.node(0); err != nil {
		return nil, err
	}
	if _, err := r.Token(); err != io.EOF {
		return nil, errors.New("more than one value; want one")
	}
	d.refuse(d.Top(), 0)
	return d, nil
}

// jsonReader turns JSON into the nodes that a file would have. They are numbered in their order, which sorts the problems.
type jsonReader struct {
	*json.Decoder
	count int
}

func (r *jsonReader) node(depth int) (*yaml.Node, error) {
	token, err := r.Token()
	if err == io.EOF {
		err = io.ErrUnexpectedEOF
	}
	if err != nil {
		return nil, err
	}
	if depth > maxDepth {
		return nil, fmt.Errorf("nested more than %d deep", maxDepth)
	}
	r.count++
	y := &yaml.Node{Kind: yaml.ScalarNode, Line: r.count, Column: 1}
	switch token := token.(type) {
	case json.Delim:
		y.Kind = yaml.SequenceNode
		if token == '{' {
			y.Kind = yaml.MappingNode
		}
		return y, r.items(y, depth)
	case string:
		y.Value, y.Style = token, yaml.DoubleQuotedStyle
	case json.Number:
		y.Value = token.String()
	case bool:
		y.Value = strconv.FormatBool(token)
	default:
		y.Value = "null"
	}
	return y, nil
}

// items reads what a list or a table holds.
func (r *jsonReader) items(y *yaml.Node, depth int) error {
	seen := map[string]bool{}
	for r.More() {
		item, err := r.node(depth + 1)
		if err != nil {
			return err
		}
		if y.Kind == yaml.MappingNode && len(y.Content)%2 == 0 {
			if seen[item.Value] {
				return fmt.Errorf("%s stands twice; want it once", Quote(item.Value))
			}
			seen[item.Value] = true
		}
		y.Content = append(y.Content, item)
	}
	_, err := r.Token() // the end
	return err
}

// JSON returns v for another program, tables in their order. A number that is written in another way than the shortest stays a text: its
// digits say how exact it is. Keys of v itself may be left out.
func (v Value) JSON(without ...string) []byte {
	switch v.shape() {
	case table:
		var fields [][]byte
		for pair := range slices.Chunk(v.node.Content, 2) {
			if slices.Contains(without, pair[0].Value) {
				continue
			}
			fields = append(fields, fmt.Appendf(nil, "%s:%s", inJSON(pair[0].Value), Value{v.doc, pair[1], ""}.JSON()))
		}
		return fmt.Appendf(nil, "{%s}", bytes.Join(fields, []byte(",")))
	case list:
		items := slice.Map(v.items(), func(item Value) []byte { return item.JSON() })
		return fmt.Appendf(nil, "[%s]", bytes.Join(items, []byte(",")))
	case number:
		text := v.node.Value
		x, plain := ParseNumber(text)
		if text == "true" || text == "false" || plain && strconv.FormatFloat(x, 'f', -1, 64) == text {
			return []byte(text)
		}
	case broken, nothing:
		return []byte("null")
	}
	return inJSON(v.node.Value)
}

func inJSON(text string) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(text) // a text into memory
	return bytes.TrimSpace(b.Bytes())
}

package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"

	"hubrule/internal/cli"
	photograph "hubrule/internal/picture"
	"hubrule/segments/reading"
)

// readings are the sheets that are made from pictures: what docs/tools/school painted and marked.
var readings = []struct{ file, command string }{
	{"school-check.png", "read --show docs/examples/school/photos/averle.yaml"},
	{"school-photo.png", "read docs/examples/school/photos/averle.yaml"},
	{"school-against.png", "read docs/examples/school/photos/hestrin.yaml --against hatchback"},
	{"school-norms.png", "norms docs/examples/school/photos --like crossover"},
	{"school-underlay.png", "draw docs/examples/school/tarnholt.yaml"},
	{"school-sketch.png", "read docs/examples/school/sketch.yaml --against docs/examples/school/brief.yaml"},
	{"school-class.png", "read docs/examples/school/sketches --against docs/examples/school/class.yaml"},
}

// markTable lists what can be marked on a picture.
func markTable() string {
	var b strings.Builder
	b.WriteString("| mark | points | where | inboard |\n|---|---|---|---|\n")
	for _, n := range reading.Names() {
		m := n.Info()
		points, inboard := fmt.Sprintf("%d to %d", m.Least, m.Most), ""
		switch {
		case m.Least == m.Most:
			points = fmt.Sprint(m.Least)
		case m.Most > 8:
			points = "many"
		}
		switch {
		case m.OnCentre:
			inboard = "centre"
		case m.Deviation > 0:
			inboard = fmt.Sprint(m.Inboard)
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", n, points, m.Where, inboard)
	}
	return b.String()
}

// drawReading draws a sheet and makes its picture small enough for a page of the docs: of several pages the first.
func drawReading(file, command string) error {
	const wide = 1400
	temporary, err := os.MkdirTemp("", "gallery")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	var out bytes.Buffer
	args := append(strings.Fields(command), "-o", filepath.Join(temporary, "tarnholt.png"))
	if code := cli.Main(args, strings.NewReader(""), &out, &out); code != 0 {
		return fmt.Errorf("hubrule %s: exit %d: %s", command, code, &out)
	}
	drawn, err := filepath.Glob(filepath.Join(temporary, "*"))
	if err != nil {
		return err
	}
	if len(drawn) == 0 {
		return fmt.Errorf("hubrule %s: nothing drawn", command)
	}
	full, err := photograph.Decode(drawn[0])
	if err != nil {
		return err
	}
	size := full.Rect.Size()
	high := size.Y * wide / size.X
	small := image.NewRGBA(image.Rect(0, 0, wide, high))
	along := func(n, to int) photograph.Axis { return photograph.NewAxis(n, 0, int64(to)*photograph.Grid, 0, to) }
	s := photograph.NewSampler(full, along(size.X, wide), along(size.Y, high))
	for y := range high {
		s.Row(y, small.Pix[y*small.Stride:])
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, small); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, file), b.Bytes(), 0o666)
}

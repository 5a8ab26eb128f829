//go:build unix

package main

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"gopkg.in/yaml.v3"
)

// caseFile is a marks file of testdata/reading, as far as tests need it.
type caseFile struct {
	Size   [2]int               `yaml:"size"`
	Facing string               `yaml:"facing"`
	Marks  map[string]yaml.Node `yaml:"marks"`
	known  map[string]any
}

// readCase reads one.
func readCase(t *testing.T, name string) caseFile {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../../testdata/reading", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var c caseFile
	if err := yaml.Unmarshal(data, &c); err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal(data, &c.known); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"kind", "marks", "picture", "size"} {
		delete(c.known, key)
	}
	return c
}

// point is a place in pixels of a picture.
type point struct{ x, y float64 }

// points returns the points of a mark, in the form that a file has them: one or several, each a pair or with `at`.
func (c caseFile) points(t *testing.T, name string) (out []point) {
	t.Helper()
	node, ok := c.Marks[name]
	if !ok {
		return nil
	}
	var all []yaml.Node
	if node.Kind == yaml.MappingNode || node.Content[0].Kind == yaml.ScalarNode {
		all = []yaml.Node{node}
	} else if err := node.Decode(&all); err != nil {
		t.Fatal(err)
	}
	for _, n := range all {
		var pair [2]float64
		var table struct{ At [2]float64 }
		if n.Decode(&pair) != nil {
			if err := n.Decode(&table); err != nil {
				t.Fatal(err)
			}
			pair = table.At
		}
		out = append(out, point{pair[0], pair[1]})
	}
	return out
}

// made draws a picture in which the edges of the near tyres run through their marks, dark on a lighter ground. It is a JPEG in a folder.
func (c caseFile) made(t *testing.T, folder string) string {
	t.Helper()
	pixels := image.NewGray(image.Rect(0, 0, c.Size[0], c.Size[1]))
	draw.Draw(pixels, pixels.Rect, image.NewUniform(color.Gray{Y: 150}), image.Point{}, draw.Src)
	for _, tyre := range []string{"tyre-front", "tyre-rear"} {
		fill(pixels, closed(c.points(t, tyre)), color.Gray{Y: 40})
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, pixels, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "made.jpg")
	if err := os.WriteFile(path, file.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// closed returns a smooth closed line through points, which it brings into their order round their middle.
func closed(through []point) []point {
	var middle point
	for _, p := range through {
		middle.x, middle.y = middle.x+p.x/float64(len(through)), middle.y+p.y/float64(len(through))
	}
	angle := func(p point) float64 { return math.Atan2(p.y-middle.y, p.x-middle.x) }
	through = slices.Clone(through)
	slices.SortFunc(through, func(a, b point) int {
		if angle(a) < angle(b) {
			return -1
		}
		return 1
	})
	// Between the marks the distance from the middle goes smoothly with the angle: the marks of a tyre lie on all sides of it.
	var out []point
	for i, a := range through {
		b := through[(i+1)%len(through)]
		from, to := angle(a), angle(b)
		if to < from {
			to += 2 * math.Pi
		}
		ra, rb := math.Hypot(a.x-middle.x, a.y-middle.y), math.Hypot(b.x-middle.x, b.y-middle.y)
		for k := range 24 {
			s := float64(k) / 24
			at, r := from+s*(to-from), ra+(rb-ra)*(1-math.Cos(math.Pi*s))/2
			out = append(out, point{middle.x + r*math.Cos(at), middle.y + r*math.Sin(at)})
		}
	}
	return out
}

// fill fills a polygon, row by row with smooth edges.
func fill(pixels *image.Gray, edge []point, ink color.Gray) {
	const rows = 4 // of a pixel
	for y := range pixels.Rect.Dy() {
		cover := make([]float64, pixels.Rect.Dx())
		for k := range rows {
			at := float64(y) + (float64(k)+.5)/rows
			var cuts []float64
			for i, a := range edge {
				b := edge[(i+1)%len(edge)]
				if (a.y <= at) != (b.y <= at) {
					cuts = append(cuts, a.x+(at-a.y)/(b.y-a.y)*(b.x-a.x))
				}
			}
			slices.Sort(cuts)
			for i := 0; i+1 < len(cuts); i += 2 {
				for x := max(0, int(cuts[i])); x < len(cover) && float64(x) < cuts[i+1]; x++ {
					cover[x] += (math.Min(cuts[i+1], float64(x)+1) - math.Max(cuts[i], float64(x))) / rows
				}
			}
		}
		for x, c := range cover {
			if c > 0 {
				old := float64(pixels.GrayAt(x, y).Y)
				pixels.SetGray(x, y, color.Gray{Y: uint8(old + c*(float64(ink.Y)-old))})
			}
		}
	}
}

// turnedJPEG writes a JPEG of a picture as a camera that was held so stores it: EXIF 2.32, 4.6.4 A (MEM), says how to turn it back. Focal
// is the length of the lens for 35 mm film; 0 is not known.
func turnedJPEG(t *testing.T, upright image.Image, orientation, focal int, path string) {
	t.Helper()
	w, h := upright.Bounds().Dx(), upright.Bounds().Dy()
	sw, sh := w, h
	if orientation > 4 {
		sw, sh = h, w
	}
	stored := image.NewRGBA(image.Rect(0, 0, sw, sh))
	for y := range sh {
		for x := range sw {
			// where the stored pixel lies on the upright picture: 0th row and column as the table of EXIF has them
			at := [...]image.Point{1: {x, y}, 2: {w - 1 - x, y}, 3: {w - 1 - x, h - 1 - y}, 4: {x, h - 1 - y},
				5: {y, x}, 6: {w - 1 - y, x}, 7: {w - 1 - y, h - 1 - x}, 8: {y, h - 1 - x}}[orientation]
			stored.Set(x, y, upright.At(at.X, at.Y))
		}
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, stored, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	be := binary.BigEndian
	tiff := []byte("MM\x00\x2a\x00\x00\x00\x08")
	entry := func(tag, kind uint16, v uint32) []byte {
		out := be.AppendUint32(be.AppendUint16(be.AppendUint16(nil, tag), kind), 1)
		if kind == 3 { // SHORT: left in its field
			return be.AppendUint32(out, v<<16)
		}
		return be.AppendUint32(out, v)
	}
	tiff = append(be.AppendUint16(tiff, 2), entry(0x0112, 3, uint32(orientation))...)
	tiff = append(append(tiff, entry(0x8769, 4, 38)...), 0, 0, 0, 0)
	tiff = append(be.AppendUint16(tiff, 1), entry(0xa405, 3, uint32(focal))...)
	tiff = append(tiff, 0, 0, 0, 0)
	exif := append([]byte("Exif\x00\x00"), tiff...)
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1}, be.AppendUint16(nil, uint16(len(exif)+2))...)
	if err := os.WriteFile(path, append(append(head, exif...), file.Bytes()[2:]...), 0o644); err != nil {
		t.Fatal(err)
	}
}

package screen_test

import (
	"encoding/xml"
	"io"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/photo"
	"hubrule/render/screen"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// readFile reads a marks file of testdata.
func readFile(t testing.TB, path string) (reading.Marks, reading.Reading) {
	t.Helper()
	file, err := reading.LoadMarks(path, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := file.Reading()
	if err != nil {
		t.Fatal(err)
	}
	return file.Marks, r
}

// rings returns the centres of all circles of an SVG, in its units.
func rings(t *testing.T, svg []byte) (out []render.Point) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(string(svg)))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "circle" {
			at := map[string]float64{}
			for _, a := range e.Attr {
				at[a.Name.Local], _ = strconv.ParseFloat(a.Value, 64)
			}
			out = append(out, render.Point{X: geom.MM(at["cx"]), Y: geom.MM(at["cy"])})
		}
	}
}

// The drawing lies on the part of the picture that is shown, whichever way the vehicle faces: the ring about the nose stands at its mark.
// The picture stands where it stands without a reading, words keep off each other, and nothing leaves the screen.
func TestPhotosLieOnTheirPictures(t *testing.T) {
	files, err := filepath.Glob("../../testdata/reading/*-exact.yaml")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, path := range append(files, "../../docs/examples/school/sketch.yaml") {
		marks, r := readFile(t, path)
		nose := marks.Points[reading.Nose][0].At
		suv := plan(t, "suv")
		for i, s := range []screen.Screen{{Width: 1400, Height: 800, Lettering: 13}, {Width: 660, Height: 500, Lettering: 13, Dark: true}, {Width: 390, Height: 700, Lettering: 13},
			{Width: 1600, Height: 300, Lettering: 26}} {
			whole := screen.Shown{0, 0, float64(marks.Width), float64(marks.Height)}
			part := screen.Shown{float64(nose.X) / 2, float64(nose.Y) / 2, float64(marks.Width) / 3, float64(marks.Height) / 2}
			if marks.FacesRight {
				part[0] = float64(marks.Width) - part[2]
			}
			for _, shown := range []screen.Shown{whole, part} {
				for _, against := range [][]*layout.Plan{{nil}, {nil, &suv}}[i%2] {
					sheet := photo.Sheet{Reading: r, Against: against, Name: "suv"}
					if against != nil {
						sheet.Differences = r.AgainstRange(*against)
					}
					out, err := screen.ComposePhoto(sheet, s, shown)
					if err != nil {
						t.Fatal(path, err)
					}
					bare, err := screen.FramePhoto(s, shown)
					if err != nil || bare.Box != out.Box || bare.Height != out.Height {
						t.Errorf("%s on %v: the picture stands at %v without a reading, at %v with it", path, s, bare.Box, out.Box)
					}
					if ratio := out.Box[2] / out.Box[3] * shown[3] / shown[2]; math.Abs(ratio-1) > 1e-9 {
						t.Errorf("%s on %v: a picture in %v", path, s, out.Box)
					}
					checkWords(t, path, s, out)
					if k := out.Box[2] / shown[2]; against == nil && r.Figures[segments.FrontOverhangAxle].State == reading.Read {
						want := [2]float64{out.Box[0] + (float64(nose.X)-shown[0])*k, out.Box[1] + (float64(nose.Y)-shown[1])*k}
						found := math.Inf(1)
						for _, c := range rings(t, out.SVG) {
							found = min(found, math.Hypot(float64(c.X)-want[0], float64(c.Y)-want[1]))
						}
						if found > .01 {
							t.Errorf("%s on %v: no ring near the nose at %v; %g px off", path, s, want, found)
						}
					}
				}
			}
		}
	}
}

// checkWords refuses words that are too small, leave the screen or touch others; numbers on the picture may stand close.
func checkWords(t *testing.T, path string, s screen.Screen, p screen.Photo) {
	t.Helper()
	if s.Width < 49*s.Lettering != (len(p.Words) == 0) {
		t.Errorf("%s on %v: %d words", path, s, len(p.Words))
	}
	type box struct{ x0, x1, y0, y1 float64 }
	var boxes []box
	for _, w := range p.Words {
		width := 0.
		for _, span := range w.Spans {
			width += float64(fonts.Width(span.Text, 1, span.Weight)) * w.Size / float64(fonts.Size(1))
		}
		x := float64(w.At.X) - width*float64(w.Anchor)/2
		b := box{x, x + width, float64(w.At.Y) - .7*w.Size, float64(w.At.Y) + .2*w.Size}
		if w.Size < s.Lettering-1e-6 || b.x0 < 0 || b.x1 > p.Width || b.y0 < 0 || b.y1 > p.Height {
			t.Errorf("%s on %v: %v of %g px in %v leaves the screen of %g by %g", path, s, w.Spans, w.Size, b, p.Width, p.Height)
		}
		for i, o := range boxes {
			if b.x0 < o.x1 && b.x1 > o.x0 && b.y0 < o.y1 && b.y1 > o.y0 {
				t.Errorf("%s on %v: %v stands on %v", path, s, w.Spans, p.Words[i].Spans)
			}
		}
		boxes = append(boxes, b)
	}
}

// A part of a picture that is none is refused, and so is a screen that is none.
func TestFrameRefusals(t *testing.T) {
	for _, shown := range []screen.Shown{{}, {0, 0, 100, 0}, {0, 0, math.NaN(), 100}, {-5, 0, 100, 100}, {0, 0, 1e9, 1e9}, {0, 0, 1e4, 10}, {math.Inf(1), 0, 100, 100}} {
		if out, err := screen.FramePhoto(desktop, shown); err == nil {
			t.Errorf("shown %v stands in %v", shown, out.Box)
		}
	}
	if _, err := screen.FramePhoto(screen.Screen{Width: 1e6, Height: 600, Lettering: 13}, screen.Shown{0, 0, 100, 100}); err == nil {
		t.Error("a screen a million pixels wide was taken")
	}
}

// BenchmarkPhoto: a segment over the picture; most of the time goes into what its camera sees.
func BenchmarkPhoto(b *testing.B) {
	marks, r := readFile(b, "../../docs/examples/school/photos/averle.yaml")
	suv := plan(b, "suv")
	sheet := photo.Sheet{Reading: r, Against: &suv, Name: "suv", Differences: r.AgainstRange(suv)}
	s := screen.Screen{Width: 1400, Height: 800, Lettering: 13}
	for b.Loop() {
		if _, err := screen.ComposePhoto(sheet, s, screen.Shown{0, 0, float64(marks.Width), float64(marks.Height)}); err != nil {
			b.Fatal(err)
		}
	}
}

package sheet

import (
	"bytes"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

const warpDPI = 75.

// warped is a side sheet that ImageMagick has photographed.
type warped struct {
	t       *testing.T
	sheet   testsheet.SVG
	picture string // its path
	matrix  [8]float64
	inboard string // of every mark of the body; "" where the sheet is known
}

// see returns where a place of the sheet lies in the picture, by the matrix that ImageMagick printed.
func (w *warped) see(x, y float64) (px, py float64) {
	m, x, y := w.matrix, x*warpDPI/25.4, y*warpDPI/25.4
	d := m[6]*x + m[7]*y + 1
	return (m[0]*x + m[1]*y + m[2]) / d, (m[3]*x + m[4]*y + m[5]) / d
}

// at writes a place as marks files do.
func (w *warped) at(x, y float64) string {
	px, py := w.see(x, y)
	return fmt.Sprintf("[%.1f, %.1f]", px, py)
}

// body writes a mark on the body.
func (w *warped) body(x, y float64) string {
	if w.inboard == "" {
		return w.at(x, y)
	}
	return fmt.Sprintf("{at: %s, inboard: %s}", w.at(x, y), w.inboard)
}

// on returns the place of a line of the sheet, a share of its way along.
func (w *warped) on(id string, share float64) (x, y float64) {
	s, ok := w.sheet.Shapes[id]
	if !ok || s.Element != "line" {
		w.t.Fatalf("no line %s", id)
	}
	num := func(name string) float64 { return s.Num(w.t, name) }
	return num("x1") + share*(num("x2")-num("x1")), num("y1") + share*(num("y2")-num("y1"))
}

// tyre writes points of a drawn circle.
func (w *warped) tyre(id string) string {
	s := w.sheet.Shapes[id]
	var out []string
	for _, a := range []float64{-25, 10, 45, 80, 100, 135, 170, 205} {
		sin, cos := math.Sincos(a * math.Pi / 180)
		out = append(out, w.at(s.Num(w.t, "cx")+s.Num(w.t, "r")*cos, s.Num(w.t, "cy")-s.Num(w.t, "r")*sin))
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// marks writes the marks file of the picture, after lines about the camera or the sheet.
func (w *warped) marks(tyre string, head ...string) string {
	one := func(id string, share float64) string { return w.body(w.on(id, share)) }
	two := func(id string, a float64, other string, b float64) string {
		return "[" + one(id, a) + ", " + one(other, b) + "]"
	}
	lines := append([]string{"kind: marks", "picture: " + w.picture, "facing: left", "tyre: " + tyre, "pm: 1.5", "stands-on: circles"}, head...)
	lines = append(lines, "marks:",
		"  tyre-front: "+w.tyre("wheel-front"), "  tyre-rear: "+w.tyre("wheel-rear"),
		"  nose: "+one("nose", .5), "  tail: "+one("tail", .5), "  roof: "+one("roof", .4), "  sill: "+one("sill", .5), "  lowest: "+one("clearance", .5),
		"  belt: "+two("belt-ahead", .9, "belt", .7), "  pillar: "+two("pillar", 0, "pillar", 1), "  glass-end: "+one("glass-end", .8),
		"  front-lamp: "+two("lamp-front", .5, "lamp-front-top", .5), "  rear-lamp: "+two("lamp-rear", .5, "lamp-rear-top", .5))
	return strings.Join(lines, "\n") + "\n"
}

// wallCamera stands before a sheet as if it were a vehicle: yaw in degrees, positive where the camera stands farther back; distance and eye
// height in wheels; focal length of 36 by 24 mm.
type wallCamera struct{ yaw, distance, eye, focal float64 }

// corners returns where the sheet's corners lie in the flat picture and in one of its size by c, as ImageMagick takes them.
func (c wallCamera) corners(t *testing.T, w *warped) string {
	front, rear := w.sheet.Shapes["wheel-front"], w.sheet.Shapes["wheel-rear"]
	x0, base, r := front.Num(t, "cx"), rear.Num(t, "cx"), front.Num(t, "r")
	ground := front.Num(t, "cy") + r
	const width, height, scale = 420., 297., warpDPI / 25.4
	sin, cos := math.Sincos(c.yaw * math.Pi / 180)
	middle := (base - x0) / (4 * r)
	tilt := math.Atan2(c.eye-1.2, c.distance)
	out := ""
	for _, k := range [][2]float64{{0, 0}, {width, 0}, {width, height}, {0, height}} {
		x, y := (k[0]-x0)/(2*r)-middle-c.distance*sin, (ground-k[1])/(2*r)-c.eye
		right, ahead := x*cos+c.distance*cos*sin, -x*sin+c.distance*cos*cos // level axes; the sheet stands c.distance·cos before the eye
		depth := ahead*math.Cos(tilt) - y*math.Sin(tilt)
		up := ahead*math.Sin(tilt) + y*math.Cos(tilt)
		f := c.focal * math.Hypot(width, height) / 43.267
		out += fmt.Sprintf("%.4f,%.4f %.4f,%.4f ", k[0]*scale, k[1]*scale, (width/2+f*right/depth)*scale, (height/2-f*up/depth)*scale)
	}
	return out
}

// warp draws a side sheet as SVG and PNG and has ImageMagick look at the PNG askew, with noise.
func warp(t *testing.T, p layout.Plan, framed bool, c wallCamera) *warped {
	t.Helper()
	setting := testsheet.Setting(t, "A3")
	setting.Frame = framed
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: setting})
	if err != nil {
		t.Fatal(err)
	}
	flat := outside.File(t, "flat.png", pngOf(t, doc.Pages[0], warpDPI))
	w := &warped{t: t, sheet: testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0])), picture: filepath.Join(filepath.Dir(flat), "askew.png")}
	corners := c.corners(t, w)
	said := outside.Run(t, "sh", "-c",
		`convert "$1" -colorspace Gray -virtual-pixel white -verbose -distort Perspective "$2" -seed 14 -attenuate .3 +noise Gaussian "$3" 2>&1`, "sh", flat, corners, w.picture)
	numbers := regexp.MustCompile(`(?s)PerspectiveProjection \\\s+'([^']*)'`).FindSubmatch(said)
	if numbers == nil {
		t.Fatalf("no matrix in\n%s", said)
	}
	fields := strings.Split(string(numbers[1]), ",")
	for i := range w.matrix {
		if w.matrix[i], err = strconv.ParseFloat(strings.TrimSpace(fields[i]), 64); err != nil {
			t.Fatal(err)
		}
	}
	return w
}

// checkInk wants the tyres' lines dark where the matrix says that they are: picture and numbers belong together.
func (w *warped) checkInk() {
	data, err := os.ReadFile(w.picture)
	if err != nil {
		w.t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		w.t.Fatal(err)
	}
	s := w.sheet.Shapes["wheel-rear"]
	for _, share := range []float64{1, .93} { // on the line, and inside it
		sum := 0.
		for i := range 60 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 90)
			x, y := w.see(s.Num(w.t, "cx")+share*s.Num(w.t, "r")*cos, s.Num(w.t, "cy")-share*s.Num(w.t, "r")*sin)
			grey, _, _, _ := img.At(int(x), int(y)).RGBA()
			sum += float64(grey) / 65535 / 60
		}
		if dark := sum < .6; dark != (share == 1) {
			w.t.Errorf("mean grey %.2f at %g of the tyre's radius", sum, share)
		}
	}
}

// read reads a marks file beside the picture.
func (w *warped) read(text string) reading.Reading {
	w.t.Helper()
	file, err := reading.LoadMarks("-", strings.NewReader(text))
	if err != nil {
		w.t.Fatalf("%v\n%s", err, text)
	}
	r, err := file.Reading()
	if err != nil {
		w.t.Fatalf("%v\n%s", err, text)
	}
	return r
}

// figuresOfMarks are the figures that those marks give.
var figuresOfMarks = []segments.Figure{
	segments.Wheelbase, segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Length, segments.Height, segments.Belt,
	segments.Sill, segments.Clearance, segments.PillarAim, segments.GlassEnd, segments.FrontLamp, segments.RearLamp, segments.LampDepth,
}

// TestSheetsReadThroughWarps: a printed sheet that ImageMagick shows askew and noisy is read at its four centring marks, every length within
// .01 w, its check bar within a thousandth; and so is the same picture taken for a photograph with all marks in the wheels' plane, each figure
// within its ±. (CALC: the plan.)
func TestSheetsReadThroughWarps(t *testing.T) {
	outside.Need(t, "convert")
	t.Parallel()
	for _, c := range []struct {
		segment string
		framed  bool
		camera  wallCamera
	}{
		{"suv", false, wallCamera{8, 20, 1.9, 72}},
		{"sedan", true, wallCamera{-12, 24, 2.1, 75}},
	} {
		p := testsheet.Plan(t, c.segment)
		w := warp(t, p, c.framed, c.camera)
		w.checkInk()
		inner := map[string]float64{"left": 1, "top": 1, "right": 0, "bottom": 0} // the lines run right and down, of a frame inwards
		if c.framed {
			inner["right"], inner["bottom"] = 1, 1
		}
		sheet := fmt.Sprintf("on-sheet: {paper: A3, frame: %t", c.framed)
		for _, side := range []string{"left", "top", "right", "bottom"} {
			sheet += ", " + side + ": " + w.at(w.on("centre-"+side, inner[side]))
		}
		tyre := p.Profile.Wheel.String()
		sheet += fmt.Sprintf(", bar: [%s, %s]}", w.at(w.on("check-bar", 0)), w.at(w.on("check-bar", 1)))
		onSheet := w.read(w.marks(tyre, sheet))
		if bar := strings.Join(onSheet.Messages, "; "); bar != "the check bar comes out at 100.0 mm of 100" {
			t.Errorf("%s: %s", c.segment, bar)
		}
		w.inboard = "0.05w"
		photo := w.read(w.marks(tyre, "like: "+c.segment, fmt.Sprintf("focal: %g", c.camera.focal)))
		for _, f := range figuresOfMarks {
			if v := onSheet.Figures[f]; math.Abs(v.Value-p.Value(f)) > .01 || v.State != reading.Read {
				t.Errorf("%s on its sheet: %s %.4f ± %.4f, drawn as %.4f", c.segment, f, v.Value, v.PM, p.Value(f))
			}
			if v := photo.Figures[f]; math.Abs(v.Value-p.Value(f)) > min(.01, v.PM) {
				t.Errorf("%s as a photograph: %s %.4f ± %.4f, drawn as %.4f", c.segment, f, v.Value, v.PM, p.Value(f))
			}
		}
	}
}

package sheet

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// picturePixels is how many pixels a millimetre of a sheet makes.
const picturePixels = 10.

// drawnPicture is a perspective sheet taken for a photograph.
type drawnPicture struct {
	t     *testing.T
	file  testsheet.SVG
	eye   eyeOf
	marks reading.Marks
}

// set marks a place of the sheet; the lens's axis meets the picture's centre.
func (d *drawnPicture) set(n reading.Name, x, y float64) {
	at := reading.Point{
		X: reading.Pixel((x-d.eye.x)*picturePixels) + d.marks.Width/2, Y: reading.Pixel((y-d.eye.y)*picturePixels) + d.marks.Height/2,
	}
	d.marks.Points[n] = append(d.marks.Points[n], reading.Mark{At: at})
}

// tyre marks points of a drawn ellipse, at turns from its first point.
func (d *drawnPicture) tyre(n reading.Name, id string, degrees ...float64) {
	shape, ok := d.file.Shapes[id]
	if !ok {
		d.t.Fatalf("no %s", id)
	}
	steps := testsheet.PathSteps(d.t, shape.At["d"])
	arc := steps[1].Numbers
	cx, cy := arcCentre(steps[0].Numbers, arc)
	sin, cos := math.Sincos(arc[2] * math.Pi / 180)
	for _, a := range degrees { // a direction of the sheet
		up, right := math.Sincos(a * math.Pi / 180)
		u, v := (right*cos-up*sin)/arc[0], (-up*cos-right*sin)/arc[1]
		r := 1 / math.Hypot(u, v)
		d.set(n, cx+r*right, cy-r*up)
	}
}

// places returns the places of a drawn line.
func (d *drawnPicture) places(s testsheet.Shape) (out [][2]float64) {
	if s.Element == "line" {
		return [][2]float64{{s.Num(d.t, "x1"), s.Num(d.t, "y1")}, {s.Num(d.t, "x2"), s.Num(d.t, "y2")}}
	}
	for _, step := range testsheet.PathSteps(d.t, s.At["d"]) {
		if n := len(step.Numbers); n >= 2 && step.Verb != 'A' {
			out = append(out, [2]float64{step.Numbers[n-2], step.Numbers[n-1]})
		}
	}
	return out
}

// outermost marks the place of a line that lies farthest in a direction.
func (d *drawnPicture) outermost(n reading.Name, id string, right, down float64) {
	most, best := math.Inf(-1), [2]float64{}
	for _, p := range d.places(d.file.Shapes[id]) {
		if far := p[0]*right + p[1]*down; far > most {
			most, best = far, p
		}
	}
	d.set(n, best[0], best[1])
}

// TestPerspectiveReadBack: our own perspective sheets, taken for photographs with a known lens and marked at their ellipses and outermost
// lines, are read back: camera and wheelbase nearly exactly, the other figures within their ±, with the segment's own roundness.
// The camera is that of the SVG's root. (CALC: the plan.)
func TestPerspectiveReadBack(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		segment           string
		turn, metres, eye float64
	}{
		{"suv", 8, 15, 1.6}, {"sports", 10, 30, 1}, {"van", -6, 20, 1.6},
	} {
		p := testsheet.Plan(t, c.segment)
		got, err := drawnFrom(t, p, c.turn, c.metres, c.eye).marks.Reading()
		if err != nil {
			t.Fatal(err)
		}
		if off := got.Camera.Yaw + c.turn; math.Abs(off) > .1 { // turns of the sheet are towards the nose
			t.Errorf("%v: yaw %.3f", c, got.Camera.Yaw)
		}
		for _, f := range []segments.Figure{
			segments.Wheelbase, segments.FrontOverhang, segments.RearOverhang, segments.Length, segments.Height,
			segments.PillarAim, segments.PillarRake, segments.GlassEnd, segments.ArchGap,
		} {
			v := got.Figures[f]
			if f == segments.GlassEnd && v.State != reading.Read {
				continue
			}
			bound := v.PM
			if f == segments.Wheelbase {
				bound = .002
			}
			if off := v.Value - p.Value(f); math.Abs(off) > bound || v.PM > .2 && f != segments.PillarRake || v.PM == 0 {
				t.Errorf("%v: %s %.4f ± %.4f, drawn as %.4f", c, f, v.Value, v.PM, p.Value(f))
			}
		}
	}
}

// drawnFrom draws a perspective sheet, the camera turned towards the nose, and marks it.
func drawnFrom(t *testing.T, p layout.Plan, turn, metres, eye float64) *drawnPicture {
	t.Helper()
	setting := testsheet.Setting(t, "A3")
	setting.Views, setting.Guides = []request.View{request.PerspectiveView}, []request.Guide{"outline", "wheels", "pillar", "arches"}
	setting.Camera.Spec = view.CameraSpec{Turn: geom.Degrees(turn), EyeMM: geom.MM(1000 * eye), DistanceMM: geom.MM(1000 * metres)}
	svg := testsheet.SvgOf(t, shotPages(t, p, setting, request.Full)[0])
	const width, height = 9000, 6000
	d := &drawnPicture{t: t, file: testsheet.ReadSVG(t, svg), eye: readEye(t, svg)}
	d.marks = reading.Marks{
		Name: p.Profile.Name, Width: width, Height: height, PM: 2, Like: p.Profile, Tyre: p.Profile.Wheel, RearTyre: p.Profile.RearWheel,
		OnCircles: true, Focal: d.eye.scale * picturePixels * 43.267 / math.Hypot(width, height), // of 36 by 24 mm
	}
	around := []float64{-25, 10, 45, 80, 100, 135, 170, 205}
	d.tyre(reading.TyreFront, "wheel-front-left", around...)
	d.tyre(reading.TyreRear, "wheel-rear-left", around...)
	d.outermost(reading.Nose, "contour", -1, 0)
	d.outermost(reading.Tail, "contour", 1, 0)
	d.outermost(reading.Roof, "contour", 0, -1)
	d.outermost(reading.APillar, "pillar-left", 0, 1)
	d.outermost(reading.APillar, "pillar-left", 0, -1)
	if p.Profile.Form != segments.Fastback { // its side glass and rear screen are one line
		d.outermost(reading.GlassEnd, "glass-left", 1, 0)
	}
	d.outermost(reading.ArchFront, "arch-front-left", 0, -1)
	d.outermost(reading.ArchRear, "arch-rear-left", 0, -1)
	return d
}

package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"path/filepath"

	"gonum.org/v1/gonum/mat"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// The size of a sheet's photograph.
const sheetWide, sheetHigh = 1600, 1130

// photographed draws a sketch on the practice sheet of a plan and photographs it.
func (s sketch) photographed(r request.Request, p layout.Plan, seed uint64) (picture []byte, marks string, err error) {
	r.Plans, r.Kinds = []layout.Plan{p}, []request.Kind{request.Practice}
	doc, _, err := sheet.Compose(r)
	if err != nil {
		return nil, "", err
	}
	page := doc.Pages[0]
	place, err := placeOn(page)
	if err != nil {
		return nil, "", err
	}
	var b bytes.Buffer
	if err := png.Write(&b, s.drawn(page, p, place, seed), png.Options{DPI: 120}); err != nil {
		return nil, "", err
	}
	flat, err := rgbaOf(b.Bytes())
	if err != nil {
		return nil, "", err
	}
	h := homography(page.Width, page.Height, s.corners)
	if picture, err = jpegOf(warped(flat, page, h), 70); err != nil {
		return nil, "", err
	}
	return picture, s.file(s.clicks(p, place), r.Setting.Paper, h, seed+100), nil
}

// placeOn returns where a practice sheet has a place of its plan.
func placeOn(page render.Page) (func(layout.Point) render.Point, error) {
	for _, m := range page.Flatten().Marks {
		if c, ok := m.(*render.Circle); ok && c.ID == "wheel-front" {
			return func(q layout.Point) render.Point {
				return render.Point{X: c.Centre.X + geom.MM(q.X)*2*c.R, Y: c.Centre.Y + c.R - geom.MM(q.Y)*2*c.R}
			}, nil
		}
	}
	return nil, fmt.Errorf("no front wheel on %q", page.Title)
}

// matrix is a homography.
type matrix [9]float64

func (m matrix) at(p render.Point) geom.Point[float64] {
	x, y := float64(p.X), float64(p.Y)
	w := m[6]*x + m[7]*y + m[8]
	return geom.Point[float64]{X: (m[0]*x + m[1]*y + m[2]) / w, Y: (m[3]*x + m[4]*y + m[5]) / w}
}

// homography takes the corners of a page to four points.
func homography(width, height geom.MM, to [4]geom.Point[float64]) matrix {
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i, p := range [4]render.Point{{}, {X: width}, {X: width, Y: height}, {Y: height}} {
		x, y, q := float64(p.X), float64(p.Y), to[i]
		a.SetRow(2*i, []float64{x, y, 1, 0, 0, 0, -x * q.X, -y * q.X})
		a.SetRow(2*i+1, []float64{0, 0, 0, x, y, 1, -x * q.Y, -y * q.Y})
		b.SetVec(2*i, q.X)
		b.SetVec(2*i+1, q.Y)
	}
	var h mat.VecDense
	if err := h.SolveVec(a, b); err != nil {
		panic(err) // the corners are this tool's own
	}
	var m matrix
	copy(m[:], h.RawVector().Data)
	m[8] = 1
	return m
}

// inverse returns the inverse up to a factor.
func (m matrix) inverse() matrix {
	return matrix{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
}

// warped photographs a sheet that lies on a table.
func warped(flat *image.RGBA, page render.Page, h matrix) *image.RGBA {
	back := h.inverse()
	out := image.NewRGBA(image.Rect(0, 0, sheetWide, sheetHigh))
	size := flat.Rect.Size()
	for y := range sheetHigh {
		for x := range sheetWide {
			q := back.at(render.Point{X: geom.MM(x) + .5, Y: geom.MM(y) + .5})
			light := 1 - .07*float64(x)/sheetWide - .05*float64(y)/sheetHigh
			c := rgb{118, 100, 84}
			if u, v := q.X/float64(page.Width)*float64(size.X)-.5, q.Y/float64(page.Height)*float64(size.Y)-.5; u > -.5 && v > -.5 &&
				u < float64(size.X)-.5 && v < float64(size.Y)-.5 {
				c = sampled(flat, u, v)
				c = rgb{c[0] * .97, c[1] * .96, c[2] * .93}
			}
			c = c.times(light)
			out.SetRGBA(x, y, color.RGBA{uint8(c[0]), uint8(c[1]), uint8(c[2]), 255})
		}
	}
	return out
}

// sampled returns the colour between four pixels.
func sampled(flat *image.RGBA, u, v float64) rgb {
	size := flat.Rect.Size()
	i, j := math.Floor(u), math.Floor(v)
	at := func(x, y float64) rgb {
		c := flat.RGBAAt(min(max(int(x), 0), size.X-1), min(max(int(y), 0), size.Y-1))
		return rgb{float64(c.R), float64(c.G), float64(c.B)}
	}
	return at(i, j).mix(at(i+1, j), u-i).mix(at(i, j+1).mix(at(i+1, j+1), u-i), v-j)
}

// sketches draws the sketch of the brief and those of the class.
func sketches() error {
	s := oneSketch()
	files, err := job.LoadBriefs(nil, []string{filepath.Join(folder, "brief.yaml")}, nil)
	if err != nil {
		return err
	}
	plan, err := layout.Solve(files[0].Briefs[0])
	if err != nil {
		return err
	}
	r := job.Default().Request
	r.Setting.Given = request.GivenLevels
	if err := s.write("", r, plan, 6); err != nil {
		return err
	}
	file, jobs, err := job.LoadClass(nil, filepath.Join(folder, "class.yaml"), nil)
	if err != nil {
		return err
	}
	if plan, err = layout.Solve(file.Pages[0].Brief); err != nil {
		return err
	}
	jobs[0].Plans = []layout.Plan{plan}
	group := class.Class{Vary: file.Vary, Seed: file.Seed, Pages: []class.Page{{Request: jobs[0].Request}}}
	for i, s := range classSketches() {
		own := group.PlanOf(class.Student{Name: s.student, Number: i + 1}, 0)
		if err := s.write("sketches", jobs[0].Request, own, uint64(i+2)); err != nil {
			return err
		}
	}
	return nil
}

// write writes the sketch's photograph and marks.
func (s sketch) write(in string, r request.Request, p layout.Plan, seed uint64) error {
	picture, marks, err := s.photographed(r, p, seed)
	if err != nil {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	if err := write(filepath.Join(in, s.name+".jpg"), picture); err != nil {
		return err
	}
	return write(filepath.Join(in, s.name+".yaml"), []byte(marks))
}

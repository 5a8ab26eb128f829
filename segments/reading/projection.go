package reading

import (
	"math"

	"hubrule/internal/geom"
)

// Projection is how a picture shows a vehicle: the likeliest camera, or the sheet under a sketch. Its points of the picture count in
// pixels from the picture's centre, x right and y down, as if the vehicle faced left.
type Projection struct {
	marks  *Marks
	camera parameters
}

// Picture is what a reading was taken from.
type Picture struct {
	Path          string // of the picture; "" if there is none
	Width, Height Pixel
	FacesRight    bool
	Projection
}

// Homography takes points of the body at a depth, (x, y, 1) with x and y in wheels, to homogeneous points of the picture. The depth of a
// sketch is always 0.
func (p Projection) Homography(depth geom.Wheels) [3]geom.Homogeneous {
	if p.marks.Sheet != nil {
		depth = 0
	}
	m := p.camera.homography(float64(depth))
	if s := p.marks.Sheet; s != nil {
		mirror := matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
		if p.marks.FacesRight {
			mirror[0][0] = -1
		}
		centred := matrix{{1, 0, -float64(p.marks.Width / 2)}, {0, 1, -float64(p.marks.Height / 2)}, {0, 0, 1}}
		m = mirror.times(centred).times(s.toPaper.inverse()).times(mirror).times(m)
	}
	return [3]geom.Homogeneous{geom.Homogeneous(m[0]), geom.Homogeneous(m[1]), geom.Homogeneous(m[2])}
}

// At returns where the picture shows a point of the body.
func (p Projection) At(x, y, depth geom.Wheels) Point {
	h := p.Homography(depth)
	out := matrix{h[0], h[1], h[2]}.apply(vec{float64(x), float64(y)})
	return Point{X: Pixel(out.x), Y: Pixel(out.y)}
}

// Mark returns where the picture shows mark i of a name, and whether it was set.
func (p Projection) Mark(n Name, i int) (Point, bool) {
	if i >= len(p.marks.Points[n]) {
		return Point{}, false
	}
	at := p.marks.Points[n][i].At
	out := Point{X: at.X - p.marks.Width/2, Y: at.Y - p.marks.Height/2}
	if p.marks.FacesRight {
		out.X = -out.X
	}
	return out, true
}

// DepthOf returns how deep the point lies that mark i of a name shows.
func (p Projection) DepthOf(n Name, i int) geom.Wheels {
	in := p.marks.inputs()
	var k Mark // of one that was not set: as the table of names has it
	if i < len(p.marks.Points[n]) {
		k = p.marks.Points[n][i]
	}
	info := p.marks.bodyPoint(n, i, k, in.round)
	return geom.Wheels(in.depth(&info))
}

// Pose is a camera in body space, but that z counts from the near tyres' outer edges: where it is, the directions of the picture's right
// and of its line of sight, the focal length in pixels, and where the line of sight meets the picture.
type Pose struct {
	Eye            geom.Point3[geom.Wheels]
	Right, Forward geom.Point3[geom.Wheels]
	Focal          Pixel
	Axis           Point
}

// Pose returns the camera. It reports false for a sketch, which has none.
func (p Projection) Pose() (Pose, bool) {
	if p.marks.Sheet != nil {
		return Pose{}, false
	}
	r := p.camera.axes()
	row := func(i int) geom.Point3[geom.Wheels] {
		return geom.Point3[geom.Wheels]{X: geom.Wheels(r[i][0]), Y: geom.Wheels(r[i][1]), Z: geom.Wheels(r[i][2])}
	}
	eye := p.camera.eye()
	eye.Y += geom.Wheels(p.camera.hubHeight())
	return Pose{Eye: eye, Right: row(0), Forward: row(2), Focal: Pixel(p.camera.focalPixels()),
		Axis: Point{X: Pixel(p.camera[lensX]), Y: Pixel(p.camera[lensY])}}, true
}

// WheelOnSheet returns how large a front tyre is on the sheet under a sketch; 0 for a photograph.
func (p Projection) WheelOnSheet() geom.MM {
	if p.marks.Sheet == nil {
		return 0
	}
	return geom.MM(math.Round(p.camera.scale()*1000) / 1000)
}

// Paper returns the part of the picture that shows the sheet under a sketch. It reports false for a photograph.
func (p Projection) Paper() (geom.Box[Pixel], bool) {
	s := p.marks.Sheet
	if s == nil {
		return geom.Box[Pixel]{}, false
	}
	toPicture, half := s.toPaper.inverse(), Point{X: p.marks.Width / 2, Y: p.marks.Height / 2}
	var corners []Point
	for _, x := range []geom.MM{-s.Paper.Width / 2, s.Paper.Width / 2} {
		for _, y := range []geom.MM{-s.Paper.Height / 2, s.Paper.Height / 2} {
			at := toPicture.apply(vec{float64(x), float64(y)})
			corner := Point{X: Pixel(at.x), Y: Pixel(at.y)}.Sub(half)
			if p.marks.FacesRight {
				corner.X = -corner.X
			}
			corners = append(corners, Point{X: min(max(corner.X, -half.X), half.X), Y: min(max(corner.Y, -half.Y), half.Y)})
		}
	}
	return geom.BoxOf(corners[0], corners[1:]...), true
}

package view

import (
	"cmp"
	"fmt"
	"math"

	"hubrule/internal/geom"
)

// ImageLength is a length on the picture of a camera, x right and y down. A pinhole's picture lies one focal length of 1 before the
// eye, so that a length is one across depth; a parallel camera's picture is as large as the vehicle, in wheels.
// On paper: origin + F · picture, F in millimetres.
type ImageLength float64

// ImagePoint is a place on a camera's picture.
type ImagePoint = geom.Point[ImageLength]

// Ellipse is the image of a circle on a camera's picture.
type Ellipse = geom.Ellipse[ImageLength]

// Camera looks at a vehicle in plan space. A pinhole's picture plane is upright unless it is tilted.
type Camera struct {
	Spec    CameraSpec // what was asked for, with the distance that was found; zero for a parallel camera
	Eye     Point3     // a pinhole's eye
	right   Point3     // of length 1, as are up and forward
	up      Point3
	forward Point3

	isParallel bool
	Raised     bool // the eye was lifted off the roof's level, where a roof is one line
}

// The parallel cameras, each square on the vehicle. From above the side that faces the side view lies low on the picture.
func parallelCamera(forward, right Point3) Camera {
	return Camera{forward: forward, right: right, up: right.Cross(forward), isParallel: true}
}

// Front looks at the nose.
func Front() Camera { return parallelCamera(Point3{X: 1}, Point3{Z: 1}) }

// Rear looks at the tail.
func Rear() Camera { return parallelCamera(Point3{X: -1}, Point3{Z: -1}) }

// Top looks down, nose to the left.
func Top() Camera { return parallelCamera(Point3{Y: -1}, Point3{X: 1}) }

// pinhole places an eye at a distance from aim, a place of the ground.
func pinhole(st CameraSpec, aim Point3) Camera {
	sin, cos := sincos(st.Turn)
	down, level := sincos(st.Tilt)
	f := point3(sin*level, -down, -cos*level)
	r := point3(cos, 0, sin)
	d := float64(st.Distance)
	return Camera{
		Spec:    st,
		Eye:     aim.Add(point3(-float64(d*sin), float64(st.Eye), float64(d*cos))),
		right:   r,
		up:      r.Cross(f),
		forward: f,
	}
}

// Sighted returns a pinhole at an eye, with the directions of the picture's right and of the line of sight; both are of length 1 and
// stand at right angles.
func Sighted(eye, right, forward Point3) Camera {
	return Camera{Eye: eye, right: right, up: right.Cross(forward), forward: forward}
}

// sincos rounds to 1e-13, because Sin and Cos differ in their last bits between processors.
func sincos(a geom.Degrees) (sin, cos float64) {
	const grain = 1e13
	sin, cos = math.Sincos(a.Radians())
	return math.Round(sin*grain) / grain, math.Round(cos*grain) / grain
}

// direction returns the image of a direction: right, down and depth; a parallel camera gives it no depth.
func (c *Camera) direction(v Point3) geom.Homogeneous {
	h := geom.Homogeneous{v.Dot(c.right), -v.Dot(c.up), v.Dot(c.forward)}
	if c.isParallel {
		h[2] = 0
	}
	return h
}

// image returns the image of a place before the division by its depth; a parallel camera's depth is 1.
func (c *Camera) image(p Point3) geom.Homogeneous {
	if c.isParallel {
		return geom.Homogeneous{p.Dot(c.right), -p.Dot(c.up), 1}
	}
	return c.direction(p.Sub(c.Eye))
}

// Project returns the image of p. A pinhole's place must lie before the eye.
func (c Camera) Project(p Point3) ImagePoint {
	h := c.image(p)
	return ImagePoint{X: ImageLength(h[0] / h[2]), Y: ImageLength(h[1] / h[2])}
}

// Depth returns how far p lies before the eye along the line of sight, or before the vehicle's origin for a parallel camera.
func (c Camera) Depth(p Point3) geom.Wheels {
	if c.isParallel {
		return geom.Wheels(p.Dot(c.forward))
	}
	return geom.Wheels(p.Sub(c.Eye).Dot(c.forward))
}

// nearness returns what falls as the depth grows and is linear on the picture: 1 ÷ depth for a pinhole, −depth for a parallel camera.
func (c *Camera) nearness(depth geom.Wheels) float64 {
	if c.isParallel {
		return -float64(depth)
	}
	return 1 / float64(depth)
}

// sightLine returns the direction in which c sees p, not of length 1.
func (c *Camera) sightLine(p Point3) Point3 {
	if c.isParallel {
		return c.forward
	}
	return p.Sub(c.Eye)
}

// Vanishing returns the point in which all lines along v meet on the picture. It reports false where they stay parallel.
func (c Camera) Vanishing(v Point3) (ImagePoint, bool) {
	h := c.direction(v)
	if math.Abs(h[2]) < 1e-9 {
		return ImagePoint{}, false
	}
	return ImagePoint{X: ImageLength(h[0] / h[2]), Y: ImageLength(h[1] / h[2])}, true
}

// Horizon returns the y at which every level direction vanishes. It reports false for parallel cameras.
func (c Camera) Horizon() (ImageLength, bool) {
	v, ok := c.Vanishing(Point3{X: c.forward.X, Z: c.forward.Z})
	return v.Y, ok
}

// Circle returns the exact image of the circle round centre through centre+a and centre+b; a and b stand at right angles to
// each other and are equally long. The error is a CameraError: the circle comes too near to the plane of the eye.
func (c Camera) Circle(centre, a, b Point3) (Ellipse, error) {
	ha, hb, hc := c.direction(a), c.direction(b), c.image(centre)
	if !c.isParallel && !(hc[2]-math.Hypot(ha[2], hb[2]) >= float64(leastDepth)) {
		return Ellipse{}, CameraError{Reason: fmt.Sprintf(
			"a circle comes nearer than %gw to the plane of the eye, where its image is no ellipse", leastDepth)}
	}
	e, _ := geom.ImageOfCircle[ImageLength](ha, hb, hc)
	return e, nil
}

// ofWheel returns the image of a circle round a wheel's axle.
func (c Camera) ofWheel(centre Point3, radius geom.Wheels) (Ellipse, error) {
	return c.Circle(centre, Point3{X: radius}, Point3{Y: radius})
}

// WheelImage is the images of one wheel.
type WheelImage struct {
	Wheel             Wheel
	Outer, Inner, Rim Ellipse
	Treads            [2][2]ImagePoint // the tread's outline: lines that touch the outer (first end) and the inner edge
	HasTreads         bool             // false where the eye looks in along the tyre, and nearly so from square on
	Axle              [2]ImagePoint    // from the wheel's centre outwards, as long as the wheel's radius
}

// WheelImage returns the images of w.
func (c Camera) WheelImage(w Wheel) (WheelImage, error) {
	outer, outerErr := c.ofWheel(w.Centre, w.Radius)
	inner, innerErr := c.ofWheel(w.Inner, w.Radius)
	rim, rimErr := c.ofWheel(w.Centre, w.rim)
	if err := cmp.Or(outerErr, innerErr, rimErr); err != nil {
		return WheelImage{}, err
	}
	out := WheelImage{Wheel: w, Outer: outer, Inner: inner, Rim: rim}
	outwards := w.Centre.Sub(w.Inner)
	for i, on := range c.treads(w) {
		out.HasTreads = true
		out.Treads[i] = [2]ImagePoint{c.Project(w.Centre.Add(on)), c.Project(w.Inner.Add(on))}
	}
	out.Axle = [2]ImagePoint{c.Project(w.Centre), c.Project(w.Centre.Add(outwards.Unit().Times(float64(w.Radius))))}
	return out, nil
}

// treads returns the two places of a wheel's circle, from its centre, where the tread turns away from the eye; none where the
// eye lies within the tyre's cylinder or looks along the axle.
func (c Camera) treads(w Wheel) []Point3 {
	look := c.sightLine(w.Centre)
	x, y, r := -float64(look.X), -float64(look.Y), float64(w.Radius)
	far, share := math.Hypot(x, y), 0.
	if c.isParallel {
		if far < 1e-9 {
			return nil
		}
	} else if share = r / far; !(share < 1) {
		return nil
	}
	// The eye stands in direction (x, y); the tangents leave the circle where the radius makes the angle acos(r ÷ far) with it.
	x, y = x/far, y/far
	up := math.Sqrt(1 - float64(share*share))
	on := func(s float64) Point3 {
		return point3(r*(float64(x*share)-float64(s*y*up)), r*(float64(y*share)+float64(s*x*up)), 0)
	}
	return []Point3{on(1), on(-1)}
}

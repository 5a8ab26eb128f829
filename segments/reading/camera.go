package reading

import (
	"math"

	"hubrule/internal/geom"
)

// parameters are what a fit looks for: the camera, and what it sees of the wheels. No focal length is among them, so that a camera
// infinitely far away is nothing special.
type parameters [parameterCount]float64

// The parameters. Angles are radians, pixels count from the picture's centre, lengths of the body are wheels.
const (
	yaw   = iota // positive: the camera stands farther back than square-on
	pitch        // positive: it looks down
	roll
	hubX // the front hub in the picture
	hubY
	logScale // ln of the pixels that a wheel has at the front hub
	nearness // 1 ÷ the depth of the front hub, 1/w
	wheelbase
	rearRatio // rear ÷ front tyre diameter
	track     // near outer shoulder to far inner shoulder
	sink      // how far tyres are flattened where they stand
	lensX     // where the lens's axis meets the picture
	lensY

	parameterCount
)

// steps are the steps of numeric derivatives.
var steps = parameters{1e-5, 1e-5, 1e-5, 1e-2, 1e-2, 1e-5, 1e-6, 1e-5, 1e-5, 1e-4, 1e-5, 1e-2, 1e-2}

// axes returns the picture's right, its down and the camera's forward direction as rows, in body space.
func (p *parameters) axes() matrix {
	sinYaw, cosYaw := math.Sincos(p[yaw])
	sinPitch, cosPitch := math.Sincos(p[pitch])
	sinRoll, cosRoll := math.Sincos(p[roll])
	right := [3]float64{cosYaw, 0, -sinYaw}
	forward := [3]float64{-cosPitch * sinYaw, -sinPitch, -cosPitch * cosYaw}
	down := [3]float64{sinPitch * sinYaw, -cosPitch, sinPitch * cosYaw}
	var out matrix
	for i := range 3 {
		out[0][i] = cosRoll*right[i] + sinRoll*down[i]
		out[1][i] = cosRoll*down[i] - sinRoll*right[i]
		out[2][i] = forward[i]
	}
	return out
}

// scale returns the pixels of a wheel at the front hub.
func (p *parameters) scale() float64 { return math.Exp(p[logScale]) }

// focalPixels returns the focal length in pixels.
func (p *parameters) focalPixels() float64 { return p.scale() / p[nearness] }

// hubHeight returns the height of the front hub above the road.
func (p *parameters) hubHeight() float64 { return .5 - p[sink] }

// homography takes points of the body at a depth, (x, y) in wheels, to pixels from the picture's centre.
func (p *parameters) homography(depth float64) matrix {
	r, s, h := p.axes(), p.scale(), p.hubHeight()
	factor := [3]float64{s, s, p[nearness]}
	offset := [3]float64{p[hubX] - p[lensX], p[hubY] - p[lensY], 1}
	var m matrix
	for i := range 3 {
		m[i] = [3]float64{factor[i] * r[i][0], factor[i] * r[i][1], offset[i] + factor[i]*(depth*r[i][2]-h*r[i][1])}
	}
	for j := range 3 {
		m[0][j] += p[lensX] * m[2][j]
		m[1][j] += p[lensY] * m[2][j]
	}
	return m
}

// eye returns where the camera is: x rearwards and y up from the front hub, z out from the wheels' plane, in wheels.
func (p *parameters) eye() geom.Point3[geom.Wheels] {
	r, s := p.axes(), p.scale()
	hub := [3]float64{(p[hubX] - p[lensX]) / s, (p[hubY] - p[lensY]) / s, 1 / p[nearness]}
	at := func(j int) geom.Wheels { return geom.Wheels(-(r[0][j]*hub[0] + r[1][j]*hub[1] + r[2][j]*hub[2])) }
	return geom.Point3[geom.Wheels]{X: at(0), Y: at(1), Z: at(2)}
}

// equivalent returns the 35 mm equivalent of a focal length in pixels, for a picture whose diagonal has so many: 43.267 mm is the
// diagonal of 36 by 24.
func equivalent(focal, diagonal float64) float64 { return focal * 43.267 / diagonal }

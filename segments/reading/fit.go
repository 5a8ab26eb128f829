package reading

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// sighting is a mark that the fit uses: pixels from the picture's centre, and their standard deviation.
type sighting struct {
	at vec
	sd float64
}

// belief is what is known of a quantity before the picture is looked at: a mean and a standard deviation.
type belief struct{ mean, sd float64 }

// off returns how many deviations x lies from the mean.
func (b belief) off(x float64) float64 { return (x - b.mean) / b.sd }

// beliefs are what is known of the parameters, and of what follows from them, besides the marks.
type beliefs struct {
	of           map[int]belief // by parameter, of those that have one
	logFocal     belief         // ln of the 35 mm equivalent focal length
	eyeHeight    belief         // above the road, in wheels
	logNearness  belief         // sd 0: nothing is known
	noEye        bool           // there is no camera that stands on the road
	focalDivisor float64        // pixels of the picture's diagonal
}

// problem is what a fit has to explain.
type problem struct {
	near, far [2][]sighting // front and rear tyre: points of their outer edges
	hubs      [2][]sighting
	ground    []sighting
	beliefs   beliefs
	order     []int // the parameters that have a belief, so that sums run in one order
}

// residuals appends to out how far everything is off, each in its standard deviations: the tyres' marks by their first-order distance
// from the ellipse that the camera would show, without an ellipse ever being fitted.
func (p *problem) residuals(th *parameters, out []float64) []float64 {
	plane := newView(th, 0)
	for i, marks := range p.near {
		out = plane.onCircle(marks, th.wheel(i), out)
	}
	for i, hub := range p.hubs {
		for _, h := range hub {
			c := plane.toPicture.apply(th.wheel(i).centre)
			out = append(out, (c.x-h.at.x)/h.sd, (c.y-h.at.y)/h.sd)
		}
	}
	for _, g := range p.ground {
		at, j := plane.back(g.at)
		out = append(out, at.y/math.Hypot(j[1][0], j[1][1])/g.sd)
	}
	if len(p.far[0])+len(p.far[1]) > 0 {
		plane = newView(th, -th[track])
		for i, marks := range p.far {
			out = plane.onCircle(marks, th.wheel(i), out)
		}
	}
	return p.beliefResiduals(th, out)
}

// beliefResiduals appends how far the parameters are off from what is known of them.
func (p *problem) beliefResiduals(th *parameters, out []float64) []float64 {
	b := &p.beliefs
	for _, i := range p.order {
		out = append(out, b.of[i].off(th[i]))
	}
	out = append(out, b.logFocal.off(math.Log(equivalent(math.Abs(th.focalPixels()), b.focalDivisor))))
	if !b.noEye {
		out = append(out, b.eyeHeight.off(float64(th.eye().Y)+th.hubHeight()))
	}
	if b.logNearness.sd > 0 {
		out = append(out, b.logNearness.off(math.Log(th[nearness])))
	}
	return out
}

// circle is a tyre in its plane.
type circle struct {
	centre vec
	radius float64
}

// wheel returns the front tyre (0) or the rear one (1).
func (p *parameters) wheel(i int) circle {
	if i == 0 {
		return circle{vec{0, .5 - p[sink]}, .5}
	}
	return circle{vec{p[wheelbase], p[rearRatio]/2 - p[sink]}, p[rearRatio] / 2}
}

// view is a plane of the body as a camera sees it.
type view struct{ toPicture, toBody matrix }

func newView(th *parameters, depth float64) view {
	m := th.homography(depth)
	return view{m, m.inverse()}
}

// back returns the point of the plane that is seen at uv, and its derivative by uv.
func (v view) back(uv vec) (vec, [2][2]float64) {
	at := v.toBody.apply(uv)
	return at, v.toBody.derivative(uv, at)
}

// onCircle appends how far marks lie off a circle of the plane, measured in the picture.
func (v view) onCircle(marks []sighting, c circle, out []float64) []float64 {
	for _, m := range marks {
		at, j := v.back(m.at)
		d := at.sub(c.centre)
		r := d.len()
		slope := math.Hypot(d.x*j[0][0]+d.y*j[1][0], d.x*j[0][1]+d.y*j[1][1]) / r
		out = append(out, (r-c.radius)/slope/m.sd)
	}
	return out
}

// solution is where a search ended.
type solution struct {
	at         parameters
	covariance *mat.SymDense
	cost       float64 // sum of the squared residuals
	logDet     float64 // of the covariance
}

// sd returns the standard deviation of a parameter.
func (s *solution) sd(i int) float64 { return math.Sqrt(s.covariance.At(i, i)) }

// Bounds of a search by Levenberg and Marquardt.
const (
	mostTurns       = 30
	firstDamping    = 1e-3
	leastNearness   = 1e-4 // a camera 10,000 wheels away is as good as none
	widestAngle     = 1.   // radians; a fit that goes there has failed
	smallestProfit  = 1e-10
	dampingOnGain   = 1. / 5
	dampingOnLoss   = 8
	largestDamping  = 1e8
	smallestDamping = 1e-9
)

// search looks for the parameters with the least sum of squared residuals, from a start. It reports failure where the normal equations
// have no solution.
func (p *problem) search(start parameters) (solution, bool) {
	th, damping := start, firstDamping
	residuals := p.residuals(&th, nil)
	cost := sumOfSquares(residuals)
	normal, gradient := p.normalEquations(&th, residuals)
	quiet := 0
	for range mostTurns {
		next, ok := step(th, normal, gradient, damping)
		tried := p.residuals(&next, residuals[:0:0])
		if c := sumOfSquares(tried); ok && c <= cost { // false for NaN
			if cost-c < smallestProfit*(1+cost) {
				quiet++
			} else {
				quiet = 0
			}
			th, residuals, cost = next, tried, c
			damping = max(damping*dampingOnGain, smallestDamping)
			if quiet == 2 {
				break
			}
			normal, gradient = p.normalEquations(&th, residuals)
		} else if damping *= dampingOnLoss; damping > largestDamping {
			break
		}
	}
	normal, _ = p.normalEquations(&th, residuals)
	var chol mat.Cholesky
	s := solution{at: th, cost: cost, covariance: mat.NewSymDense(parameterCount, nil)}
	if math.IsNaN(cost) || !chol.Factorize(normal) || failed(chol.InverseTo(s.covariance)) {
		return s, false
	}
	s.logDet = -chol.LogDet()
	return s, true
}

// failed reports whether err is more than a warning of a bad condition: parameters have units as different as pixels and nearness, so that
// condition says nothing.
func failed(err error) bool {
	var condition mat.Condition
	return err != nil && !errors.As(err, &condition)
}

// step returns the parameters after one damped step.
func step(th parameters, normal *mat.SymDense, gradient *mat.VecDense, damping float64) (parameters, bool) {
	damped := mat.NewSymDense(parameterCount, nil)
	damped.CopySym(normal)
	for i := range parameterCount {
		damped.SetSym(i, i, normal.At(i, i)*(1+damping))
	}
	var chol mat.Cholesky
	var move mat.VecDense
	if !chol.Factorize(damped) || failed(chol.SolveVecTo(&move, gradient)) {
		return th, false
	}
	for i := range parameterCount {
		th[i] -= move.AtVec(i)
	}
	th[nearness] = max(th[nearness], leastNearness)
	for _, i := range []int{yaw, pitch, roll} {
		th[i] = min(max(th[i], -widestAngle), widestAngle)
	}
	return th, true
}

// normalEquations returns JᵀJ and Jᵀr, J being the derivative of the residuals by the parameters.
func (p *problem) normalEquations(th *parameters, residuals []float64) (*mat.SymDense, *mat.VecDense) {
	n := len(residuals)
	columns := make([]float64, 0, 2*n)
	j := mat.NewDense(n, parameterCount, nil)
	for i, h := range steps {
		ahead, behind := *th, *th
		ahead[i] += h
		behind[i] -= h
		columns = p.residuals(&behind, p.residuals(&ahead, columns[:0]))
		for k := range n {
			j.Set(k, i, (columns[k]-columns[n+k])/(2*h))
		}
	}
	normal := mat.NewSymDense(parameterCount, nil)
	normal.SymOuterK(1, j.T())
	gradient := mat.NewVecDense(parameterCount, nil)
	gradient.MulVec(j.T(), mat.NewVecDense(n, residuals))
	return normal, gradient
}

func sumOfSquares(r []float64) float64 {
	sum := 0.
	for _, x := range r {
		sum += x * x
	}
	return sum
}

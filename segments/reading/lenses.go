package reading

import (
	"math"
)

// The lenses that are tried where none is known: 35 mm equivalents, and the deviation of their logarithms.
var lenses = []float64{20, 28, 40, 56, 80, 113, 160, 226}

const lensDeviation = .12

// The yaws that a search starts from. From square-on alone it ends in the mirrored solution too often.
// The other ones are tried where marks would be refused.
var startYaws, otherYaws, lensStartYaws = []float64{-15, 0, 15}, []float64{-25, -7, 7, 25}, []float64{-12, 12}

// fits are the cameras that explain a picture, each with the probability that it is the one.
type fits []weighted

type weighted struct {
	solution
	weight float64
}

// solve finds the cameras that explain the marks: one where something says how far away the camera was, else one for each of a set of
// lenses. It returns none where no search came to an end.
func (m *Marks) solve() fits {
	p := m.problem()
	starts := func(yaws []float64) (best solution, found bool) {
		for _, degrees := range yaws {
			s, ok := p.search(p.towards(m.start(p, degrees*math.Pi/180)))
			if ok && (!found || s.cost < best.cost) {
				best, found = s, true
			}
		}
		return best, found
	}
	if m.Sheet != nil || m.lensKnown() {
		best, ok := starts(startYaws)
		if !ok || m.checkFit(fits{{best, 1}}) != nil { // a wide lens, seldom
			if again, found := starts(otherYaws); found && (!ok || again.cost < best.cost) {
				best, ok = again, true
			}
		}
		if ok {
			return fits{{best, 1}}
		}
		return nil
	}
	var out fits
	for _, focal := range lenses {
		p.beliefs.logFocal = belief{math.Log(focal), lensDeviation}
		if s, ok := starts(lensStartYaws); ok {
			off := belief{math.Log(usualFocal), focalDeviation}.off(math.Log(focal))
			// The covariance holds nearness, the belief its logarithm: want their ratio, or long lenses count for too little.
			out = append(out, weighted{s, -s.cost/2 + s.logDet/2 - off*off/2 - math.Log(s.at[nearness])})
		}
	}
	return out.normalised()
}

// towards returns where a search with far tyres goes on from a start: at what the near tyres alone have come to. Seen from close by a far
// tyre may start so far off that its marks end on the wrong side of it.
func (p *problem) towards(start parameters) parameters {
	if len(p.far[0])+len(p.far[1]) == 0 {
		return start
	}
	near := *p
	near.far = [2][]sighting{}
	s, _ := near.search(start)
	return s.at
}

// normalised turns logarithms of weights into weights that add up to 1.
func (f fits) normalised() fits {
	most, sum := math.Inf(-1), 0.
	for _, w := range f {
		most = max(most, w.weight)
	}
	for i := range f {
		f[i].weight = math.Exp(f[i].weight - most)
		sum += f[i].weight
	}
	for i := range f {
		f[i].weight /= sum
	}
	return f
}

// best returns the likeliest fit.
func (f fits) best() *solution {
	at := 0
	for i := range f {
		if f[i].weight > f[at].weight {
			at = i
		}
	}
	return &f[at].solution
}

// mean returns the mean of a quantity over all fits, and its standard deviation; of gives both for one.
func (f fits) mean(of func(*solution) (value, sd float64)) (value, sd float64) {
	square := 0.
	for i := range f {
		v, s := of(&f[i].solution)
		value += f[i].weight * v
		square += f[i].weight * (s*s + v*v)
	}
	return value, math.Sqrt(max(0, square-value*value))
}

// start returns where a search begins: circles in place of the tyres, at a yaw.
func (m *Marks) start(p *problem, at float64) parameters {
	front, rear := p.roughCircle(0), p.roughCircle(1)
	d := rear.centre.sub(front.centre)
	var th parameters
	th[yaw], th[roll] = at, -math.Atan2(d.y, d.x)
	th[hubX], th[hubY], th[logScale] = front.centre.x, front.centre.y, math.Log(2*front.radius)
	th[nearness] = 2 * front.radius * equivalent(1, p.beliefs.focalDivisor) / math.Exp(p.beliefs.logFocal.mean)
	if n := p.beliefs.logNearness; n.sd > 0 {
		th[nearness] = math.Exp(n.mean)
	}
	th[wheelbase] = d.len() / (front.radius + rear.radius) / math.Cos(at)
	for _, i := range []int{rearRatio, track, sink} {
		th[i] = p.beliefs.of[i].mean
	}
	if !p.beliefs.noEye {
		th[pitch] = math.Atan((p.beliefs.eyeHeight.mean - 1) * th[nearness])
	}
	return th
}

// roughCircle returns a circle through a near tyre's marks, or about its hub.
func (p *problem) roughCircle(i int) circle {
	marks := p.near[i]
	if len(p.hubs[i]) == 0 {
		c, _ := algebraicCircle(marks)
		return c
	}
	c := circle{centre: p.hubs[i][0].at}
	for _, m := range marks {
		c.radius += m.at.sub(c.centre).len() / float64(len(marks))
	}
	return c
}

// algebraicCircle returns the circle with the least sum of (d² − r²)², d being distances from its centre. It reports failure
// where the marks lie on a line.
func algebraicCircle(marks []sighting) (circle, bool) {
	n := float64(len(marks))
	var mean vec
	for _, m := range marks {
		mean.x, mean.y = mean.x+m.at.x/n, mean.y+m.at.y/n
	}
	var xx, xy, yy, xz, yz, zz float64
	for _, m := range marks {
		d := m.at.sub(mean)
		z := d.dot(d)
		xx, xy, yy, xz, yz, zz = xx+d.x*d.x, xy+d.x*d.y, yy+d.y*d.y, xz+d.x*z, yz+d.y*z, zz+z
	}
	det := 2 * (xx*yy - xy*xy)
	c := vec{(xz*yy - yz*xy) / det, (yz*xx - xz*xy) / det}
	r := math.Sqrt(c.dot(c) + zz/n)
	// Marks along a line make a circle of any size: want them to leave it by a thousandth of their extent.
	return circle{vec{c.x + mean.x, c.y + mean.y}, r}, det > 1e-6*(xx+yy)*(xx+yy)
}

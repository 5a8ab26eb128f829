package reading

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// conic is the curve xᵀ·c·x = 0 of homogeneous points; the matrix is symmetric.
type conic matrix

// fitEllipse returns the ellipse through points by direct least squares (Halíř and Flusser 1998). It reports failure where there is none.
func fitEllipse(points []vec) (conic, bool) {
	if len(points) < 5 {
		return conic{}, false
	}
	normal, whole := normalising(points)
	var s1, s2, s3 matrix
	for _, p := range points {
		q := normal.apply(p)
		quadratic, linear := [3]float64{q.x * q.x, q.x * q.y, q.y * q.y}, [3]float64{q.x, q.y, 1}
		for i := range 3 {
			for j := range 3 {
				s1[i][j] += quadratic[i] * quadratic[j]
				s2[i][j] += quadratic[i] * linear[j]
				s3[i][j] += linear[i] * linear[j]
			}
		}
	}
	t := s3.inverse().times(s2.transpose())
	for i := range 3 {
		for j := range 3 {
			t[i][j] = -t[i][j]
		}
	}
	m := s2.times(t)
	for i := range 3 {
		for j := range 3 {
			m[i][j] += s1[i][j]
		}
	}
	m = matrix{
		{m[2][0] / 2, m[2][1] / 2, m[2][2] / 2},
		{-m[1][0], -m[1][1], -m[1][2]},
		{m[0][0] / 2, m[0][1] / 2, m[0][2] / 2},
	}
	a, ok := ellipticVector(m)
	if !whole || !ok {
		return conic{}, false
	}
	var b [3]float64
	for i := range 3 {
		b[i] = t[i][0]*a[0] + t[i][1]*a[1] + t[i][2]*a[2]
	}
	c := matrix{{a[0], a[1] / 2, b[0] / 2}, {a[1] / 2, a[2], b[1] / 2}, {b[0] / 2, b[1] / 2, b[2]}}
	return conic(normal.transpose().times(c).times(normal)), true
}

// normalising returns the similarity that takes points to about 1 from the origin, and whether there is one.
func normalising(points []vec) (matrix, bool) {
	var mean vec
	n, size := float64(len(points)), 0.
	for _, p := range points {
		mean.x, mean.y = mean.x+p.x/n, mean.y+p.y/n
	}
	for _, p := range points {
		size += p.sub(mean).len() / n
	}
	return matrix{{1 / size, 0, -mean.x / size}, {0, 1 / size, -mean.y / size}, {0, 0, 1}}, size > 0
}

// ellipticVector returns the real eigenvector of m that makes an ellipse: 4·a·c > b².
func ellipticVector(m matrix) ([3]float64, bool) {
	values, vectors, ok := eigen(m)
	if !ok {
		return [3]float64{}, false
	}
	for k := range 3 {
		var a [3]float64
		for i := range 3 {
			a[i] = real(vectors.At(i, k))
		}
		if imag(values[k]) == 0 && 4*a[0]*a[2] > a[1]*a[1] {
			return a, true
		}
	}
	return [3]float64{}, false
}

// eigen returns the eigenvalues and right eigenvectors of m, if its numbers are finite.
func eigen(m matrix) ([]complex128, *mat.CDense, bool) {
	flat := slices.Concat(m[0][:], m[1][:], m[2][:])
	for _, x := range flat {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, nil, false
		}
	}
	var e mat.Eigen
	if !e.Factorize(mat.NewDense(3, 3, flat), mat.EigenRight) {
		return nil, nil, false
	}
	var vectors mat.CDense
	e.VectorsTo(&vectors)
	return e.Values(nil), &vectors, true
}

// centre returns the centre of an ellipse, and shape·d², the square of a vector d from it in radii along d: 1 on the ellipse.
func (c conic) centre() (at vec, shape [2][2]float64) {
	det := c[0][0]*c[1][1] - c[0][1]*c[0][1]
	at = vec{(c[0][1]*c[1][2] - c[1][1]*c[0][2]) / det, (c[0][1]*c[0][2] - c[0][0]*c[1][2]) / det}
	k := -(c[0][2]*at.x + c[1][2]*at.y + c[2][2])
	return at, [2][2]float64{{c[0][0] / k, c[0][1] / k}, {c[0][1] / k, c[1][1] / k}}
}

// wheelbaseByConics returns the wheelbase in wheels that the ellipses of the two near tyres have, with neither camera nor lens: two
// coplanar circles meet in the circular points, whose line is the plane's vanishing line; without it what is left is affine, and the
// tyres' common shape measures lengths. It reports failure where the ellipses give no such line.
func wheelbaseByConics(front, rear conic, ratio float64) (float64, bool) {
	line, ok := vanishingLine(front, rear)
	if !ok {
		return 0, false
	}
	h := matrix{{1, 0, 0}, {0, 1, 0}, line}.inverse()
	flatten := func(c conic) conic { return conic(h.transpose().times(matrix(c)).times(h)) }
	from, shape := flatten(front).centre()
	to, other := flatten(rear).centre()
	d := to.sub(from)
	square := 0.
	for i, x := range []float64{d.x, d.y} {
		for j, y := range []float64{d.x, d.y} {
			square += x * y * (shape[i][j] + ratio*ratio*other[i][j]) / 2
		}
	}
	return math.Sqrt(square) / 2, square > 0
}

// vanishingLine returns the line through the circular points of the plane in which both ellipses are circles, ending in 1.
func vanishingLine(a, b conic) (best [3]float64, found bool) {
	a, b = a.scaled(), b.scaled()
	values, _, ok := eigen(matrix(b).inverse().times(matrix(a)))
	if !ok {
		return best, false
	}
	one, _ := a.centre()
	two, _ := b.centre()
	farthest := 0.
	for _, value := range values {
		if math.Abs(imag(value)) > 1e-9*math.Abs(real(value)) {
			continue
		}
		for _, line := range a.degenerate(b, real(value)) {
			p, q := sideOf(line, one), sideOf(line, two)
			distance := min(math.Abs(p), math.Abs(q)) / math.Hypot(line[0], line[1])
			if p*q > 0 && distance > farthest && line[2] != 0 {
				farthest, found = distance, true
				best = [3]float64{line[0] / line[2], line[1] / line[2], 1}
			}
		}
	}
	return best, found
}

// sideOf is positive on one side of a line and negative on the other.
func sideOf(line [3]float64, p vec) float64 { return line[0]*p.x + line[1]*p.y + line[2] }

// scaled returns c with a determinant of ±1.
func (c conic) scaled() conic {
	det := math.Cbrt(math.Abs(mat.Det(mat.NewDense(3, 3, slices.Concat(c[0][:], c[1][:], c[2][:])))))
	for i := range 3 {
		for j := range 3 {
			c[i][j] /= det
		}
	}
	return c
}

// degenerate returns the two real lines that a − λ·b consists of; none if there are no such lines.
func (c conic) degenerate(b conic, lambda float64) [][3]float64 {
	m := mat.NewSymDense(3, nil)
	for i := range 3 {
		for j := i; j < 3; j++ {
			m.SetSym(i, j, c[i][j]-lambda*b[i][j])
		}
	}
	var e mat.EigenSym
	if !e.Factorize(m, true) {
		return nil
	}
	values := e.Values(nil) // ascending: of a pair of real lines the first is negative, the last positive, the middle one about 0
	var vectors mat.Dense
	e.VectorsTo(&vectors)
	if values[0] >= 0 || values[2] <= 0 {
		return nil
	}
	var lines [2][3]float64
	for i := range 3 {
		u, v := math.Sqrt(values[2])*vectors.At(i, 2), math.Sqrt(-values[0])*vectors.At(i, 0)
		lines[0][i], lines[1][i] = u+v, u-v
	}
	return lines[:]
}

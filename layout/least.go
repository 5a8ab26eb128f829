package layout

import "math"

// Least distance: the point nearest to the origin that satisfies linear inequalities, by non-negative least squares
// (C. L. Lawson and R. J. Hanson, Solving Least Squares Problems, 1974, chapter 23). Where no point satisfies them the
// same computation ends in a proof of it.

// halfSpace holds the points z with row·z ≥ least.
type halfSpace struct {
	row   []float64
	least float64
}

// impossible is the length of residual under which a least-distance problem has no answer. The residual of one that has
// an answer z is 1/√(1+|z|²), so this mistakes only answers ten million half-ranges away.
const impossible = 1e-7

// nearest returns the point of all spaces that is nearest to the origin of n dimensions, and a weight for each space:
// positive where its edge stops the point, which is the sum of weight·row. Where no point lies in all spaces ok is false and the
// weights are a proof: the spaces' inequalities, each times its weight, add up to 0 ≥ 1.
func nearest(spaces []halfSpace, n int) (z, weights []float64, ok bool) {
	columns, length := make([][]float64, len(spaces)), make([]float64, len(spaces))
	all := make([]float64, len(spaces)*(n+1))
	for j, s := range spaces {
		c := all[j*(n+1) : (j+1)*(n+1) : (j+1)*(n+1)]
		copy(c, s.row)
		c[n] = s.least
		length[j] = norm(c)
		scale(c, 1/length[j])
		columns[j] = c
	}
	goal := make([]float64, n+1)
	goal[n] = 1
	weights, rest := nonNegative(columns, goal)
	if norm(rest) <= impossible {
		for j := range weights {
			weights[j] /= length[j]
		}
		return nil, weights, false
	}
	// The residual points from the nearest point's image back to the goal; its last part is |residual|².
	share := rest[n]
	z = make([]float64, n)
	for j, s := range spaces {
		weights[j] /= length[j] * share
		for i := range z {
			z[i] += float64(weights[j] * s.row[i])
		}
	}
	return onEdges(spaces, weights, z), weights, true
}

// onEdges returns z moved exactly onto the edges of the spaces that stop it, which the residual gives to half the digits only.
func onEdges(spaces []halfSpace, weights, z []float64) []float64 {
	var q [][]float64 // orthonormal rows of the edges
	exact := make([]float64, len(z))
	for j, w := range weights {
		if w <= 0 {
			continue
		}
		row := append([]float64(nil), spaces[j].row...)
		for range 2 { // twice is enough for full orthogonality
			for _, o := range q {
				subtract(row, dot(row, o), o)
			}
		}
		left := norm(row)
		if left <= 1e-9*norm(spaces[j].row) {
			continue
		}
		scale(row, 1/left)
		// exact satisfies all edges so far; along the new direction it goes as far as this one asks.
		subtract(exact, -(spaces[j].least-dot(exact, spaces[j].row))/left, row)
		q = append(q, row)
	}
	return exact
}

// nonNegative returns x ≥ 0 with the least |Σ x[j]·columns[j] − goal|, and the residual goal − Σ x[j]·columns[j].
func nonNegative(columns [][]float64, goal []float64) (x, rest []float64) {
	const grain = 1e-12 // of a gradient, where columns have unit length
	n := len(columns)
	x, rest = make([]float64, n), append([]float64(nil), goal...)
	free := make([]int, 0, len(goal)+1) // columns whose x may be positive
	barred := make([]bool, n)           // stepped in and straight out again, by rounding alone
	for range 20 * (n + 1) {
		enter, most := -1, grain*norm(goal)
		for j, c := range columns {
			if x[j] == 0 && !barred[j] {
				if w := dot(c, rest); w > most {
					enter, most = j, w
				}
			}
		}
		if enter < 0 || len(free) == len(goal) {
			break
		}
		free = append(free, enter)
		s := leastSquares(columns, free, goal)
		if s == nil || s[len(s)-1] <= 0 {
			free, barred[enter] = free[:len(free)-1], true
			continue
		}
		for out := stepTowards(s, free, x); out >= 0 && s != nil; out = stepTowards(s, free, x) {
			x[out] = 0
			free = keepPositive(free, x)
			s = leastSquares(columns, free, goal)
		}
		copy(rest, goal)
		for _, j := range free {
			subtract(rest, x[j], columns[j])
		}
		clear(barred)
	}
	return x, rest
}

// stepTowards moves x of the free columns towards s, as far as none becomes negative, and returns the column that stops it;
// -1 where nothing does or where there is no s.
func stepTowards(s []float64, free []int, x []float64) int {
	step, out := 1., -1
	for i := range s {
		j := free[i]
		if s[i] > 0 {
			continue
		}
		if part := x[j] / (x[j] - s[i]); part < step || out < 0 {
			step, out = part, j
		}
	}
	for i := range s {
		x[free[i]] += float64(step * (s[i] - x[free[i]]))
	}
	return out
}

// keepPositive returns the columns with positive x and sets the others to zero.
func keepPositive(free []int, x []float64) []int {
	kept := free[:0]
	for _, j := range free {
		if x[j] > 0 {
			kept = append(kept, j)
		} else {
			x[j] = 0
		}
	}
	return kept
}

// leastSquares returns the factors of the free columns that bring their sum nearest to goal, by modified Gram-Schmidt;
// nil where the columns depend on each other.
func leastSquares(columns [][]float64, free []int, goal []float64) []float64 {
	k, m := len(free), len(goal)
	q, r := make([]float64, k*m), make([]float64, k*k)
	s, b := make([]float64, k), append([]float64(nil), goal...)
	for i, j := range free {
		v := q[i*m : (i+1)*m]
		copy(v, columns[j])
		size := norm(v)
		for range 2 {
			for l := range i {
				o := q[l*m : (l+1)*m]
				d := dot(v, o)
				r[l*k+i] += d
				subtract(v, d, o)
			}
		}
		left := norm(v)
		if left <= 1e-11*size {
			return nil
		}
		r[i*k+i] = left
		scale(v, 1/left)
		s[i] = dot(v, b)
		subtract(b, s[i], v)
	}
	for i := k - 1; i >= 0; i-- {
		for l := i + 1; l < k; l++ {
			s[i] -= float64(r[i*k+l] * s[l])
		}
		s[i] /= r[i*k+i]
	}
	return s
}

func dot(a, b []float64) float64 {
	var sum float64
	for i, x := range a {
		sum += float64(x * b[i])
	}
	return sum
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

func scale(a []float64, by float64) {
	for i := range a {
		a[i] *= by
	}
}

// subtract takes by times b from a.
func subtract(a []float64, by float64, b []float64) {
	for i := range a {
		a[i] -= float64(by * b[i])
	}
}

package layout

import (
	"math"
	"slices"
)

// Least distance: the point nearest to the origin that satisfies linear inequalities, by non-negative least squares
// (C. L. Lawson and R. J. Hanson, Solving Least Squares Problems, 1974, chapter 23). Where no point satisfies them the
// same computation ends in a proof of it.

// halfSpace holds the points z with normal·z ≥ bound.
type halfSpace struct {
	normal []float64
	bound  float64
}

// impossible is the length of residual under which a least-distance problem has no answer. The residual of one that has
// an answer z is 1/√(1+|z|²), so this mistakes only answers ten million half-ranges away.
const impossible = 1e-7

// leastDistance returns the point of all spaces that is nearest to the origin of n dimensions, and a weight for each space:
// positive where its edge stops the point, which is the sum of weight·normal. Where no point lies in all spaces ok is false and the
// weights are a proof: the spaces' inequalities, each times its weight, add up to 0 ≥ 1.
func leastDistance(spaces []halfSpace, n int) (z, weights []float64, ok bool) {
	columns, length := make([][]float64, len(spaces)), make([]float64, len(spaces))
	for j, s := range spaces {
		c := append(slices.Clone(s.normal), s.bound)
		length[j] = norm(c)
		scale(c, 1/length[j])
		columns[j] = c
	}
	goal := make([]float64, n+1)
	goal[n] = 1
	weights, rest := nnls(columns, goal)
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
			z[i] += float64(weights[j] * s.normal[i])
		}
	}
	return onEdges(spaces, weights, z), weights, true
}

// onEdges returns z moved exactly onto the edges of the spaces that stop it: the residual gives it to half the digits only.
func onEdges(spaces []halfSpace, weights, z []float64) []float64 {
	var q [][]float64 // orthonormal rows of the edges
	exact := make([]float64, len(z))
	for j, w := range weights {
		if w <= 0 {
			continue
		}
		row := slices.Clone(spaces[j].normal)
		orthogonalise(row, q, func(int, float64) {})
		left := norm(row)
		if left <= 1e-9*norm(spaces[j].normal) {
			continue
		}
		scale(row, 1/left)
		// exact satisfies all edges so far; along the new direction it goes as far as this one asks.
		subtract(exact, -(spaces[j].bound-dot(exact, spaces[j].normal))/left, row)
		q = append(q, row)
	}
	return exact
}

// nnls solves the non-negative least squares problem: it returns x ≥ 0 with the least |Σ x[j]·columns[j] − goal|, and the residual.
func nnls(columns [][]float64, goal []float64) (x, rest []float64) {
	const least = 1e-12 // gradient of a column of unit length, relative to the goal
	n := len(columns)
	x, rest = make([]float64, n), slices.Clone(goal)
	free := make([]int, 0, len(goal)+1) // columns whose x may be positive
	excluded := make([]bool, n)         // rounding alone would free them and bind them again
	for range 20 * (n + 1) {
		enter, most := -1, least*norm(goal)
		for j, c := range columns {
			if x[j] == 0 && !excluded[j] {
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
			free, excluded[enter] = free[:len(free)-1], true
			continue
		}
		for out := stepTowards(s, free, x); out >= 0 && s != nil; out = stepTowards(s, free, x) {
			x[out] = 0
			free = slices.DeleteFunc(free, func(j int) bool {
				x[j] = max(x[j], 0)
				return x[j] == 0
			})
			s = leastSquares(columns, free, goal)
		}
		copy(rest, goal)
		for _, j := range free {
			subtract(rest, x[j], columns[j])
		}
		clear(excluded)
	}
	return x, rest
}

// stepTowards moves x of the free columns towards s until one would become negative, and returns that column or −1.
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

// leastSquares returns the factors of the free columns that bring their sum nearest to goal, by modified Gram-Schmidt;
// nil where the columns depend on each other.
func leastSquares(columns [][]float64, free []int, goal []float64) []float64 {
	k := len(free)
	q, r := make([][]float64, 0, k), make([]float64, k*k)
	s, b := make([]float64, k), slices.Clone(goal)
	for i, j := range free {
		v := slices.Clone(columns[j])
		size := norm(v)
		orthogonalise(v, q, func(l int, share float64) { r[l*k+i] += share })
		left := norm(v)
		if left <= 1e-11*size {
			return nil
		}
		r[i*k+i] = left
		scale(v, 1/left)
		s[i] = dot(v, b)
		subtract(b, s[i], v)
		q = append(q, v)
	}
	for i := k - 1; i >= 0; i-- {
		for l := i + 1; l < k; l++ {
			s[i] -= float64(r[i*k+l] * s[l])
		}
		s[i] /= r[i*k+i]
	}
	return s
}

// orthogonalise subtracts from v its shares along orthonormal directions and reports each share. Two rounds leave v
// orthogonal to the last digits.
func orthogonalise(v []float64, directions [][]float64, taken func(direction int, share float64)) {
	for range 2 {
		for d, dir := range directions {
			share := dot(v, dir)
			subtract(v, share, dir)
			taken(d, share)
		}
	}
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

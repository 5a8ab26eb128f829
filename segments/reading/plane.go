package reading

import "math"

// matrix is a 3 by 3 matrix, row by row.
type matrix [3][3]float64

// inverse returns the inverse of m. Where there is none its numbers are not finite.
func (m matrix) inverse() matrix {
	minor := func(i, j int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	var out matrix
	for i := range 3 {
		for j := range 3 {
			out[i][j] = minor(j, i) / det
		}
	}
	return out
}

// times returns m·n.
func (m matrix) times(n matrix) matrix {
	var out matrix
	for i := range 3 {
		for j := range 3 {
			out[i][j] = m[i][0]*n[0][j] + m[i][1]*n[1][j] + m[i][2]*n[2][j]
		}
	}
	return out
}

// transpose returns m with rows and columns exchanged.
func (m matrix) transpose() matrix {
	return matrix{{m[0][0], m[1][0], m[2][0]}, {m[0][1], m[1][1], m[2][1]}, {m[0][2], m[1][2], m[2][2]}}
}

// apply takes a point of a plane through the homography m.
func (m matrix) apply(p vec) vec {
	w := m[2][0]*p.x + m[2][1]*p.y + m[2][2]
	return vec{(m[0][0]*p.x + m[0][1]*p.y + m[0][2]) / w, (m[1][0]*p.x + m[1][1]*p.y + m[1][2]) / w}
}

// derivative returns ∂(m.apply(p))/∂p; q is m.apply(p).
func (m matrix) derivative(p, q vec) (j [2][2]float64) {
	w := m[2][0]*p.x + m[2][1]*p.y + m[2][2]
	for k := range 2 {
		j[0][k] = (m[0][k] - q.x*m[2][k]) / w
		j[1][k] = (m[1][k] - q.y*m[2][k]) / w
	}
	return j
}

// vec is a point or a vector of a plane: pixels from the picture's centre, or wheels in a plane of the body.
type vec struct{ x, y float64 }

func (v vec) sub(w vec) vec       { return vec{v.x - w.x, v.y - w.y} }
func (v vec) len() float64        { return math.Hypot(v.x, v.y) }
func (v vec) dot(w vec) float64   { return v.x*w.x + v.y*w.y }
func (v vec) cross(w vec) float64 { return v.x*w.y - v.y*w.x }

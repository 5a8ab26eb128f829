package layout

import (
	"math"
	"math/rand/v2"
	"testing"
)

// SciPy's documented cases of nnls (docstring at 3dbf660a, SEEN).
func TestNonNegativeDocumentedCases(t *testing.T) {
	columns := [][]float64{{1, 1, 0}, {0, 0, 1}}
	for _, c := range []struct {
		goal, want []float64
		rest       float64
	}{
		{[]float64{2, 1, 1}, []float64{1.5, 1}, 0.7071067811865475},
		{[]float64{-1, -1, -1}, []float64{0, 0}, 1.7320508075688772},
	} {
		x, rest := nnls(columns, c.goal)
		if math.Abs(x[0]-c.want[0]) > 1e-15 || math.Abs(x[1]-c.want[1]) > 1e-15 || math.Abs(norm(rest)-c.rest) > 1e-15 {
			t.Errorf("nonNegative(%v) = %v, residual %v; want %v, %v", c.goal, x, norm(rest), c.want, c.rest)
		}
	}
}

// The least-distance step of Lawson & Hanson's PROG6 (ch. 23, printed output, SEEN), to the five digits printed.
func TestNearestLawsonHanson(t *testing.T) {
	spaces := []halfSpace{
		{[]float64{.20719, -2.55762}, -1.30041},
		{[]float64{.39219, 1.35115}, -.08354},
		{[]float64{-.59937, 1.20647}, .38395},
	}
	z, _, ok := leastDistance(spaces, 2)
	if !ok || math.Abs(z[0]+.12681) > 1e-5 || math.Abs(z[1]-.25525) > 1e-5 || math.Abs(norm(z)-.28501) > 1e-5 {
		t.Errorf("nearest = %v, %v; want (-0.12681, 0.25525)", z, ok)
	}
}

// The whole of the same example: fit x₁t + x₂ to four points with x₁ ≥ 0, x₂ ≥ 0, x₁ + x₂ ≤ 1; printed answer
// (0.62132, 0.37868), residual norm 0.33823 (SEEN). The fit turns into a least-distance problem by z = R(x − x̂).
func TestNearestConstrainedLineFit(t *testing.T) {
	at, of := []float64{.25, .5, .5, .8}, []float64{.5, .6, .7, 1.2}
	one := []float64{1, 1, 1, 1}
	fit := leastSquares([][]float64{at, one}, []int{0, 1}, of)
	// R of the QR decomposition of [t 1]
	r11 := norm(at)
	r12 := dot(at, one) / r11
	r22 := math.Sqrt(4 - r12*r12)
	// g·x ≥ h with x = x̂ + R⁻¹z
	row := func(a, b, h float64) halfSpace {
		return halfSpace{[]float64{a / r11, (b - a*r12/r11) / r22}, h - a*fit[0] - b*fit[1]}
	}
	z, _, ok := leastDistance([]halfSpace{row(1, 0, 0), row(0, 1, 0), row(-1, -1, -1)}, 2)
	if !ok {
		t.Fatal("nearest found nothing")
	}
	x2 := fit[1] + z[1]/r22
	x1 := fit[0] + (z[0]-z[1]*r12/r22)/r11
	var sum float64
	for i := range at {
		d := of[i] - x1*at[i] - x2
		sum += d * d
	}
	if math.Abs(x1-.62132) > 5e-6 || math.Abs(x2-.37868) > 5e-6 || math.Abs(math.Sqrt(sum)-.33823) > 5e-6 {
		t.Errorf("x = (%.6f, %.6f), residual %.6f; want (0.62132, 0.37868), 0.33823", x1, x2, math.Sqrt(sum))
	}
}

// Random problems: an answer lies in every space and is the sum of its pushes (Kuhn-Tucker, which makes it the nearest);
// a refusal adds up to 0 ≥ 1.
func TestNearestRandom(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	answers, refusals := 0, 0
	for range 5000 {
		n, m := 1+rnd.IntN(8), 1+rnd.IntN(14)
		spaces := make([]halfSpace, m)
		for j := range spaces {
			spaces[j] = halfSpace{make([]float64, n), rnd.NormFloat64()}
			for i := range n {
				spaces[j].normal[i] = rnd.NormFloat64()
			}
		}
		z, w, ok := leastDistance(spaces, n)
		sum, total := make([]float64, n), 0.
		for j, s := range spaces {
			if w[j] < 0 {
				t.Fatalf("weight %v", w[j])
			}
			subtract(sum, -w[j], s.normal)
			total += w[j] * s.bound
		}
		if !ok {
			refusals++
			if size := norm(sum); size > 1e-6 || math.Abs(total-1) > 1e-6 {
				t.Fatalf("refusal adds up to %v ≥ %v", sum, total)
			}
			continue
		}
		answers++
		for j, s := range spaces {
			room := dot(s.normal, z) - s.bound
			if room < -1e-9 || w[j] > 1e-9 && room > 1e-9 {
				t.Fatalf("space %d: room %v, weight %v", j, room, w[j])
			}
		}
		subtract(sum, 1, z)
		if norm(sum) > 1e-7*(1+norm(z)) {
			t.Fatalf("z = %v is not the sum of its pushes: off by %v", z, norm(sum))
		}
	}
	if answers < 1000 || refusals < 500 {
		t.Errorf("%d answers, %d refusals: too few of one kind to mean anything", answers, refusals)
	}
}

package layout

import (
	"math"
	"slices"

	"hubrule/segments"
)

// stage is one least-distance problem: some working variables move, the others are fixed.
type stage struct {
	moving []int   // indices of working variables
	centre vector  // the goal of what moves, the values of what is fixed
	step   vector  // unit of distance of what moves
	slack  float64 // what the pins of what is fixed leave open, in any form, in wheels
}

// free lets the working variable of f move from centre in units of step.
func (s *stage) free(f segments.Figure, centre, step float64) {
	i := index(f)
	s.moving, s.centre[i], s.step[i] = append(s.moving, i), centre, step
}

// equation is a pin: form is 0. Slack is how far from 0 it may be where other pins determine it already.
type equation struct {
	figure segments.Figure
	form   affine
	slack  float64
}

// outcome is the result of a stage.
type outcome struct {
	at            vector // meaningless where it failed
	failed        bool
	pins          []segments.Figure // failed: pins that together with limits make it impossible, perhaps more of them than needed
	limits        []int             // failed: likewise; else those that stop it
	displacements []vector
}

const (
	// tolerance is how far a limit may be missed: a stage starts where another ended, and both round.
	tolerance = 1e-10
	// degenerate is the share of its length that is left of a row that depends on others.
	degenerate = 1e-9
)

// basis is an orthonormal basis of the pins' rows: the pins fix the part of the space that it spans.
type basis struct {
	directions   [][]float64 // orthonormal
	combinations [][]float64 // directions[k] = Σ combinations[k][i] · row of equation i
	start        []float64   // the point nearest to the centre that meets all pins
}

// solve finds the point nearest to the centre that meets all equations and limits. If there is none, the limits in the way are
// relaxed step by step, at most as far as most says.
func (s stage) solve(eqs []equation, limits []limit, most relaxation) outcome {
	set, clash := s.orthonormalise(eqs)
	if clash != nil {
		return outcome{failed: true, pins: clash}
	}
	relaxed := make([]relaxation, len(limits))
	first := s.minimise(set, eqs, limits, relaxed)
	out := first
	for out.failed {
		more := false
		for _, i := range out.limits {
			if relaxed[i] < most {
				relaxed[i]++
				more = true
			}
		}
		if !more {
			return first
		}
		out = s.minimise(set, eqs, limits, relaxed)
	}
	return out
}

// relaxation is how far a limit is relaxed.
type relaxation uint8

const (
	unrelaxed  relaxation = iota // except where pins alone determine a limit: it is always relaxed by rounding
	byRounding                   // by what rounding to the quantum does
	byDigits                     // by what the last digits of pins leave open
)

// row returns a form's coefficients in units of what moves, and its value at the centre.
func (s stage) row(l affine) (row []float64, value float64) {
	row = make([]float64, len(s.moving))
	for i, j := range s.moving {
		row[i] = float64(l.coefficients[j] * s.step[j])
	}
	return row, l.value(s.centre)
}

// orthonormalise turns the pins' rows into a basis, in order. A row that depends on earlier ones has to agree with them; pins that do
// not agree are returned as a clash.
func (s stage) orthonormalise(eqs []equation) (set basis, clash []segments.Figure) {
	set.start = make([]float64, len(s.moving))
	for k, e := range eqs {
		row, value := s.row(e.form)
		size := norm(row)
		if size == 0 {
			continue // only about what is fixed: the stage before has met it
		}
		combination := make([]float64, len(eqs))
		combination[k] = 1
		rest := slices.Clone(row)
		orthogonalise(rest, set.directions, func(d int, share float64) { subtract(combination, share, set.combinations[d]) })
		miss := -value - dot(row, set.start)
		left := norm(rest)
		if left > degenerate*size {
			scale(rest, 1/left)
			scale(combination, 1/left)
			set.directions, set.combinations = append(set.directions, rest), append(set.combinations, combination)
			subtract(set.start, -miss/left, rest)
			continue
		}
		if math.Abs(miss) > combinedSlack(eqs, combination)+s.slack+1e-9 {
			for i, share := range combination {
				if math.Abs(share) > degenerate {
					clash = append(clash, eqs[i].figure)
				}
			}
			return set, clash
		}
	}
	return set, nil
}

// combinedSlack returns how far a combination of pins may be off by their last digits.
func combinedSlack(eqs []equation, combination []float64) float64 {
	var sum float64
	for i, share := range combination {
		sum += float64(math.Abs(share) * eqs[i].slack)
	}
	return sum
}

// minimise finds the point nearest to the centre in the space that the pins leave open, with the limits relaxed.
func (s stage) minimise(set basis, eqs []equation, limits []limit, relaxed []relaxation) outcome {
	n := len(s.moving)
	spaces, which := make([]halfSpace, 0, len(limits)), make([]int, 0, len(limits))
	combinations := make([][]float64, len(limits))
	for i, l := range limits {
		row, value := s.row(l.room)
		size := norm(row)
		if size == 0 {
			continue // only about what is fixed
		}
		combinations[i] = make([]float64, len(eqs))
		room := value + dot(row, set.start)
		orthogonalise(row, set.directions, func(d int, share float64) { subtract(combinations[i], -share, set.combinations[d]) })
		left := norm(row)
		room += tolerance + s.allowance(relaxed[i], left <= degenerate*size, combinedSlack(eqs, combinations[i]))
		if left > degenerate*size {
			spaces, which = append(spaces, halfSpace{row, -room}), append(which, i)
		} else if room < 0 {
			return outcome{failed: true, pins: pinsIn(eqs, combinations[i]), limits: []int{i}}
		}
	}
	z, weights, ok := leastDistance(spaces, n)
	var out outcome
	total := make([]float64, len(eqs))
	for j, w := range weights {
		if w <= 0 {
			continue
		}
		out.limits = append(out.limits, which[j])
		if ok {
			out.displacements = append(out.displacements, s.displacement(spaces[j].normal, w))
		} else {
			subtract(total, -w, combinations[which[j]])
		}
	}
	if !ok {
		out.failed, out.pins = true, pinsIn(eqs, total)
		return out
	}
	out.at = s.centre
	for i, j := range s.moving {
		out.at[j] += float64((set.start[i] + z[i]) * s.step[j])
	}
	return out
}

// allowance returns by how much a limit is relaxed whose pins leave open wheels undetermined.
func (s stage) allowance(g relaxation, determined bool, open float64) float64 {
	const rounded = 4 * quantum
	switch {
	case g == byDigits:
		return math.Max(open+s.slack, rounded)
	case g == byRounding, determined:
		return rounded
	}
	return 0
}

// displacement returns how far a limit of this weight moves each variable.
func (s stage) displacement(row []float64, weight float64) vector {
	var by vector
	for i, j := range s.moving {
		by[j] = float64(row[i]*weight) * s.step[j]
	}
	return by
}

// pinsIn lists the pins of a combination of equations.
func pinsIn(eqs []equation, shares []float64) []segments.Figure {
	var out []segments.Figure
	most := 0.
	for _, share := range shares {
		most = math.Max(most, math.Abs(share))
	}
	for i, share := range shares {
		if math.Abs(share) > degenerate*most {
			out = append(out, eqs[i].figure)
		}
	}
	return out
}

package layout

import "math"

// stage is one least-distance problem: some working variables move, the others are held.
type stage struct {
	moving []int   // slots
	centre amounts // where what moves would like to be, and where what is held is
	half   amounts // one step of what moves
	slack  float64 // what the pins of what is held leave open, in any form, in wheels
}

// equation is a pin: form is 0. Slack is how far from 0 it may be where other pins have settled it already.
type equation struct {
	pin   int // whose: an index into the solve's pins
	form  linear
	slack float64
}

// outcome is what a stage comes to.
type outcome struct {
	at     amounts // meaningless where it failed
	failed bool
	pins   []int // failed: pins that together with limits make it impossible, perhaps more of them than needed
	limits []int // failed: likewise; else those that stop it
	pushed []amounts
}

const (
	// hair is how far a limit may be missed: a stage starts where another ended, and both round.
	hair = 1e-10
	// settled is the share of a row under which nothing of it is left to move.
	settled = 1e-9
)

// settlement is the pins of a stage made orthonormal: they fix the part of the space that directions span.
type settlement struct {
	directions [][]float64 // orthonormal
	made       [][]float64 // direction k = Σ made[k][i] · row of equation i
	start      []float64   // the point nearest to the centre that meets all pins
}

// solve finds the nearest point to the centre that meets all equations and limits. A limit may be missed by what the last digits of the
// pins in it leave open, if there is no other way: only limits that stand in the way give way, and first only by what rounding does.
func (s stage) solve(eqs []equation, limits []limit) outcome {
	set, clash := s.settle(eqs)
	if clash != nil {
		return outcome{failed: true, pins: clash}
	}
	given := make([]give, len(limits))
	first := s.within(set, eqs, limits, given)
	for out := first; ; out = s.within(set, eqs, limits, given) {
		if !out.failed {
			return out
		}
		more := false
		for _, i := range out.limits {
			if given[i] < byDigits {
				given[i]++
				more = true
			}
		}
		if !more {
			return first
		}
	}
}

// give is how far a limit gives way.
type give uint8

const (
	notAtAll   give = iota // a limit that pins settle: by rounding all the same
	byRounding             // by what rounding to the quantum does
	byDigits               // by what the last digits of pins leave open
)

// solveTight is solve with no limit giving way.
func (s stage) solveTight(eqs []equation, limits []limit) outcome {
	set, clash := s.settle(eqs)
	if clash != nil {
		return outcome{failed: true, pins: clash}
	}
	return s.within(set, eqs, limits, make([]give, len(limits)))
}

// row returns a form's coefficients in steps of what moves, and its value at the centre.
func (s stage) row(l linear) (row []float64, value float64) {
	row = make([]float64, len(s.moving))
	for i, j := range s.moving {
		row[i] = float64(l.of[j] * s.half[j])
	}
	return row, l.at(s.centre)
}

// settle makes the pins' rows orthonormal, in order: the first ones are met exactly, one that they settle has to agree.
// Pins that do not agree are returned as a clash.
func (s stage) settle(eqs []equation) (set settlement, clash []int) {
	set.start = make([]float64, len(s.moving))
	for k, e := range eqs {
		row, value := s.row(e.form)
		size := norm(row)
		if size == 0 {
			continue // about what is held: the stage before has met it
		}
		made := make([]float64, len(eqs))
		made[k] = 1
		rest := append([]float64(nil), row...)
		for range 2 {
			for d, dir := range set.directions {
				part := dot(rest, dir)
				subtract(rest, part, dir)
				subtract(made, part, set.made[d])
			}
		}
		miss := -value - dot(row, set.start)
		left := norm(rest)
		if left > settled*size {
			scale(rest, 1/left)
			scale(made, 1/left)
			set.directions, set.made = append(set.directions, rest), append(set.made, made)
			subtract(set.start, -miss/left, rest)
			continue
		}
		if math.Abs(miss) > loose(eqs, made)+s.slack+1e-9 {
			for i, share := range made {
				if math.Abs(share) > settled {
					clash = append(clash, eqs[i].pin)
				}
			}
			return set, clash
		}
	}
	return set, nil
}

// loose is how far a combination of pins may be off by their last digits.
func loose(eqs []equation, made []float64) float64 {
	var sum float64
	for i, share := range made {
		if share != 0 {
			sum += float64(math.Abs(share) * eqs[i].slack)
		}
	}
	return sum
}

// within finds the nearest point to the centre on what the pins leave open, each limit giving way as far as given says.
func (s stage) within(set settlement, eqs []equation, limits []limit, given []give) outcome {
	n := len(s.moving)
	spaces, which := make([]halfSpace, 0, len(limits)), make([]int, 0, len(limits))
	made := make([][]float64, len(limits))
	for i, l := range limits {
		row, value := s.row(l.room)
		size := norm(row)
		if size == 0 {
			continue // about what is held
		}
		made[i] = make([]float64, len(eqs))
		room := value + dot(row, set.start)
		for range 2 {
			for d, dir := range set.directions {
				part := dot(row, dir)
				subtract(row, part, dir)
				subtract(made[i], -part, set.made[d])
			}
		}
		left := norm(row)
		room += hair + s.giving(given[i], left <= settled*size, loose(eqs, made[i]))
		if left > settled*size {
			spaces, which = append(spaces, halfSpace{row, -room}), append(which, i)
		} else if room < 0 {
			return outcome{failed: true, pins: pinsIn(eqs, made[i]), limits: []int{i}}
		}
	}
	z, weights, ok := nearest(spaces, n)
	var out outcome
	total := make([]float64, len(eqs))
	for j, w := range weights {
		if w <= 0 {
			continue
		}
		out.limits = append(out.limits, which[j])
		if ok {
			out.pushed = append(out.pushed, s.push(spaces[j].row, w))
		} else {
			subtract(total, -w, made[which[j]])
		}
	}
	if !ok {
		out.failed, out.pins = true, pinsIn(eqs, total)
		return out
	}
	out.at = s.centre
	for i, j := range s.moving {
		out.at[j] += float64((set.start[i] + z[i]) * s.half[j])
	}
	return out
}

// giving is by how much a limit gives way whose pins leave so much open.
func (s stage) giving(g give, isSettled bool, open float64) float64 {
	const rounded = 4 * quantum
	switch {
	case g == byDigits:
		return math.Max(open+s.slack, rounded)
	case g == byRounding, isSettled:
		return rounded
	}
	return 0
}

// push returns how far a limit of this weight moves every variable.
func (s stage) push(row []float64, weight float64) amounts {
	var by amounts
	for i, j := range s.moving {
		by[j] = float64(row[i]*weight) * s.half[j]
	}
	return by
}

// pinsIn lists the pins with a share in a combination.
func pinsIn(eqs []equation, shares []float64) []int {
	var out []int
	most := 0.
	for _, share := range shares {
		most = math.Max(most, math.Abs(share))
	}
	for i, share := range shares {
		if math.Abs(share) > settled*most {
			out = append(out, eqs[i].pin)
		}
	}
	return out
}

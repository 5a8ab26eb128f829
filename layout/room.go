package layout

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/parallel"
	"hubrule/internal/slice"
	"hubrule/segments"
)

// Room is how far a figure may be moved while everything else that a brief pins or keeps holds, and while no limit pushes another figure
// of the body or the A-pillar out of its range: a hand that drags one figure means to move that one. A pin may go further.
type Room struct {
	Lo, Hi         float64 // in the figure's own unit, rounded inwards to three decimals
	StopLo, StopHi string  // what stops it there, as a sentence without its full stop
}

// roomDigits are the decimals of a room's ends.
const roomDigits = 3

// RoomOf returns the room of a figure, whether the brief pins it or not. The error is that of [Solve]: where the brief has no plan, no
// figure has room. Tyres and the form have none either.
func RoomOf(b segments.Brief, f segments.Figure) (Room, error) {
	info := f.Info()
	if why := b.CannotPin(f); why != "" {
		return Room{}, fmt.Errorf("%s: %s", f, why)
	}
	if info.Unit == segments.InMM || info.Unit == segments.AsWord {
		return Room{}, fmt.Errorf("%s: it is chosen, not moved", f)
	}
	plan, err := Solve(b)
	if err != nil {
		return Room{}, err
	}
	b.Pins = slices.DeleteFunc(slices.Clone(b.Pins), func(p segments.Pin) bool { return p.Figure == f })
	b.Keeps = slices.DeleteFunc(slices.Clone(b.Keeps), func(k segments.Keep) bool { return k.Figure == f })
	s := search{b, f, plan}
	var r Room
	parallel.Together(
		func() { r.Lo, r.StopLo = s.end(plan.Value(f), info.Lo) },
		func() { r.Hi, r.StopHi = s.end(plan.Value(f), info.Hi) },
	)
	return r, nil
}

// search looks for the ends of a figure's room.
type search struct {
	brief  segments.Brief // without the figure
	figure segments.Figure
	now    Plan
}

// with returns the solver with the figure pinned at a value in its own unit.
func (s search) with(v float64) solver {
	text := strconv.FormatFloat(v, 'f', 6, 64)
	if s.figure.Info().Unit == segments.InWheels {
		text += "w"
	}
	b := s.brief
	if pin, err := segments.ParsePin(s.figure, text); err == nil {
		b.Pins = append(slices.Clone(b.Pins), pin)
	}
	return newSolver(b)
}

// pushed returns the limit that pushes another figure out of its range, further than it is now; "" where none does.
func (s search) pushed(sol solution) string {
	for f := range segments.FigureCount {
		limit := sol.stops[f]
		if limit == "" || f == s.figure || isEnd(f) || !s.now.isFree(f) { // ends follow the body: they never hold it
			continue
		}
		r := s.now.Profile.Figures[f].Range
		if beyond(sol.values[f], r) > beyond(s.now.Value(f), r)+1e-6 {
			return limit
		}
	}
	return ""
}

// end returns how far from now the figure moves towards a bound that no vehicle passes, and what stops it.
func (s search) end(now, bound float64) (at float64, stop string) {
	works := func(v float64) bool {
		sol := s.with(v).attempt()
		return !sol.failed && s.pushed(sol) == ""
	}
	if works(bound) {
		return bound, "no vehicle goes further"
	}
	step := math.Pow10(-roomDigits)
	near, far := now, bound // near works, far does not
	for math.Abs(far-near) > step/2 {
		if middle := (near + far) / 2; works(middle) {
			near = middle
		} else {
			far = middle
		}
	}
	inwards := math.Floor
	if bound < now {
		inwards = math.Ceil
	}
	at = inwards(near/step) / math.Round(1/step)
	if (at-now)*(bound-now) < 0 {
		at = now // it stands at its end with more digits than a room has
	}
	return at, s.stopAt(far)
}

// stopAt says what is in the way of a value that does not hold: other pins, and the limits that are most about it.
func (s search) stopAt(v float64) string {
	tight := s.with(v)
	sol := tight.attempt()
	if !sol.failed {
		return s.pushed(sol)
	}
	figures, limits := tight.irreducible(sol)
	figures = slices.DeleteFunc(figures, func(f segments.Figure) bool { return f == s.figure })
	// That nothing is less than 0 is part of nearly every reason and explains none.
	telling := slices.DeleteFunc(slices.Clone(limits), func(name string) bool { return strings.HasSuffix(name, " at least 0") })
	if len(telling) == 0 {
		telling = limits
	}
	reason := strings.Join(telling[:min(2, len(telling))], ", ")
	if len(figures) == 0 {
		return reason
	}
	held := "held by the pinned " + words(figures)
	if reason != "" {
		held += ": " + reason
	}
	return held
}

// words lists figures as people say them: "length", "length and wheels between", "a, b and c".
func words(figures []segments.Figure) string {
	names := slice.Map(figures, func(f segments.Figure) string { return strings.ReplaceAll(f.String(), "-", " ") })
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

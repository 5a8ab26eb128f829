package flat

import (
	"slices"

	"hubrule/layout/view"
)

// The ends of shut lines, in wheels: how far one is carried on to another line, and over what length its direction is taken.
const (
	reach view.ImageLength = .12
	along view.ImageLength = .04
)

// join carries the ends of shut lines straight on to the line that they all but meet: a lid or gate is closed where it was drawn to the
// edge of what is seen.
func join(lines []visibleLine, features []visibleLine) {
	var others [][]view.ImagePoint
	for _, l := range append(lines[:len(lines):len(lines)], features...) {
		others = append(others, l.runs...)
	}
	for _, l := range lines {
		for i, run := range l.runs {
			if l.Kind != view.DetailLine || run[0].Sub(run[len(run)-1]).Len() < along {
				continue
			}
			isOwn := func(other []view.ImagePoint) bool { return &other[0] == &run[0] }
			rest := slices.DeleteFunc(slices.Clone(others), isOwn)
			l.runs[i] = reversed(carried(reversed(carried(run, rest)), rest))
		}
	}
}

// carried returns run with one more point at its end, on the first of the lines ahead.
func carried(run []view.ImagePoint, lines [][]view.ImagePoint) []view.ImagePoint {
	last, from := run[len(run)-1], len(run)-1
	for from > 0 && run[from].Sub(last).Len() < along {
		from--
	}
	ahead := last.Sub(run[from]).Unit().Times(float64(reach))
	best := 2.
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			side, off := l[i].Sub(l[i-1]), l[i-1].Sub(last)
			d := ahead.Cross(side)
			if d == 0 {
				continue
			}
			if t, u := off.Cross(side)/d, off.Cross(ahead)/d; t > -.05 && t < best && u >= 0 && u <= 1 {
				best = t
			}
		}
	}
	if best <= 0 || best > 1 {
		return run
	}
	return append(run[:len(run):len(run)], last.Add(ahead.Times(best)))
}

func reversed(run []view.ImagePoint) []view.ImagePoint {
	out := slices.Clone(run)
	slices.Reverse(out)
	return out
}

package layout

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments"
)

// Clash says why a brief has no plan. It is an error.
type Clash struct {
	Brief segments.Brief
	Sets  []ClashSet
}

// ClashSet is an irreducible set of pins that cannot hold together, with the limits involved: without any one of its pins the
// others hold. No pin is in two sets.
type ClashSet struct {
	Pins   []ClashPin
	Limits []string // for people: limits of a vehicle, and figures that the A-pillar's line met
}

// ClashPin is one pin of a clash.
type ClashPin struct {
	Figure  segments.Figure
	Value   float64 // in the figure's own unit
	Kept    bool
	Origin  segments.Origin
	Written string // the value as it was written; "" of a kept figure
	// Nearest is the value nearest to the wanted one that works with all other pins but those of the other sets, rounded to three decimals
	// (degrees to one) towards the working side; NaN where no value of this figure alone helps.
	Nearest float64
	// AlreadyMet: a pin of the body in a clash of the A-pillar. It was met before the pillar was looked at, so no value is looked for.
	AlreadyMet bool
	// Suggestion is Nearest in the unit that was written; "" where there is none.
	Suggestion string
}

// clash finds all sets. A set's pins are removed before the next is looked for.
func (s solver) clash(b segments.Brief) *Clash {
	c := &Clash{Brief: b}
	var sets [][]segments.Figure
	left := s
	for sol := left.attempt(); sol.failed; sol = left.attempt() {
		figures, limits := left.irreducible(sol)
		if len(figures) == 0 {
			break // limits alone: a profile that no vehicle can have
		}
		sets = append(sets, figures)
		c.Sets = append(c.Sets, ClashSet{Limits: limits})
		left.pins = slices.DeleteFunc(slices.Clone(left.pins), func(t target) bool { return slices.Contains(figures, t.pin.Figure) })
	}
	for k, figures := range sets {
		with := s.withPins(slices.Concat(left.figures(), figures))
		ofPillar := s.withPins(figures).attempt().pillar
		for _, f := range figures {
			c.Sets[k].Pins = append(c.Sets[k].Pins, with.clashPin(f, ofPillar))
		}
	}
	return c
}

// figures lists the pinned figures.
func (s solver) figures() []segments.Figure {
	return slice.Map(s.pins, func(t target) segments.Figure { return t.pin.Figure })
}

// irreducible reduces a failure to pins and limits of which none can be spared: first pins, from the last, then limits are left out as
// long as the rest still fails. Pins first: without any pin of the set the others hold in every respect, so that each of them can be
// given a value that works (docs/solve.md).
func (s solver) irreducible(sol solution) (figures []segments.Figure, limits []string) {
	pillar, within := sol.pillar, s
	fails := func(p solver) (solution, bool) {
		again := p.attempt()
		return again, again.failed && again.pillar == pillar
	}
	if !pillar {
		// The failure's own proof names few pins: nothing else needs to be tried.
		within = s.withPins(sol.pins)
	}
	// Over and over: a pin of the body may hold the A-pillar off a limit and be spared only once others are gone.
	for before := -1; before != len(within.pins); {
		before = len(within.pins)
		for k := len(within.pins) - 1; k >= 0; k-- {
			fewer := within
			fewer.pins = slices.Delete(slices.Clone(within.pins), k, k+1)
			if again, failed := fails(fewer); failed {
				within, sol = fewer, again
			}
		}
	}
	within.omitted = map[string]bool{}
	if !pillar {
		if again, failed := fails(within); failed {
			sol = again
		}
		for _, l := range s.limits {
			within.omitted[l.name] = !slices.Contains(sol.limits, l.name)
		}
	}
	known := s.limits
	if pillar {
		known = append(slices.Clone(known), s.pillarLimits(sol.values)...)
	}
	for _, l := range known {
		if within.omitted[l.name] {
			continue
		}
		within.omitted[l.name] = true
		if _, failed := fails(within); !failed {
			within.omitted[l.name] = false
			limits = append(limits, l.name)
		}
	}
	figures = within.figures()
	if pillar {
		limits = append(limits, s.withPins(figures).metFigures(limits)...)
	}
	return figures, limits
}

// metFigures names the belt, height and wheelbase that the A-pillar's line met, as far as pins and limits involve them.
func (s solver) metFigures(limits []string) []string {
	sol := s.attempt()
	if sol.values == (segments.Values{}) {
		return nil
	}
	glass := slices.Contains(limits, headBeforeGlass) || slices.Contains(limits, glassBeforeTail)
	var out []string
	for _, m := range []struct {
		involved bool
		figure   segments.Figure
	}{
		{s.isPinned(segments.PillarFoot) || slices.Contains(limits, footBehindNose), segments.Belt},
		{s.isPinned(segments.PillarHead) || glass, segments.Height},
		{glass, segments.Wheelbase},
	} {
		if m.involved {
			out = append(out, fmt.Sprintf("%s %.2f", m.figure, sol.values[m.figure]))
		}
	}
	return out
}

// Error lists every set in one line; package cli has more room.
func (c *Clash) Error() string {
	if len(c.Sets) == 0 {
		return "the profile's own typical figures break a limit of every vehicle"
	}
	var lines []string
	for _, set := range c.Sets {
		pins := slice.Map(set.Pins, func(p ClashPin) string { return p.Figure.String() })
		line := strings.Join(pins, ", ")
		if len(set.Limits) > 0 {
			line += " against " + strings.Join(set.Limits, "; ")
		}
		lines = append(lines, line)
	}
	return "these cannot hold together: " + strings.Join(lines, " | ")
}

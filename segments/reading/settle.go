package reading

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
)

// settle makes the profile one that every brief can be solved on, and that is drawn as it was read where a vehicle can be so: what was read
// is held on the segment that the rest comes from, and the profile takes over where the least change moves that. Where not all of it can be
// held, what was read least well is let go. Left to the solve, that stays as near as the limits allow; but what hangs on the body gives way
// first there, read or not, so what ends outside its ± is held once more. What cannot be held even so is noted with the limit that pushes
// it.
func (d *draft) settle() error {
	start := *d.start
	for f := range d.read { // what is given moves by nothing, and is as it was read from the start
		if f := segments.Figure(f); f.Info().Role == segments.Given {
			start.Figures[f] = d.profile.Figures[f]
		}
	}
	plan, _, err := d.hold(&start, d.all(), map[segments.Figure]string{})
	loose := map[segments.Figure]string{} // those that were held and clashed, with the limits that they clashed with
	var held []segments.Pin
	for err == nil {
		d.takeOver(plan)
		if plan, held, err = d.hold(d.profile, held, loose); err != nil {
			break
		}
		more := slices.DeleteFunc(d.pushed(plan), func(s layout.FigureStatus) bool { _, is := loose[s.Figure]; return is })
		if len(more) == 0 { // the latest when each that was read is held or loose
			break
		}
		for _, s := range more {
			held = append(held, d.pin(s.Figure))
		}
		plan, held, err = d.hold(d.profile, held, loose)
	}
	if err == nil {
		plan, _, err = d.hold(d.profile, nil, loose)
	}
	if err != nil {
		return err
	}
	for _, s := range d.pushed(plan) {
		d.note("%s and is drawn as %s, outside its ±: %s", d.said(s.Figure), amount(s.Figure, s.Value),
			cmp.Or(s.Limit, loose[s.Figure], "the other figures leave no room"))
	}
	return nil
}

// all pins everything that was read and does not follow from the rest.
func (d *draft) all() (pins []segments.Pin) {
	for f, v := range d.read {
		if f := segments.Figure(f); v.State == Read && f.Info().Role != segments.Given && !d.isSettled(f) {
			pins = append(pins, d.pin(f))
		}
	}
	return pins
}

// pin pins a figure where it was read.
func (d *draft) pin(f segments.Figure) segments.Pin {
	return pinOf(f, exactly(f, d.read[f].Value), d.name)
}

// hold lays out a profile with figures held, and returns those that still are: fewer where they clash.
func (d *draft) hold(p *segments.Profile, held []segments.Pin, loose map[segments.Figure]string) (layout.Plan, []segments.Pin, error) {
	for {
		plan, clash := solve(p, held)
		switch {
		case clash == nil:
			return plan, held, nil
		case plan.Profile == nil && len(held) == 0:
			return plan, held, fmt.Errorf("%s: no vehicle is drawn from what was read: %w", d.name, clash)
		case len(held) == 0:
			return plan, held, nil // the profile stays within bounds, and the plan near them
		}
		held = d.release(clash, held, loose)
	}
}

// solve lays out a profile with figures held. A figure with a number that no vehicle has is a clash of all pins.
func solve(p *segments.Profile, held []segments.Pin) (layout.Plan, *layout.Clash) {
	plan, err := layout.Solve(segments.Brief{Profile: p, Pins: held})
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return layout.Plan{}, clash
	}
	if f, absurd := outOfBounds(plan); absurd {
		set := layout.ClashSet{Limits: []string{f.String() + " would be " + amount(f, plan.Value(f))}}
		set.Pins = slice.Map(held, func(p segments.Pin) layout.ClashPin { return layout.ClashPin{Figure: p.Figure} })
		clash = &layout.Clash{Sets: []layout.ClashSet{set}}
	}
	return plan, clash
}

// outOfBounds returns the first declared figure of a plan with a number that no vehicle has.
func outOfBounds(plan layout.Plan) (f segments.Figure, found bool) {
	const noise = 1e-5 // of a limit at a bound
	for f = segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		info, v := f.Info(), plan.Value(f)
		if plan.Profile.Form.Has(f) && (v < info.Lo-noise || v > info.Hi+noise) {
			return f, true
		}
	}
	return f, false
}

// pushed lists the figures that were read and lie outside their ± in a plan; declared ones outside their range, which may reach farther to
// one side.
func (d *draft) pushed(plan layout.Plan) []layout.FigureStatus {
	return slices.DeleteFunc(plan.FigureStatuses(), func(s layout.FigureStatus) bool {
		const rounding = 1e-4
		v := d.read[s.Figure]
		pm := max(v.PM, leastPM(s.Figure))
		within := segments.Range{Lo: v.Value - pm, Hi: v.Value + pm}
		if s.Figure.Info().Role == segments.Declared {
			within = *s.Range
		}
		return v.State != Read || s.Figure.Info().Role == segments.Given || d.noted[s.Figure] ||
			s.Value >= within.Lo-rounding && s.Value <= within.Hi+rounding
	})
}

// release lets go of the figure of each set that clashes that was read least well, in half-ranges of the base; of the last of all where
// limits alone clash.
func (d *draft) release(clash *layout.Clash, held []segments.Pin, loose map[segments.Figure]string) []segments.Pin {
	halves, before := halfRanges(d.start), len(held)
	for _, set := range clash.Sets {
		worst, most := -1, 0.
		for i, p := range held {
			in := slices.ContainsFunc(set.Pins, func(c layout.ClashPin) bool { return c.Figure == p.Figure })
			if pm := max(d.read[p.Figure].PM, leastPM(p.Figure)) / halves[p.Figure]; in && pm >= most {
				worst, most = i, pm
			}
		}
		if worst >= 0 {
			loose[held[worst].Figure] = strings.Join(set.Limits, "; ")
			held = slices.Delete(held, worst, worst+1)
		}
	}
	if len(held) == before {
		loose[held[before-1].Figure] = ""
		held = held[:before-1]
	}
	return held
}

// moved ends the basis of a figure that is no longer what the segment has.
const moved = ", moved by what was read"

// takeOver gives what was not read itself the values that it has in a plan.
func (d *draft) takeOver(plan layout.Plan) {
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		e, now := &d.profile.Figures[f], plan.Value(f)
		if !d.profile.Form.Has(f) || d.read[f].State == Read || math.Abs(now-e.Value) < 1e-4 {
			continue
		}
		assume(d.profile, f, now)
		if was := amount(f, d.start.Figures[f].Value); was != amount(f, now) && d.sources(f) == nil && !strings.HasSuffix(e.Basis, moved) {
			e.Basis += "; from " + was + moved
		}
	}
}

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
// is held, and the profile takes over where the least change moves what was assumed. Where not all of it can be held the solve may choose,
// which moves by half-ranges and so what was assumed by more; but what hangs on the body gives way first there, read or not, so what ends
// outside its ± is held once more. What cannot be held even so is noted with the limit that pushes it.
func (d *draft) settle() error {
	loose := map[segments.Figure]string{} // those that were held and clashed, with the limits that they clashed with
	plan, clash := d.solve(d.all())
	var held []segments.Pin
	var err error
	if clash != nil {
		plan, held, err = d.hold(nil, loose)
	}
	for err == nil {
		d.takeOver(plan)
		if plan, held, err = d.hold(held, loose); err != nil {
			break
		}
		more := slices.DeleteFunc(d.pushed(plan), func(s layout.FigureStatus) bool { _, is := loose[s.Figure]; return is })
		if len(more) == 0 { // the latest when each that was read is held or loose
			break
		}
		for _, s := range more {
			held = append(held, d.held(s.Figure))
		}
		plan, held, err = d.hold(held, loose)
	}
	if d.fixesNothing {
		d.profile.Pins = nil
	}
	if err == nil {
		plan, _, err = d.hold(nil, loose)
	}
	if err != nil {
		return err
	}
	for _, s := range d.pushed(plan) {
		d.note("%s and is drawn as %s, outside its ±: %s", d.said(s.Figure), amount(s.Figure, s.Value),
			cmp.Or(s.Limit, loose[s.Figure], noRoom))
	}
	return nil
}

// all holds everything that was read and does not follow from the rest.
func (d *draft) all() (held []segments.Pin) {
	for f, v := range d.read {
		f := segments.Figure(f)
		if _, pinned := d.profile.Pin(f); v.State == Read && f.Info().Role != segments.Given && !pinned && !d.isSettled(f) {
			held = append(held, d.held(f))
		}
	}
	return held
}

// held pins a figure where it was read.
func (d *draft) held(f segments.Figure) segments.Pin {
	return pinOf(f, exactly(f, d.read[f].Value), d.source)
}

const noRoom = "the other figures leave no room"

// solve lays out the profile with figures held. A figure with a number that no vehicle has is a clash of all pins.
func (d *draft) solve(held []segments.Pin) (layout.Plan, *layout.Clash) {
	pins := slices.Concat(d.profile.Pins, held)
	plan, err := layout.Solve(segments.Brief{Profile: d.profile, Pins: pins})
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return layout.Plan{}, clash
	}
	if f, absurd := outOfBounds(plan); absurd {
		set := layout.ClashSet{Limits: []string{f.String() + " would be " + amount(f, plan.Value(f))}}
		set.Pins = slice.Map(pins, func(p segments.Pin) layout.ClashPin { return layout.ClashPin{Figure: p.Figure} })
		clash = &layout.Clash{Sets: []layout.ClashSet{set}}
	}
	return plan, clash
}

// hold lays out the profile with figures held, and returns those that still are: fewer where they clash.
func (d *draft) hold(held []segments.Pin, loose map[segments.Figure]string) (layout.Plan, []segments.Pin, error) {
	for {
		plan, clash := d.solve(held)
		if clash == nil {
			return plan, held, nil
		}
		released := false
		if held, released = d.release(clash, held, loose); released {
			continue
		}
		if plan.Profile == nil {
			return plan, held, fmt.Errorf("%s: no vehicle is drawn from what was read: %w", d.name, clash)
		}
		return plan, held, nil // nothing is pinned any more: the profile stays within bounds, and the plan near them
	}
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

// release lets go of a pin of each set that clashes: the last of those that are held, or else a figure that the profile fixes, with a
// note. It reports whether there was one.
func (d *draft) release(clash *layout.Clash, held []segments.Pin, loose map[segments.Figure]string) (left []segments.Pin, released bool) {
	for _, set := range clash.Sets {
		in := func(p segments.Pin) bool {
			return slices.ContainsFunc(set.Pins, func(c layout.ClashPin) bool { return c.Figure == p.Figure })
		}
		limit := strings.Join(set.Limits, "; ")
		if i := lastIndex(held, in); i >= 0 {
			loose[held[i].Figure] = limit
			held, released = slices.Delete(held, i, i+1), true
		} else if i := lastIndex(d.profile.Pins, in); i >= 0 {
			f := d.profile.Pins[i].Figure
			d.profile.Pins, released = slices.Delete(d.profile.Pins, i, i+1), true
			d.noted[f] = true
			d.note("%s and is left out: %s", d.said(f), cmp.Or(limit, noRoom))
		}
	}
	return held, released
}

func lastIndex(pins []segments.Pin, in func(segments.Pin) bool) int {
	for i := len(pins) - 1; i >= 0; i-- {
		if in(pins[i]) {
			return i
		}
	}
	return -1
}

// takeOver gives what was not read itself the values that it has in a plan.
func (d *draft) takeOver(plan layout.Plan) {
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		e, now := &d.profile.Figures[f], plan.Value(f)
		if !d.profile.Form.Has(f) || d.read[f].State == Read || math.Abs(now-e.Value) < 1e-4 {
			continue
		}
		was, is := amount(f, e.Value), amount(f, now)
		assume(d.profile, f, now)
		if was != is {
			e.Basis += "; " + is + " for " + was + ", to leave room for what was read"
		}
	}
}

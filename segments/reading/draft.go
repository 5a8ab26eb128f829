package reading

import (
	"fmt"
	"math"
	"slices"

	"hubrule/layout"
	"hubrule/segments"
)

// draft is a profile in the making.
type draft struct {
	name    string            // for notes
	verb    string            // of what was read, in notes
	start   *segments.Profile // the segment that what was not read comes from, on the tyres that were read
	profile *segments.Profile
	read    [segments.FigureCount]Value // what was read; the zero Value elsewhere
	known   estimates                   // that, and what follows from it and from the base
	basis   func(f segments.Figure, e estimate, from []segments.Figure) string
	entries map[segments.Figure]segments.Entry // of figures that have more than a value and a ±; nil: none
	notes   []string
	noted   [segments.FigureCount]bool // a note says already that the figure is not drawn as it was read
}

// said begins a note on a figure.
func (d *draft) said(f segments.Figure) string {
	return fmt.Sprintf("%s %s %s", f, d.verb, amount(f, d.read[f].Value))
}

func (d *draft) note(format string, args ...any) {
	d.notes = append(d.notes, d.name+": "+fmt.Sprintf(format, args...))
}

// finish puts what was read into the profile and makes it one that can be drawn.
func (d *draft) finish() error {
	start := *d.profile
	d.start = &start
	for f, v := range d.read {
		if v.State == Read {
			d.known[f] = measured(segments.Figure(f), v.Value, max(v.PM, leastPM(segments.Figure(f))))
		}
	}
	d.known.complete(d.profile.RearRatio())
	// What follows from a height that was read and from others of the base; the ratio is left to follow where it can.
	d.lean([]segments.Figure{segments.Belt, segments.BodySide, segments.Greenhouse},
		segments.Height, segments.Sill, segments.GreenhouseToBody)
	d.lean([]segments.Figure{segments.FrontLamp, segments.RearLamp}, segments.ArchGap, segments.LampDepth)
	for f := range segments.FigureCount {
		if f.Info().Role != segments.Derived && f.Info().Unit != segments.InMM && d.profile.Form.Has(f) && d.sources(f) != nil {
			entry, own := d.entries[f]
			if !own {
				entry = d.entry(f)
			}
			d.profile.Figures[f] = entry
		}
	}
	d.contradict()
	return d.settle()
}

// lean takes figures from the base, in order, until the declared figures behind the derived ones that were read are known.
func (d *draft) lean(derived []segments.Figure, on ...segments.Figure) {
	for _, f := range derived {
		if !d.known[f].known {
			continue
		}
		for _, g := range on {
			if e := d.profile.Figures[g]; !d.known[g].known {
				d.known[g] = measured(g, e.Value, e.Range.HalfWidth())
				d.known.complete(d.profile.RearRatio())
			}
		}
	}
}

// sources lists the figures that were read and from which figure f is known; none where it is not, or comes from the base alone.
func (d *draft) sources(f segments.Figure) (out []segments.Figure) {
	if d.known[f].known {
		for _, g := range d.known[f].from() {
			if d.read[g].State == Read {
				out = append(out, g)
			}
		}
	}
	return out
}

// leastPM is the least ± of a figure, so that no range is empty: a range is the unit of the solve.
func leastPM(f segments.Figure) float64 {
	if f.Info().Unit == segments.InDegrees {
		return .1
	}
	return .001
}

// entry is a figure's place in the profile.
func (d *draft) entry(f segments.Figure) segments.Entry {
	e, info, from := d.known[f], f.Info(), d.sources(f)
	if d.read[f].State == Read {
		from = nil
	}
	pm := max(e.pm(), leastPM(f))
	return segments.Entry{
		Value: rounded(e.value),
		Range: segments.Range{Lo: rounded(max(e.value-pm, info.Lo)), Hi: rounded(min(e.value+pm, info.Hi))},
		Basis: d.basis(f, e, from),
	}
}

// determined lists the declared figures that settle a derived one.
func determined(f segments.Figure) []segments.Figure {
	switch f {
	case segments.Length:
		return []segments.Figure{segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang}
	case segments.Belt, segments.BodySide, segments.Greenhouse:
		return []segments.Figure{segments.Height, segments.Sill, segments.GreenhouseToBody}
	case segments.PillarFoot, segments.PillarHead:
		return []segments.Figure{segments.PillarAim, segments.PillarRake}
	case segments.FrontLamp:
		return []segments.Figure{segments.ArchGap, segments.LampOffset}
	case segments.RearLamp:
		return []segments.Figure{segments.ArchGap, segments.LampOffset, segments.LampDepth}
	case segments.Wheelbase:
		return []segments.Figure{segments.WheelsBetween}
	case segments.FrontOverhangAxle:
		return []segments.Figure{segments.FrontOverhang}
	}
	return []segments.Figure{segments.RearOverhang}
}

// isSettled reports whether a derived figure follows from figures that were all read themselves.
func (d *draft) isSettled(f segments.Figure) bool {
	return f.Info().Role == segments.Derived &&
		!slices.ContainsFunc(determined(f), func(g segments.Figure) bool { return d.read[g].State != Read })
}

// contradict notes the derived figures that were read and are not what follows from others, which were all read as well and count.
func (d *draft) contradict() {
	plan := layout.Typical(d.profile)
	for f := segments.Wheelbase; f <= segments.RearLamp; f++ {
		v, has := d.read[f], plan.Value(f)
		if v.State == Read && d.isSettled(f) && math.Abs(has-v.Value) > max(v.PM, leastPM(f)) {
			d.noted[f] = true
			d.note("%s, and follows as %s from %s", d.said(f), amount(f, has), names(determined(f)))
		}
	}
}

// assume gives a profile another typical value of a figure, whose range goes with it.
func assume(p *segments.Profile, f segments.Figure, to float64) {
	info, e, least := f.Info(), &p.Figures[f], leastPM(f)
	to = min(max(rounded(to), info.Lo), info.Hi)
	by := to - e.Value
	e.Value = to
	e.Range = segments.Range{
		Lo: rounded(max(info.Lo, min(e.Range.Lo+by, to-least))), Hi: rounded(min(info.Hi, max(e.Range.Hi+by, to+least))),
	}
}

package reading

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// NormOptions says how norms are gathered.
type NormOptions struct {
	Name    string            // of the profile
	Like    *segments.Profile // the segment to lean on; nil: none, and the nearest is the base of what was not read
	Plain   bool              // ranges are p10 to p90 as they are
	Without []string          // names of readings to leave out
}

// Norms are what many readings have in common.
type Norms struct {
	Profile  *segments.Profile
	Base     *segments.Profile // the segment that the profile extends
	Readings []Reading         // without those left out by name
	Figures  []Norm            // in the figures' order, those that some reading has
	LeftOut  []LeftOut
	Outliers []Outlier // the farthest first
	Messages []string  // whole sentences: the base, what was left out, outliers, what cannot be drawn
}

// Norm is one figure of norms, in the figure's own unit.
type Norm struct {
	Figure           segments.Figure
	N                int
	P10, Median, P90 float64
	Range            segments.Range
	Values           []Value // of each reading; those not read or left out are absent
	by               method
}

// LeftOut is a reading that knows a figure too badly to count for it.
type LeftOut struct {
	Name   string
	Figure segments.Figure
	PM     float64
	Most   float64 // the largest ± that counts: half the range of the segment
}

// Outlier is a reading that lies far from the others in one figure. It counts all the same.
type Outlier struct {
	Name   string
	Figure segments.Figure
	Value  float64
	By     float64 // standard deviations above the median, or below it
}

// Gather makes norms of readings.
func Gather(readings []Reading, o NormOptions) (*Norms, error) {
	readings, err := without(readings, o.Without)
	if err != nil {
		return nil, err
	}
	g := gathering{Norms: &Norms{Readings: readings, Base: o.Like}, NormOptions: o}
	g.halves = usualHalfRanges()
	if o.Like != nil {
		g.halves = halfRanges(o.Like)
	}
	g.collect()
	if g.Figures == nil {
		return nil, errors.New("no figure was read; want a reading that has some")
	}
	if err := g.findBase(); err != nil {
		return nil, err
	}
	g.ranges()
	g.judge()
	if err := g.makeProfile(); err != nil {
		return nil, err
	}
	return g.Norms, nil
}

// without leaves out readings by name, in any case where none has the very name.
func without(readings []Reading, names []string) ([]Reading, error) {
	known := slice.Map(readings, func(r Reading) string { return r.Name })
	var errs []error
	left := slices.Clone(readings)
	for _, name := range names {
		is := func(of string) bool { return of == name }
		if !slices.Contains(known, name) {
			is = func(of string) bool { return strings.EqualFold(of, name) }
		}
		if !slices.ContainsFunc(known, is) {
			errs = append(errs, errors.New(strict.Unknown("reading", name, known)))
		}
		left = slices.DeleteFunc(left, func(r Reading) bool { return is(r.Name) })
	}
	if len(left) == 0 && errs == nil {
		errs = append(errs, errors.New("no reading is left; want at least one"))
	}
	return left, errors.Join(errs...)
}

// gathering is norms in the making.
type gathering struct {
	*Norms
	NormOptions
	halves segments.Values // half-ranges of the segment that is named, or the usual ones; 0 where there is none
}

func (g *gathering) say(format string, args ...any) {
	g.Messages = append(g.Messages, fmt.Sprintf(format, args...))
}

// collect takes from each reading what it has and what follows from that. A reading that knows a figure worse than a segment does would
// widen its range by its own errors, and is left out of it.
func (g *gathering) collect() {
	known := make([][]Value, segments.FigureCount)
	for i, r := range g.Readings {
		e := r.estimates()
		e.complete(r.tyreRatio())
		for f := range segments.FigureCount {
			if !e[f].known {
				continue
			}
			if known[f] == nil {
				known[f] = make([]Value, len(g.Readings))
			}
			v := Value{Value: e[f].value, PM: e[f].pm(), State: Read, MostFrom: r.Figures[f].MostFrom}
			if most := g.halves[f]; most > 0 && v.PM > most {
				g.leaveOut(LeftOut{r.Name, f, v.PM, most})
				continue
			}
			known[f][i] = v
		}
	}
	for f, values := range known {
		if n := (Norm{Figure: segments.Figure(f), Values: values}); len(n.numbers()) > 0 {
			s := spreadOf(n.numbers())
			n.N, n.P10, n.Median, n.P90 = s.n, s.p10, s.median, s.p90
			g.Figures = append(g.Figures, n)
		}
	}
}

// leaveOut leaves a reading out of a figure, and says so once: an overhang to the axle is the overhang to the tyre and half a wheel.
func (g *gathering) leaveOut(l LeftOut) {
	said := slices.ContainsFunc(relations, func(r relation) bool {
		return r.whole == l.Figure && len(r.parts) == 1 &&
			slices.ContainsFunc(g.LeftOut, func(o LeftOut) bool { return o.Name == l.Name && o.Figure == r.parts[0] })
	})
	if g.LeftOut = append(g.LeftOut, l); said {
		return
	}
	pm, most := apart(l.Figure, l.PM, l.Most)
	g.say("%s: %s ± %s is left out: its ± is more than %s, half the range of %s", l.Name, l.Figure, pm, most, g.ofWhom())
}

// ofWhom names the segment whose half-ranges are the measure.
func (g *gathering) ofWhom() string {
	if g.Like != nil {
		return g.Like.Name
	}
	return "a usual segment"
}

// numbers lists the values that count.
func (n Norm) numbers() (out []float64) {
	for _, v := range n.Values {
		if v.State == Read {
			out = append(out, v.Value)
		}
	}
	return out
}

func (n Norm) spread() spread { return spread{n.N, n.P10, n.Median, n.P90} }

// findBase finds the segment nearest to the medians where none is named.
func (g *gathering) findBase() error {
	if g.Base != nil {
		return nil
	}
	base, err := nearest(g.median())
	if err != nil {
		return err
	}
	g.Base = base
	g.say("no segment named: what was not read is as in %s, the nearest by the medians", base.Name)
	return nil
}

// median returns the medians as if they had been read of one vehicle, on the tyres of the reading whose front tyre is the median one.
func (g *gathering) median() Reading {
	r := Reading{Name: "norms", Source: readings(len(g.Readings))}
	for _, n := range g.Figures {
		r.Figures[n.Figure] = Value{Value: n.Median, PM: n.Range.HalfWidth(), State: Read}
	}
	shod := slices.DeleteFunc(slices.Clone(g.Readings), func(r Reading) bool { return r.Wheel.Diameter == 0 })
	if len(shod) > 0 {
		slices.SortStableFunc(shod, func(a, b Reading) int {
			return cmp.Or(cmp.Compare(a.Wheel.Diameter, b.Wheel.Diameter), cmp.Compare(a.RearWheel.Diameter, b.RearWheel.Diameter))
		})
		middle := shod[(len(shod)-1)/2]
		r.Wheel, r.RearWheel = middle.Wheel, cmp.Or(middle.RearWheel, middle.Wheel)
	}
	return r
}

func readings(n int) string {
	if n == 1 {
		return "1 reading"
	}
	return fmt.Sprintf("%d readings", n)
}

// ranges gives each figure its range.
func (g *gathering) ranges() {
	base := halfRanges(g.Base)
	for i, n := range g.Figures {
		s, segment := n.spread(), base[n.Figure]
		g.Figures[i].by = s.method(g.Like != nil, g.Plain)
		g.Figures[i].Range = s.around(n.Figure, g.Figures[i].by, segment)
	}
}

// halfRanges returns half the range of each declared and derived figure of a segment, 0 for others.
func halfRanges(p *segments.Profile) (out segments.Values) {
	for _, s := range layout.Typical(p).FigureStatuses() {
		if s.Range != nil {
			out[s.Figure] = s.Range.HalfWidth()
		}
	}
	return out
}

// usualHalfRanges returns the median of each figure's half-range over the segments of the catalogue that have it.
func usualHalfRanges() (out segments.Values) {
	var all [segments.FigureCount][]float64
	for _, p := range segments.All() {
		for f, half := range halfRanges(p) {
			if half > 0 {
				all[f] = append(all[f], half)
			}
		}
	}
	for f, halves := range all {
		if halves != nil {
			out[f] = spreadOf(halves).median
		}
	}
	return out
}

package reading

import (
	"fmt"
	"strings"

	"hubrule/segments"
)

// makeProfile makes the profile of the medians, with the norms' own ranges.
func (g *gathering) makeProfile() error {
	of := readings(len(g.Readings))
	d := draft{name: "norms", verb: "has the median"}
	d.profile = extend(g.Base, g.Name, "norms of "+of+", extending "+g.Base.Name)
	median := g.median()
	if median.Wheel.Diameter > 0 {
		d.profile.SetTyres(median.Wheel, median.RearWheel)
	} else {
		g.say("no tyre named: millimetres are those of %s on %s", g.Base.Name, g.Base.Wheel)
	}
	d.entries = map[segments.Figure]segments.Entry{}
	for _, n := range g.Figures {
		f := n.Figure
		if why := median.refusal(f, g.Base.Form); why != "" {
			d.note("%s", why)
			continue
		}
		if !g.standsAlone(n) {
			continue // it follows from the others' medians
		}
		d.read[f] = median.Figures[f]
		d.entries[f] = segments.Entry{
			Value: rounded(n.Median), Range: segments.Range{Lo: rounded(n.Range.Lo), Hi: rounded(n.Range.Hi)}, Basis: g.basis(n),
		}
	}
	d.basis = func(f segments.Figure, e estimate, from []segments.Figure) string {
		return fmt.Sprintf("M %s: from %s, ± %s", of, names(from), amount(f, e.pm()))
	}
	if err := d.finish(); err != nil {
		return err
	}
	g.Profile = d.profile
	g.Messages = append(g.Messages, d.notes...)
	return nil
}

// basis says how a figure's norm came about.
func (g *gathering) basis(n Norm) string {
	f := n.Figure
	text := fmt.Sprintf("M %s: %s / %s / %s", readings(n.N), amount(f, n.P10), amount(f, n.Median), amount(f, n.P90))
	switch n.by {
	case bySegment:
		text = fmt.Sprintf("M %s: %s, too few for a range; half the range of %s to either side", readings(n.N), amount(f, n.Median), g.Base.Name)
	case byLeaning:
		text += ", the range leaning on " + g.Base.Name
	case byWidening:
		text += fmt.Sprintf(", widened by %.2f", widened(n.N))
	}
	var apart []string
	for _, o := range g.Outliers {
		if o.Figure == f && len(apart) < namedAtMost {
			apart = append(apart, oneLine(o.Name, 40)+" "+amount(f, o.Value))
		}
	}
	if apart != nil {
		text += "; far out: " + strings.Join(apart, ", ")
	}
	if count := g.leftOut(f); count > 0 {
		text += fmt.Sprintf("; %d left out for a wide ±", count)
	}
	return text
}

func (g *gathering) leftOut(f segments.Figure) (count int) {
	for _, l := range g.LeftOut {
		if l.Figure == f {
			count++
		}
	}
	return count
}

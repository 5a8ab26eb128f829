package reading

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/slice"
	"hubrule/segments"
)

const (
	outlying    = 3.5 // deviations from the median: of measured bodies of one segment 7 to 9 in 100 lie farther in some figure
	judgedFrom  = 5   // readings: fewer say nothing of who lies apart
	namedAtMost = 3   // outliers in a figure's basis
)

// judge finds the outliers and orders them, the farthest first. A derived figure is judged where it stands alone.
func (g *gathering) judge() {
	for _, n := range g.Figures {
		if n.N < judgedFrom || g.halves[n.Figure] == 0 || !g.standsAlone(n) {
			continue
		}
		deviation := n.spread().deviation(n.Figure, n.numbers(), g.halves[n.Figure])
		for i, v := range n.Values {
			if v.State != Read {
				continue
			}
			by := (v.Value - n.Median) / deviation
			if math.Abs(by) > outlying {
				g.Outliers = append(g.Outliers, Outlier{g.Readings[i].Name, n.Figure, v.Value, by})
			}
		}
	}
	slices.SortStableFunc(g.Outliers, func(a, b Outlier) int { return cmp.Compare(math.Abs(b.By), math.Abs(a.By)) })
	for _, o := range g.Outliers {
		side, by := "above", o.By
		if by < 0 {
			side, by = "below", -by
		}
		g.say("%s: %s %s lies %.1f standard deviations %s the median %s; it counts: --without leaves it out", o.Name, o.Figure,
			amount(o.Figure, o.Value), by, side, amount(o.Figure, g.norm(o.Figure).Median))
	}
}

// norm returns the norm of a figure; the zero Norm where no reading has it.
func (g *gathering) norm(f segments.Figure) Norm {
	n, _ := slice.Find(g.Figures, func(n Norm) bool { return n.Figure == f })
	return n
}

// standsAlone reports whether twice as many readings have a figure as have all that it follows from.
func (g *gathering) standsAlone(n Norm) bool {
	if n.Figure.Info().Role != segments.Derived {
		return true
	}
	return slices.ContainsFunc(determined(n.Figure), func(f segments.Figure) bool { return 2*g.norm(f).N <= n.N })
}

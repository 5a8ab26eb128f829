package reading

import (
	"cmp"
	"math"
	"slices"

	"hubrule/segments"
)

const (
	outlying    = 3.5 // deviations from the median: of measured bodies of one segment 7 to 9 in 100 lie farther in some figure
	judgedFrom  = 5   // readings: fewer say nothing of who lies apart
	namedAtMost = 3   // outliers in a figure's basis
)

// judge finds the outliers and orders the readings by how odd they are. A derived figure is judged where it stands alone.
func (g *gathering) judge() {
	sums, counts := make([]float64, len(g.Readings)), make([]float64, len(g.Readings))
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
			sums[i], counts[i] = sums[i]+float64(by*by), counts[i]+1
			if math.Abs(by) > outlying {
				g.Outliers = append(g.Outliers, Outlier{g.Readings[i].Name, n.Figure, v.Value, by})
			}
		}
	}
	for i, r := range g.Readings {
		if counts[i] > 0 {
			g.Oddest = append(g.Oddest, Oddity{r.Name, math.Sqrt(sums[i] / counts[i])})
		}
	}
	slices.SortStableFunc(g.Oddest, func(a, b Oddity) int { return cmp.Compare(b.By, a.By) })
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
	i := slices.IndexFunc(g.Figures, func(n Norm) bool { return n.Figure == f })
	if i < 0 {
		return Norm{}
	}
	return g.Figures[i]
}

// standsAlone reports whether twice as many readings have a figure as have all that it follows from.
func (g *gathering) standsAlone(n Norm) bool {
	if n.Figure.Info().Role != segments.Derived {
		return true
	}
	return slices.ContainsFunc(determined(n.Figure), func(f segments.Figure) bool { return 2*g.norm(f).N <= n.N })
}

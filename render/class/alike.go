package class

import (
	"cmp"
	"context"
	"fmt"

	"hubrule/layout"
	"hubrule/segments"
)

// maxPairs is how many pairs of students who look alike are named.
const maxPairs = 5

// alike names the pairs of students whose vehicles differ by less than half the variation in every figure that shows, and how to draw one
// of them anew.
func (c Class) alike(ctx context.Context, v *variation) ([]Remark, error) {
	shown := shownFigures(v.base)
	all := make([]appearance, len(v.values))
	for i := range all {
		all[i] = appearanceOf(v.plan(i), shown)
	}
	wanted := c.Vary / 2
	type near struct {
		students []int // the first of them
		apart    []float32
		count    int
	}
	rows := make([]near, len(all))
	ended := c.spread(len(all), func(i int) {
		for k := range i {
			apart := all[i].difference(&all[k], float32(wanted))
			if ctx.Err() != nil || float64(apart) >= wanted {
				continue
			}
			if rows[i].count++; rows[i].count <= maxPairs {
				rows[i].students, rows[i].apart = append(rows[i].students, k), append(rows[i].apart, apart)
			}
		}
	})
	if err := cmp.Or(ended, ctx.Err()); err != nil {
		return nil, err
	}
	var out []Remark
	more := 0
	for i, row := range rows {
		for n, k := range row.students[:min(len(row.students), maxPairs-len(out))] {
			var set, cure string
			if err := c.spread(1, func(int) { set, cure = c.cure(v, i, all, shown) }); err != nil {
				return nil, err
			}
			out = append(out, Remark{Student: i + 1, Set: set, Text: fmt.Sprintf("%s: %s and %s look alike: no figure differs by more than "+
				"%.2f half-ranges (%g were wanted); %s", v.base.Profile.Name, c.NameOf(k), c.NameOf(i), row.apart[n], wanted, cure)})
			row.count--
		}
		more += row.count
	}
	if more > 0 {
		out = append(out, Remark{Text: fmt.Sprintf("%s: %d more pairs look alike", v.base.Profile.Name, more)})
	}
	return out, nil
}

// cure says how a student gets a vehicle that differs from all the others, and returns the set that does it, if there is one.
func (c Class) cure(v *variation, student int, all []appearance, shown []segments.Figure) (set, text string) {
	const tries = 20
	s := c.Students[student]
	if s.Name == "" {
		return "", "another seed: helps, or a list of names, where set: gives one student another draw"
	}
	for n := 1; n <= tries; n++ {
		s.Set = fmt.Sprint(n)
		l := appearanceOf(v.draw(s.person()), shown)
		if l.differsFromAll(all, student, c.Vary/2) {
			return s.Set, fmt.Sprintf("set: %d gives %s another draw", n, s.Name)
		}
	}
	return "", "set: gives one of them another draw, but the pins leave little to vary"
}

// appearance are the figures of a plan that show, in half-ranges.
type appearance [segments.FigureCount]float32

// shownFigures lists the figures by which vehicles like p can be told apart.
func shownFigures(p layout.Plan) []segments.Figure {
	var out []segments.Figure
	for f := range segments.FigureCount {
		if p.InSideView(f) {
			out = append(out, f)
		}
	}
	return out
}

func appearanceOf(p layout.Plan, shown []segments.Figure) appearance {
	var out appearance
	for i, f := range shown {
		out[i] = float32(p.Value(f) / p.Profile.Figures[f].Range.HalfWidth())
	}
	return out
}

// difference is the largest difference of one figure, in half-ranges, or some number of at least enough.
func (l *appearance) difference(other *appearance, enough float32) float32 {
	var most float32
	for i, x := range l {
		if most = max(most, x-other[i], other[i]-x); most >= enough {
			break
		}
	}
	return most
}

// differsFromAll reports whether l differs by at least enough from all but the one student.
func (l *appearance) differsFromAll(all []appearance, but int, enough float64) bool {
	for i := range all {
		if i != but && float64(l.difference(&all[i], float32(enough))) < enough {
			return false
		}
	}
	return true
}

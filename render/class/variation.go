package class

import (
	"context"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"

	"hubrule/layout"
	"hubrule/segments"
)

// variation is how one vehicle is varied over a class.
type variation struct {
	base   layout.Plan
	key    string // names the vehicle in the draws
	most   float64
	seed   uint64
	first  []int             // number of each student's first draw
	values []segments.Values // what each student has
}

// plan is the vehicle of one student, counted from 0.
func (v *variation) plan(student int) layout.Plan { return v.base.WithValues(v.values[student]) }

// draw is a student's first feasible draw, at a number or later, and its number. The same seed, vehicle, student and number give
// the same draw on every machine.
func (v *variation) draw(student, number int) (int, layout.Plan) {
	for ; ; number++ {
		h := fnv.New64a()
		h.Write([]byte(v.key))
		binary.Write(h, binary.LittleEndian, [2]uint64{uint64(student), uint64(number)})
		source := rand.NewPCG(v.seed, h.Sum64())
		// Where pins leave little to move, ever smaller moves are tried.
		most := v.most * math.Pow(.5, float64(number/50))
		var turns segments.Values
		for f := range turns {
			turns[f] = most * (float64(source.Uint64()>>11)/(1<<52) - 1) // 53 bits, −1 to 1
		}
		if p, ok := layout.Vary(v.base, turns, v.most); ok {
			return number, p
		}
	}
}

// maxDraws is how many draws a student has at most before the least alike of them is taken.
const maxDraws = 40

// drawAll draws a vehicle for every student until any two differ by half the variation in some figure that shows. Where the class is too
// large for that it names the two nearest.
func (c Class) drawAll(ctx context.Context, base layout.Plan, key string) (*variation, string, error) {
	v := &variation{base: base, key: key, most: c.Vary, seed: c.Seed,
		first: make([]int, len(c.Students)), values: make([]segments.Values, len(c.Students))}
	all := make([]appearance, len(c.Students))
	v.drawFirst(all)
	shown := shownFigures(base)
	wanted := c.Vary / 2
	nearest, pair := math.Inf(1), [2]int{}
	for i := range all {
		if err := ctx.Err(); err != nil {
			return nil, "", err
		}
		apart, other := all[i].nearest(all[:i], wanted)
		number := v.first[i]
		for n := 1; apart < wanted && n < maxDraws; n++ {
			var p layout.Plan
			number, p = v.draw(i, number+1)
			l := appearanceOf(p, shown)
			if a, o := l.nearest(all[:i], wanted); a > apart {
				apart, other, v.values[i], all[i] = a, o, p.Values(), l
			}
		}
		if apart < nearest {
			nearest, pair = apart, [2]int{other, i}
		}
	}
	if nearest >= wanted {
		return v, "", nil
	}
	return v, fmt.Sprintf("%s: the class is too large for vary: %g: students %d and %d differ by only %.3f half-ranges, %g were wanted",
		base.Profile.Name, c.Vary, pair[0]+1, pair[1]+1, nearest, wanted), nil
}

// drawFirst draws the first feasible vehicle for every student, on all processors.
func (v *variation) drawFirst(all []appearance) {
	shown := shownFigures(v.base)
	var group sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		group.Go(func() {
			for i := w; i < len(all); i += workers {
				var p layout.Plan
				v.first[i], p = v.draw(i, 0)
				v.values[i], all[i] = p.Values(), appearanceOf(p, shown)
			}
		})
	}
	group.Wait()
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

// nearest returns which of others l differs least from, and by how much; where it differs from all by at least enough, that is enough.
func (l *appearance) nearest(others []appearance, enough float64) (apart float64, which int) {
	apart = enough
	for i := range others {
		if a := l.difference(&others[i], float32(apart)); float64(a) < apart {
			apart, which = float64(a), i
		}
	}
	return apart, which
}

// difference is the largest difference of one figure, or some number of at least enough.
func (l *appearance) difference(other *appearance, enough float32) float32 {
	var most float32
	for i, x := range l {
		if most = max(most, x-other[i], other[i]-x); most >= enough {
			break
		}
	}
	return most
}

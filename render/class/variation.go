package class

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"

	"hubrule/layout"
	"hubrule/segments"
)

// variation is how one vehicle is varied over a class.
type variation struct {
	base layout.Plan
	key  string // names the vehicle in the draws
	most float64
	seed uint64

	students []Student
	values   []segments.Values // what each student has; nil: it is drawn when somebody asks
}

// plan is the vehicle of one student, counted from 0.
func (v *variation) plan(student int) layout.Plan {
	if v.values == nil {
		return v.draw(v.students[student].person())
	}
	return v.base.WithValues(v.values[student])
}

// draw is a person's first feasible draw. The same seed, vehicle and person give the same draw on every machine, whoever else is in the
// class.
func (v *variation) draw(person string) layout.Plan {
	for number := 0; ; number++ {
		h := sha256.New()
		for _, text := range []string{v.key, person} {
			fmt.Fprintf(h, "%d %s\n", len(text), text)
		}
		fmt.Fprintf(h, "%d %d\n", v.seed, number)
		sum := h.Sum(nil)
		source := rand.NewPCG(binary.LittleEndian.Uint64(sum), binary.LittleEndian.Uint64(sum[8:]))
		// Where pins leave little to move, ever smaller moves are tried.
		most := v.most * math.Pow(.5, float64(number/50))
		var turns segments.Values
		for f := range turns {
			turns[f] = most * (float64(source.Uint64()>>11)/(1<<52) - 1) // 53 bits, −1 to 1
		}
		if p, ok := layout.Vary(v.base, turns, v.most); ok {
			return p
		}
	}
}

// drawAll draws a vehicle for every student.
func (c Class) drawAll(v *variation) error {
	values := make([]segments.Values, len(c.Students))
	err := c.spread(len(values), func(i int) { values[i] = v.draw(c.Students[i].person()).Values() })
	v.values = values
	return err
}

// PlanOf returns the vehicle of a page as a student has it.
func (c Class) PlanOf(s Student, page int) layout.Plan {
	base := c.Pages[page].Request.Plans[0]
	if c.Vary == 0 {
		return base
	}
	v := &variation{base: base, key: vehicleKey(base), most: c.Vary, seed: c.Seed}
	return v.draw(s.person())
}

// samples are plans that stand for those of every student there may be, whoever is in the class: the longest and the tallest vehicles
// within the variation, and some draws.
func (v *variation) samples() []layout.Plan {
	const draws = 24
	var out []layout.Plan
	for _, end := range []struct{ length, height float64 }{{1, 0}, {0, 1}, {1, 1}, {-1, 1}, {-1, -1}} {
		turns := segments.Values{
			segments.WheelsBetween: end.length, segments.FrontOverhang: end.length, segments.RearOverhang: end.length,
			segments.Height: end.height,
		}
		for f := range turns {
			turns[f] *= v.most
		}
		if p, ok := layout.Vary(v.base, turns, v.most); ok {
			out = append(out, p)
		}
	}
	for n := range draws {
		out = append(out, v.draw(fmt.Sprintf("sample %d", n)))
	}
	return out
}

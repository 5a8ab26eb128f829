package reading

import (
	"math"

	"hubrule/segments"
)

// estimate is a value with what makes it uncertain: shares[f] is by how much it errs where figure f errs by its ±, so that errors
// that two estimates have in common add up or cancel.
type estimate struct {
	value  float64
	shares [segments.FigureCount]float64
	known  bool
}

// estimates holds one for each figure.
type estimates [segments.FigureCount]estimate

// measured returns the estimate of a figure that was read itself.
func measured(f segments.Figure, value, pm float64) estimate {
	e := estimate{value: value, known: true}
	e.shares[f] = pm
	return e
}

// estimates returns what was read; tyres are no estimates.
func (r *Reading) estimates() (e estimates) {
	for f, v := range r.Figures {
		if f := segments.Figure(f); v.State == Read && f.Info().Unit != segments.InMM && f.Info().Unit != segments.AsWord {
			e[f] = measured(f, v.Value, max(v.PM, leastPM(f)))
		}
	}
	return e
}

// pm returns e's 95 % half-width.
func (e estimate) pm() float64 {
	var sum float64
	for _, s := range e.shares {
		sum += float64(s * s)
	}
	return math.Sqrt(sum)
}

// from lists the figures whose errors e has.
func (e estimate) from() (out []segments.Figure) {
	for f, s := range e.shares {
		if s != 0 {
			out = append(out, segments.Figure(f))
		}
	}
	return out
}

// plus returns e + by·o.
func (e estimate) plus(by float64, o estimate) estimate {
	e.value += float64(by * o.value)
	for f, s := range o.shares {
		e.shares[f] += float64(by * s)
	}
	return e
}

// times returns e·o, to first order of the errors.
func (e estimate) times(o estimate) estimate {
	out := estimate{value: float64(e.value * o.value), known: true}
	return out.errors(o.value, e).errors(e.value, o)
}

// over returns e/o, to first order of the errors.
func (e estimate) over(o estimate) estimate {
	out := estimate{value: e.value / o.value, known: true}
	return out.errors(1/o.value, e).errors(-out.value/o.value, o)
}

// errors adds by·o to e's errors alone.
func (e estimate) errors(by float64, o estimate) estimate {
	value := e.value
	e = e.plus(by, o)
	e.value = value
	return e
}

// relation says that a figure is the sum of others, and of a number of wheels: plus + perRatio × rear ÷ front tyre.
type relation struct {
	whole          segments.Figure
	parts          []segments.Figure
	plus, perRatio float64
}

// relations lists those of docs/figures.md that are sums; greenhouse = greenhouse-to-body × body-side is the one that is not.
var relations = []relation{
	{segments.Wheelbase, []segments.Figure{segments.WheelsBetween}, .5, .5},
	{segments.FrontOverhangAxle, []segments.Figure{segments.FrontOverhang}, .5, 0},
	{segments.RearOverhangAxle, []segments.Figure{segments.RearOverhang}, 0, .5},
	{segments.Length, []segments.Figure{segments.FrontOverhangAxle, segments.Wheelbase, segments.RearOverhangAxle}, 0, 0},
	{segments.Belt, []segments.Figure{segments.Sill, segments.BodySide}, 0, 0},
	{segments.Height, []segments.Figure{segments.Belt, segments.Greenhouse}, 0, 0},
	{segments.FrontLamp, []segments.Figure{segments.ArchGap, segments.LampOffset}, 1, 0},
	{segments.RearLamp, []segments.Figure{segments.FrontLamp, segments.LampDepth}, 0, 0},
}

// complete fills in what follows from what is known; q is rear ÷ front tyre. A number that no vehicle has is not filled in.
func (e *estimates) complete(q float64) {
	for more := true; more; {
		more = e.ratio()
		for _, r := range relations {
			more = e.sum(r, q) || more
		}
	}
}

// sum fills in the one figure of a relation that is not known, and reports whether it did.
func (e *estimates) sum(r relation, q float64) bool {
	missing, count := r.whole, 0
	for _, f := range append([]segments.Figure{r.whole}, r.parts...) {
		if !e[f].known {
			missing, count = f, count+1
		}
	}
	if count != 1 {
		return false
	}
	out, sign := estimate{value: r.plus + float64(r.perRatio*q)}, 1.
	if missing != r.whole {
		out, sign = e[r.whole].plus(-1, out), -1
	}
	for _, f := range r.parts {
		if f != missing {
			out = out.plus(sign, e[f])
		}
	}
	return e.fill(missing, out)
}

// ratio fills in the one of greenhouse, body side and their ratio that is not known, and reports whether it did.
func (e *estimates) ratio() bool {
	glass, side, ratio := e[segments.Greenhouse], e[segments.BodySide], e[segments.GreenhouseToBody]
	switch {
	case !ratio.known && glass.known && side.known:
		return e.fill(segments.GreenhouseToBody, glass.over(side))
	case !glass.known && ratio.known && side.known:
		return e.fill(segments.Greenhouse, ratio.times(side))
	case !side.known && ratio.known && glass.known:
		return e.fill(segments.BodySide, glass.over(ratio))
	}
	return e.split()
}

// split fills in body side and greenhouse of which only the sum, from sill to roof, and the ratio are known.
func (e *estimates) split() bool {
	height, sill, ratio := e[segments.Height], e[segments.Sill], e[segments.GreenhouseToBody]
	if e[segments.BodySide].known || !height.known || !sill.known || !ratio.known {
		return false
	}
	one := estimate{value: 1, known: true}
	return e.fill(segments.BodySide, height.plus(-1, sill).over(one.plus(1, ratio)))
}

// fill sets figure f, and reports whether it did.
func (e *estimates) fill(f segments.Figure, to estimate) bool {
	if info := f.Info(); !(to.value >= info.Lo && to.value <= info.Hi) {
		return false
	}
	to.known = true
	e[f] = to
	return true
}

package layout

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Likeness is how well pinned figures fit a segment.
type Likeness struct {
	Segment  *segments.Profile
	Wheel    geom.MM    // outside diameter of the front tyre: pinned, or the segment's
	Distance float64    // root mean square of the deviations, in standard deviations, less for segments whose bodies vary less
	Share    float64    // of the likelihoods of all segments, 0 to 1
	Figures  []Standing // of the pinned figures that the segment has, in the figures' order

	// Measured bodies of the segment, and the percentages of such bodies that wheelbase, length, height and width place in it first, or
	// in the first two. Of a segment without bodies all are 0.
	Bodies          int
	First, FirstTwo float64
}

// Standing is where a figure lies in a segment.
type Standing struct {
	Figure segments.Figure
	Value  float64 // in the figure's own unit, with the segment's tyre where none is pinned
	Range  segments.Range
	Beyond float64 // half-ranges outside, 0 inside
}

// Rank compares pinned figures with every segment, the likeliest first. Nothing else is known of the vehicle, so nothing else counts:
// typical values never stand in. Lengths that data sheets give are compared with the measured bodies of each segment, together, as they
// vary together there; other figures with the middle of the segment's range. The wheels say only how long a wheel is. It panics where no
// other figure is pinned.
func Rank(pins []segments.Pin, among []*segments.Profile) []Likeness {
	count := 0
	for _, pin := range pins {
		if pin.Figure.Info().Role != segments.Given {
			count++
		}
	}
	if count == 0 {
		panic("layout: nothing to rank by")
	}
	var out []Likeness
	least, all := math.Inf(1), 0.
	yardstick := map[segments.Figure]float64{}
	for _, p := range among {
		l, spread := likeness(pins, p, func(f segments.Figure) float64 {
			if _, measured := yardstick[f]; !measured {
				yardstick[f] = meanHalfRange(f, among)
			}
			return yardstick[f]
		})
		out, least = append(out, l), min(least, spread)
	}
	slices.SortStableFunc(out, func(a, b Likeness) int { return cmp.Compare(a.Distance, b.Distance) })
	first := out[0].Distance
	for i := range out {
		out[i].Share = math.Exp((first - out[i].Distance) / 2)
		all += out[i].Share
		out[i].Distance = math.Sqrt(max(0, out[i].Distance-least) / float64(count))
	}
	for i := range out {
		out[i].Share /= all
	}
	return out
}

// likeness compares pins with one segment. Its distance is −2 × the logarithm of their likelihood but for a constant, of which spread is
// the part that does not depend on the pins' values. Yardstick is the mean half-range of a figure over all segments.
func likeness(pins []segments.Pin, p *segments.Profile, yardstick func(segments.Figure) float64) (l Likeness, spread float64) {
	known := knownFigures(pins, p)
	seen, covered := observations(known)
	m := modelOf(p)
	l = Likeness{Segment: p, Wheel: geom.MM(known[segments.Wheel]), Distance: m.distance(seen), Bodies: m.Bodies, First: m.First,
		FirstTwo: m.FirstTwo}
	for i := range seen {
		seen[i].value = m.expected(seen[i])
	}
	spread = m.distance(seen)
	for f, v := range known {
		f := segments.Figure(f)
		if f.Info().Role == segments.Given || math.IsNaN(v) {
			continue
		}
		if !p.Form.Has(f) {
			const lacks = 3 // standard deviations: judged by eye; a segment without a deck is no likelier for it
			l.Distance += lacks * lacks
			continue
		}
		r := rangeOf(p, f)
		l.Figures = append(l.Figures, Standing{f, v, r, beyond(v, r)})
		if !covered[f] {
			const deciles = 1.28 // standard deviations: ranges reach from one tenth to nine of a segment
			by := (v - (r.Lo+r.Hi)/2) / yardstick(f) * deciles
			l.Distance += float64(by * by)
		}
	}
	return l, spread
}

// knownFigures returns the pinned figures in their own units, NaN for others. The tyres are the segment's where none is pinned.
func knownFigures(pins []segments.Pin, p *segments.Profile) (known segments.Values) {
	for f := range known {
		known[f] = math.NaN()
	}
	wheel, rear := p.Wheel.Diameter, p.RearWheel.Diameter
	if i := slices.IndexFunc(pins, func(pin segments.Pin) bool { return pin.Figure == segments.Wheel }); i >= 0 {
		rear *= geom.MM(pins[i].Value(0)) / wheel
		wheel = geom.MM(pins[i].Value(0))
	}
	known[segments.Wheel], known[segments.RearWheel] = float64(wheel), float64(rear)
	for _, pin := range pins {
		known[pin.Figure] = pin.Value(wheel)
	}
	return known
}

// observations returns what known figures say about body lengths, and which figures that covers. Of figures that follow from each other
// it leaves out those that add nothing.
func observations(known segments.Values) (seen []observation, covered [segments.FigureCount]bool) {
	knows := func(all ...segments.Figure) bool {
		return !slices.ContainsFunc(all, func(f segments.Figure) bool { return math.IsNaN(known[f]) })
	}
	// A height above another is a greenhouse or a body side, unless that is known too, or the heights contradict each other.
	if v := known[segments.Height] - known[segments.Belt]; v > 0 && !knows(segments.Greenhouse) {
		known[segments.Greenhouse], covered[segments.Belt] = v, true
		if v := known[segments.Belt] - known[segments.Sill]; v > 0 && !knows(segments.BodySide) {
			known[segments.BodySide], covered[segments.Sill] = v, true
		}
	}
	wheel, q := known[segments.Wheel], known[segments.RearWheel]/known[segments.Wheel]
	front := knows(segments.FrontOverhang) || knows(segments.FrontOverhangAxle)
	rear := knows(segments.RearOverhang) || knows(segments.RearOverhangAxle)
	for _, l := range []struct {
		figure  segments.Figure
		plus    float64 // wheels that body lengths have more
		index   int
		divisor int // index of the length that the figure is divided by; 0: none
		idle    bool
	}{
		{segments.Wheelbase, 0, 0, 0, false},
		{segments.WheelsBetween, (1 + q) / 2, 0, 0, knows(segments.Wheelbase)},
		{segments.Length, 0, 1, 0, front && rear && (knows(segments.Wheelbase) || knows(segments.WheelsBetween))},
		{segments.Height, 0, 2, 0, false},
		{segments.Width, 0, 3, 0, false},
		{segments.FrontOverhang, .5, 4, 0, false},
		{segments.RearOverhang, q / 2, 5, 0, false},
		{segments.FrontOverhangAxle, 0, 4, 0, knows(segments.FrontOverhang)},
		{segments.RearOverhangAxle, 0, 5, 0, knows(segments.RearOverhang)},
		{segments.Greenhouse, 0, 6, 0, false},
		{segments.BodySide, 0, 7, 0, false},
		{segments.GreenhouseToBody, 0, 6, 7, knows(segments.Greenhouse, segments.BodySide)},
	} {
		v := known[l.figure] + l.plus
		if covered[l.figure] = v > 0; l.idle || !covered[l.figure] {
			continue
		}
		var o observation
		o.weights[l.index] = 1
		if l.divisor > 0 {
			o.weights[l.divisor] = -1
			o.value = math.Log(v)
		} else {
			o.value = math.Log(v * wheel)
		}
		seen = append(seen, o)
	}
	return seen, covered
}

// rangeOf returns the range of a declared or derived figure in a segment.
func rangeOf(p *segments.Profile, f segments.Figure) segments.Range {
	if f.Info().Role == segments.Derived {
		return derivedRange(p, f)
	}
	return p.Figures[f].Range
}

// meanHalfRange is the mean half-range of a figure over the segments that have it: one yardstick for all, since a segment with a wide
// range would otherwise claim its neighbours.
func meanHalfRange(f segments.Figure, among []*segments.Profile) float64 {
	sum, n := 0., 0.
	for _, p := range among {
		if p.Form.Has(f) {
			sum += rangeOf(p, f).HalfWidth()
			n++
		}
	}
	return sum / n
}

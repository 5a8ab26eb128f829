package reading

import (
	"math"
	"slices"

	"hubrule/segments"
)

// quantile returns the share p of sorted numbers, interpolated between the nearest two: type 7 of R. J. Hyndman and Y. Fan, Sample
// Quantiles in Statistical Packages, 1996 (MEM).
func quantile(sorted []float64, p float64) float64 {
	at := float64(p * float64(len(sorted)-1))
	i := int(at)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + float64((at-float64(i))*(sorted[i+1]-sorted[i]))
}

// spread is how the readings of one figure lie.
type spread struct {
	n                int
	p10, median, p90 float64
}

// spreadOf returns the spread of at least one number, in any order.
func spreadOf(values []float64) spread {
	sorted := slices.Sorted(slices.Values(values))
	return spread{len(sorted), quantile(sorted, .1), quantile(sorted, .5), quantile(sorted, .9)}
}

// fewest is the number of readings from which a range is taken from them at all.
const fewest = 3

// widened returns by how much half the span from p10 to p90 of n readings is widened to hold four fifths of the other vehicles of its kind,
// as the span of many readings does. Fitted to measured bodies of 13 segments (Transport Canada, Canadian Vehicle Specifications,
// 2011-2023; CALC; TestRangesHoldFourFifths).
func widened(n int) float64 { return 1 + 3.4/float64(n-1) }

// leaning returns the half-range of few readings that leans on a segment's half-range, fitted likewise.
func (s spread) leaning(segment float64) float64 {
	n := float64(s.n)
	own := (s.p90 - s.p10) / 2 * (1 + 1.87/(n-1))
	return shrunk(own, segment, n) * 1.1 * math.Sqrt(1+1/n)
}

// method is how a figure's range comes from its readings.
type method uint8

const (
	bySegment method = iota // too few: the segment's half-range
	byLeaning               // few: leaning on the segment that was named
	byWidening
	byPercentiles // p10 to p90 as they are
)

// method chooses one; named: a segment was named to lean on.
func (s spread) method(named, plain bool) method {
	switch {
	case s.n < fewest:
		return bySegment
	case plain:
		return byPercentiles
	case named && s.n < 5:
		return byLeaning
	}
	return byWidening
}

// around returns the range of figure f by a method; segment is the half-range of the segment. A widened range always holds p10 to p90: from
// five readings on each is moved away from the median by the factor, below that half the span is, whose factor is more than 2.
func (s spread) around(f segments.Figure, by method, segment float64) segments.Range {
	symmetric := func(half float64) segments.Range { return segments.Range{Lo: s.median - half, Hi: s.median + half} }
	r := segments.Range{Lo: s.p10, Hi: s.p90}
	switch k := widened(s.n); {
	case by == bySegment:
		r = symmetric(segment)
	case by == byLeaning:
		r = symmetric(s.leaning(segment))
	case by == byWidening && k < 2: // symmetric, it might lose p10 or p90 of a skewed sample
		r = segments.Range{Lo: s.median - float64(k*(s.median-s.p10)), Hi: s.median + float64(k*(s.p90-s.median))}
	case by == byWidening:
		r = symmetric((s.p90 - s.p10) / 2 * k)
	}
	least, info := leastPM(f), f.Info()
	r.Lo, r.Hi = min(r.Lo, s.median-least), max(r.Hi, s.median+least)
	return segments.Range{Lo: max(r.Lo, info.Lo), Hi: min(r.Hi, info.Hi)}
}

// deviation returns the standard deviation by which outliers are judged: the readings' own, from the median of their distances, leaning on
// that of a segment, so that few readings that lie close by chance make nobody an outlier.
func (s spread) deviation(f segments.Figure, values []float64, segment float64) float64 {
	const (
		ofNormal = .6745  // median distance of a normal distribution, in standard deviations
		decile   = 1.2816 // its 90th percentile
	)
	distances := make([]float64, len(values))
	for i, v := range values {
		distances[i] = math.Abs(v - s.median)
	}
	n := float64(s.n)
	own := spreadOf(distances).median / ofNormal * (1 + .8/n)
	return max(shrunk(own, segment/decile, n), 10*leastPM(f))
}

// shrunk returns the spread own of n readings, shrunk towards that of a segment, which counts as 8 degrees of freedom (fitted as widened is).
func shrunk(own, segment, n float64) float64 {
	return math.Sqrt((float64(8*segment*segment) + float64((n-1)*own*own)) / (n + 7))
}

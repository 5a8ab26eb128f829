package reading

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"hubrule/internal/outside"
	"hubrule/segments"
)

// The quantiles of type 7 as Hyndman and Fan define them, of numbers whose quantiles are known by hand.
func TestQuantile(t *testing.T) {
	for _, tt := range []struct {
		sorted  []float64
		p, want float64
	}{
		{[]float64{7}, .9, 7}, {[]float64{1, 2}, .5, 1.5}, {[]float64{1, 2, 3, 4, 5}, .5, 3}, {[]float64{1, 2, 3, 4, 5}, .1, 1.4},
		{[]float64{1, 2, 3, 4, 5}, .9, 4.6}, {[]float64{10, 20, 30, 40}, .1, 13}, {[]float64{10, 20, 30, 40}, 1, 40},
	} {
		if got := quantile(tt.sorted, tt.p); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%v at %v: %v, want %v", tt.sorted, tt.p, got, tt.want)
		}
	}
}

// bodyFigures are those that the measured bodies have, in wheels.
var bodyFigures = []segments.Figure{
	segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Height, segments.Width,
}

// manyBodies returns the measured bodies of every segment with 30 or more, on the segment's tyre.
func manyBodies(t testing.TB) map[string][]Reading {
	t.Helper()
	rows := outside.Rows(t, outside.Data(t, "measured-bodies.csv"))
	out := map[string][]Reading{}
	for _, name := range measuredSegments(rows) {
		readings, err := parseDataSheet("bodies.csv", []byte(measuredSheet(t, rows, name, segment(t, catalogueName(name)).Wheel.String())))
		if err != nil {
			t.Fatal(err)
		}
		if len(readings) >= 30 {
			out[name] = readings
		}
	}
	if len(out) != 13 {
		t.Fatalf("%d segments with 30 bodies, want 13", len(out))
	}
	return out
}

// A widened range holds p10 to p90 of however skewed a sample, and is as wide as the rule has it.
func TestRangesHoldPercentiles(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 6))
	for range 2000 {
		values := make([]float64, 3+r.IntN(28))
		for i := range values {
			values[i] = 2 + .05*math.Exp(r.NormFloat64())
		}
		s := spreadOf(values)
		got := s.around(segments.Height, byWidening, 0)
		if got.Lo > s.p10 || got.Hi < s.p90 || math.Abs(got.Hi-got.Lo-(s.p90-s.p10)*widened(s.n)) > 1e-9 {
			t.Fatalf("%d readings: %.3f to %.3f; p10 %.3f, p90 %.3f", s.n, got.Lo, got.Hi, s.p10, s.p90)
		}
	}
}

// figuresOfBodies returns each figure of these bodies.
func figuresOfBodies(t testing.TB) map[string]map[segments.Figure][]float64 {
	t.Helper()
	out := map[string]map[segments.Figure][]float64{}
	for name, readings := range manyBodies(t) {
		g := gathering{Norms: &Norms{Readings: readings}}
		g.collect()
		out[name] = map[segments.Figure][]float64{}
		for _, f := range bodyFigures {
			out[name][f] = g.norm(f).numbers()
		}
	}
	return out
}

// othersHalf is the median half of p10 to p90 over all segments but one.
func othersHalf(bodies map[string]map[segments.Figure][]float64, but string, f segments.Figure) float64 {
	var halves []float64
	for name, figures := range bodies {
		if name != but {
			s := spreadOf(figures[f])
			halves = append(halves, (s.p90-s.p10)/2)
		}
	}
	return spreadOf(halves).median
}

// content is the mean share of the bodies that were not drawn that lie in the range of n that were.
func content(r *rand.Rand, bodies map[string]map[segments.Figure][]float64, n, draws int, named, plain bool) float64 {
	sum, count := 0., 0.
	for _, name := range slices.Sorted(maps.Keys(bodies)) {
		for _, f := range bodyFigures {
			all := slices.Clone(bodies[name][f])
			half := othersHalf(bodies, name, f)
			for range draws {
				r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
				s := spreadOf(all[:n])
				span := s.around(f, s.method(named, plain), half)
				inside := 0.
				for _, v := range all[n:] {
					if v >= span.Lo && v <= span.Hi {
						inside++
					}
				}
				sum, count = sum+inside/float64(len(all)-n), count+1
			}
		}
	}
	return sum / count
}

// Ranges of few readings hold four fifths of the other bodies of the segment; plain percentiles hold far fewer. Fitted and tested to the
// same numbers on these bodies by another program (CALC).
func TestRangesHoldFourFifths(t *testing.T) {
	bodies := figuresOfBodies(t)
	r := rand.New(rand.NewPCG(14, 3))
	draws := min(trials(t, 25), 2000)
	for _, tt := range []struct {
		n                      int
		plain, widened, leaned float64 // 0: not known
	}{
		{3, .42, .78, .81}, {4, .51, .80, .82}, {5, .57, .80, 0}, {7, .64, .81, 0}, {9, .68, .80, 0}, {12, 0, .80, 0}, {15, .73, .80, 0},
		{20, .77, .80, 0}, {25, 0, .80, 0},
	} {
		for _, c := range []struct {
			how          string
			want         float64
			named, plain bool
		}{{"plain", tt.plain, false, true}, {"widened", tt.widened, false, false}, {"leaning", tt.leaned, true, false}} {
			if c.want == 0 {
				continue
			}
			got := content(r, bodies, tt.n, draws, c.named, c.plain)
			t.Logf("%2d readings, %s: %.3f of the others", tt.n, c.how, got)
			if math.Abs(got-c.want) > .02 {
				t.Errorf("%d readings, %s: ranges hold %.3f of the others, want %.2f", tt.n, c.how, got, c.want)
			}
		}
	}
}

// farOut lists the readings that are named in one of the figures of bodies.
func farOut(readings []Reading, halves segments.Values) (names []string) {
	g := gathering{Norms: &Norms{Readings: readings}, halves: halves}
	g.collect()
	g.judge()
	for _, o := range g.Outliers {
		if slices.Contains(bodyFigures, o.Figure) && !slices.Contains(names, o.Name) {
			names = append(names, o.Name)
		}
	}
	return names
}

// hasAll reports whether a body has all five figures.
func hasAll(r Reading) bool {
	e := r.estimates()
	e.complete(r.tyreRatio())
	return !slices.ContainsFunc(bodyFigures, func(f segments.Figure) bool { return !e[f].known })
}

// How often a body is called far out among n bodies of its own segment, and among n − 1 of another: both often enough that outliers are
// named and never dropped. The rates were found on these bodies by another program (CALC), with the half-ranges of the other segments.
func TestOutlierRates(t *testing.T) {
	bodies, figures := manyBodies(t), figuresOfBodies(t)
	names := slices.Sorted(maps.Keys(bodies))
	for name, all := range bodies {
		bodies[name] = slices.DeleteFunc(all, func(r Reading) bool { return !hasAll(r) })
	}
	r := rand.New(rand.NewPCG(14, 4))
	draws := min(trials(t, 15), 1000)
	for _, tt := range []struct {
		n            int
		false, found float64
	}{{5, .07, .58}, {9, .08, .66}, {15, .08, .67}, {25, .09, .69}} {
		falsely, found := 0, 0
		for _, name := range names {
			all, halves := slices.Clone(bodies[name]), segments.Values{}
			for _, f := range bodyFigures {
				halves[f] = othersHalf(figures, name, f)
			}
			for range draws {
				r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
				falsely += len(farOut(all[:tt.n], halves))
				other := name
				for other == name {
					other = names[r.IntN(len(names))]
				}
				stranger := bodies[other][r.IntN(len(bodies[other]))]
				stranger.Name = "stranger"
				if slices.Contains(farOut(append(slices.Clone(all[:tt.n-1]), stranger), halves), "stranger") {
					found++
				}
			}
		}
		sets := float64(draws * len(names))
		rate, share := float64(falsely)/sets/float64(tt.n), float64(found)/sets
		t.Logf("%2d readings: %.3f of the bodies named falsely, %.3f of those of another segment found", tt.n, rate, share)
		if math.Abs(rate-tt.false) > .02 || math.Abs(share-tt.found) > .08 {
			t.Errorf("%d readings: %.3f named falsely and %.3f found, want %.2f and %.2f", tt.n, rate, share, tt.false, tt.found)
		}
	}
}

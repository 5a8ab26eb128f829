package reading

import (
	"fmt"
	"math"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// sheetOf reads rows of name, height and sill in wheels.
func sheetOf(t testing.TB, rows string) []Reading {
	t.Helper()
	readings, err := parseDataSheet("s.csv", []byte("name,tyre,height w,sill w,pm mm\n"+rows))
	if err != nil {
		t.Fatal(err)
	}
	return readings
}

func gathered(t testing.TB, readings []Reading, o NormOptions) *Norms {
	t.Helper()
	norms, err := Gather(readings, o)
	if err != nil {
		t.Fatal(err)
	}
	planOf(t, norms.Profile)
	return norms
}

// nine suvs whose heights have the percentiles 2.208, 2.24 and 2.272 by hand: p10 lies .8 of the way from the lowest to the next.
const nine = "a,710mm,2.20,.40,\nb,710mm,2.21,.40,\nc,710mm,2.22,.40,\nd,710mm,2.23,.40,\ne,720mm,2.24,.40,\nf,730mm,2.25,.40,\n" +
	"g,730mm,2.26,.40,\nh,730mm,2.27,.40,\ni,730mm,2.28,.40,\n"

// Every way to a range, by hand: the published rule on numbers that can be followed.
func TestNormRanges(t *testing.T) {
	suv := segment(t, "suv")
	half := suv.Figures[segments.Height].Range.HalfWidth()
	lean := func(n, h float64) float64 {
		own := h * (1 + 1.87/(n-1))
		return math.Sqrt((8*half*half+(n-1)*own*own)/(n+7)) * 1.1 * math.Sqrt(1+1/n)
	}
	first := func(n int) string { return strings.Join(strings.SplitAfter(nine, "\n")[:n], "") }
	for _, tt := range []struct {
		rows       string
		o          NormOptions
		value, low float64
		basis      string
	}{
		{nine, NormOptions{Like: suv}, 2.24, 2.24 - .032*1.425, "M 9 readings: 2.208w / 2.24w / 2.272w, widened by 1.43"},
		{nine, NormOptions{}, 2.24, 2.24 - .032*1.425, "M 9 readings: 2.208w / 2.24w / 2.272w, widened by 1.43"},
		{nine, NormOptions{Like: suv, Plain: true}, 2.24, 2.208, "M 9 readings: 2.208w / 2.24w / 2.272w"},
		{strings.Replace(nine, "2.28", "2.98", 1), NormOptions{Like: suv}, 2.24, 2.24 - .032*1.425,
			"M 9 readings: 2.208w / 2.24w / 2.412w, widened by 1.43; far out: i 2.98w"},
		{first(4), NormOptions{Like: suv}, 2.215, 2.215 - lean(4, .012), "M 4 readings: 2.203w / 2.215w / 2.227w, the range leaning on suv"},
		{first(3), NormOptions{}, 2.21, 2.21 - .008*2.7, "M 3 readings: 2.202w / 2.21w / 2.218w, widened by 2.70"},
		{first(2), NormOptions{Like: suv}, 2.205, 2.205 - half,
			"M 2 readings: 2.205w, too few for a range; half the range of suv to either side"},
		{first(1), NormOptions{Like: suv, Plain: true}, 2.2, 2.2 - half,
			"M 1 reading: 2.2w, too few for a range; half the range of suv to either side"},
	} {
		norms := gathered(t, sheetOf(t, tt.rows), tt.o)
		got := norms.Profile.Figures[segments.Height]
		if math.Abs(got.Value-tt.value) > 1e-4 || math.Abs(got.Range.Lo-tt.low) > 1e-4 || got.Basis != tt.basis {
			t.Errorf("%.40q: %.4f from %.4f, %q; want %.4f from %.4f, %q",
				tt.rows, got.Value, got.Range.Lo, got.Basis, tt.value, tt.low, tt.basis)
		}
	}
}

// What is said of norms: the base, outliers, readings left out, in whole sentences; and what the profile holds of it.
func TestNormMessages(t *testing.T) {
	suv := segment(t, "suv")
	odd := nine + "van,740mm,2.90,.40,\nblur,740mm,2.24,.40,200\n"
	norms := gathered(t, sheetOf(t, odd), NormOptions{Name: "mine", Like: suv})
	want := []string{
		"blur: sill ± 0.27w is left out: its ± is more than 0.1w, half the range of suv",
		"blur: height ± 0.27w is left out: its ± is more than 0.13w, half the range of suv",
		"van: height 2.9w lies 8.7 standard deviations above the median 2.245w; it counts: --without leaves it out",
	}
	if !slices.Equal(norms.Messages, want) {
		t.Errorf("messages\n%s\nwant\n%s", strings.Join(norms.Messages, "\n"), strings.Join(want, "\n"))
	}
	if norms.Outliers[0].Name != "van" ||
		norms.LeftOut[1].Figure != segments.Height {
		t.Errorf("%+v, %+v", norms.Outliers, norms.LeftOut)
	}
	const basis = "M 10 readings: 2.209w / 2.245w / 2.342w, widened by 1.38; far out: van 2.9w; 1 left out for a wide ±"
	if got := norms.Profile.Figures[segments.Height].Basis; got != basis {
		t.Errorf("basis %q, want %q", got, basis)
	}
	p := norms.Profile
	if p.Wheel.Diameter != 730 || p.Name != "mine" || p.Extends != "suv" || p.Summary != "norms of 11 readings, extending suv" {
		t.Errorf("%s %s %s %q", p.Name, p.Wheel, p.Extends, p.Summary)
	}
	sameFromFile(t, norms.Profile, filepath.Join(t.TempDir(), "mine.yaml"))

	norms = gathered(t, sheetOf(t, odd), NormOptions{Without: []string{"Van", "blur"}})
	want = []string{"no segment named: what was not read is as in " + norms.Base.Name + ", the nearest by the medians"}
	if !slices.Equal(norms.Messages, want) || len(norms.Readings) != 9 {
		t.Errorf("messages %q, want %q; %d readings", norms.Messages, want, len(norms.Readings))
	}
}

// A reading left out is named once for an overhang, to the tyre and to the axle, and its ± with as many decimals as show why.
func TestLeftOutOnce(t *testing.T) {
	suv := segment(t, "suv")
	half := suv.Figures[segments.TailLow].Range.HalfWidth()
	text := fmt.Sprintf("name,front-overhang,front-overhang-pm,tail-low,tail-low-pm\na,.6,.02,.5,.01\nb,.6,.4,.5,%.5f\n", half+.0001)
	readings, err := parseDataSheet("s.csv", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	norms := gathered(t, readings, NormOptions{Like: suv})
	want := []string{
		"b: front-overhang ± 0.4w is left out: its ± is more than 0.19w, half the range of suv",
		"b: tail-low ± 0.0501w is left out: its ± is more than 0.05w, half the range of suv",
		"no tyre named: millimetres are those of suv on 235/60R18",
	}
	if !slices.Equal(norms.Messages, want) {
		t.Errorf("%q, want %q", norms.Messages, want)
	}
}

// Norms that cannot be gathered, in exact words.
func TestNormRefusals(t *testing.T) {
	rows := sheetOf(t, "Anna,710mm,2.2,.4,\n")
	for _, tt := range []struct {
		readings []Reading
		without  []string
		want     string
	}{
		{rows, []string{"Ana", "Bob"}, "unknown reading \"Ana\"; did you mean \"Anna\"? want Anna\nunknown reading \"Bob\"; want Anna"},
		{rows, []string{"Anna"}, "no reading is left; want at least one"},
		{nil, nil, "no reading is left; want at least one"},
		{[]Reading{{Name: "x"}}, nil, "no figure was read; want a reading that has some"},
	} {
		if _, err := Gather(tt.readings, NormOptions{Without: tt.without}); err == nil || err.Error() != tt.want {
			t.Errorf("%d readings without %q: %v, want %s", len(tt.readings), tt.without, err, tt.want)
		}
	}
}

// A length without overhangs stands in the norms' typical plan, and fixes nothing.
func TestNormsOfLengths(t *testing.T) {
	text := "name,tyre,wheelbase mm,length mm\n"
	for i := range 9 {
		text += fmt.Sprintf("%c,710mm,%d,%d\n", 'a'+i, 2700+10*i, 4600+20*i)
	}
	readings, err := parseDataSheet("s.csv", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	norms := gathered(t, readings, NormOptions{Name: "mine", Like: segment(t, "suv")})
	plan := planOf(t, norms.Profile)
	for f, want := range map[segments.Figure]float64{segments.Length: 4680. / 710, segments.Wheelbase: 2740. / 710} {
		if got := plan.Value(f); math.Abs(got-want) > .001 || norms.Profile.Pins != nil {
			t.Errorf("%s is %.4f, want the median %.4f; pins %v", f, got, want, norms.Profile.Pins)
		}
	}
}

// Norms of any readings, of segments mixed too, can be drawn at their medians or a message says what cannot, and come back from their file
// as they were; every range holds its typical value.
func TestNormsOfRandomReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 5))
	path := filepath.Join(t.TempDir(), "mine.yaml")
	for range trials(t, 12) {
		like := anySegment(t, r)
		var readings []Reading
		for i := range 1 + r.IntN(12) {
			of := like
			if r.IntN(8) == 0 {
				of = anySegment(t, r)
			}
			reading := randomReading(r, of)
			reading.Name = fmt.Sprint("body ", i)
			readings = append(readings, reading)
		}
		o := NormOptions{Name: "mine", Like: like, Plain: r.IntN(2) == 0}
		if r.IntN(3) == 0 {
			o.Like = nil
		}
		norms, err := Gather(readings, o)
		if err != nil && err.Error() == "no figure was read; want a reading that has some" {
			continue
		} else if err != nil {
			t.Fatal(err)
		}
		sameFromFile(t, norms.Profile, path)
		plan := planOf(t, norms.Profile)
		for _, n := range norms.Figures {
			e := norms.Profile.Figures[n.Figure]
			if n.Figure.Info().Role != segments.Declared || !norms.Profile.Form.Has(n.Figure) {
				continue
			}
			said := slices.ContainsFunc(norms.Messages, func(m string) bool { return strings.HasPrefix(m, "norms: "+n.Figure.String()+" ") })
			if got := plan.Value(n.Figure); math.Abs(got-n.Median) > .001 && (got < n.Range.Lo-1e-4 || got > n.Range.Hi+1e-4) && !said {
				t.Errorf("%s: %s is drawn as %.4f, its norm is %.4f in %v; %q", norms.Base.Name, n.Figure, got, n.Median, n.Range, norms.Messages)
			}
			if e.Value < e.Range.Lo || e.Value > e.Range.Hi {
				t.Errorf("%s: %.4f lies outside %v", n.Figure, e.Value, e.Range)
			}
		}
	}
}

// manyRows is a data sheet of n vehicles.
func manyRows(n int) []byte {
	out := &strings.Builder{}
	out.WriteString("name,tyre,rear-tyre,wheelbase mm,length mm,height mm,width mm,front-overhang-axle mm,rear-overhang-axle mm," +
		"track mm,pillar-rake deg\n")
	for i := range n {
		k := i * 7919 % 101
		fmt.Fprintf(out, "body %d,205/55R16,205/55R16,%d,%d,%d,%d,%d,%d,%d,%d\n", i,
			2600+k, 4300+2*k, 1450+k/2, 1780+k/3, 820+k/2, 880+k/2, 1520+k/3, 28+k/20)
	}
	return []byte(out.String())
}

func BenchmarkNorms(b *testing.B) {
	data := manyRows(1000)
	for b.Loop() {
		readings, err := parseDataSheet("s.csv", data)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Gather(readings, NormOptions{Name: "mine"}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkProfile(b *testing.B) {
	readings, err := parseDataSheet("s.csv", manyRows(1))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := readings[0].Profile(); err != nil {
			b.Fatal(err)
		}
	}
}

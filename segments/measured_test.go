package segments

import (
	"hubrule/internal/outside"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func decimal(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// body is what the sources measure, in wheels, by the plain formulas for derived figures.
type body struct{ wheelbase, length, height, width, front, rear float64 }

func typicalBody(t *testing.T, name string) (*Profile, body) {
	t.Helper()
	p, err := Find(name)
	if err != nil {
		t.Fatal(err)
	}
	v := func(f Figure) float64 { return p.Figures[f].Value }
	q := p.RearRatio()
	b := body{height: v(Height), width: v(Width), front: v(FrontOverhang) + .5, rear: v(RearOverhang) + q/2}
	b.wheelbase = v(WheelsBetween) + (1+q)/2
	b.length = b.front + b.wheelbase + b.rear
	return p, b
}

// The typical vehicle of every measured segment lies between the 10th and the 90th percentile of measured bodies
// (Transport Canada 2011–2023, SEEN; testdata/percentiles.csv), but for exceptions whose basis says why.
func TestPercentiles(t *testing.T) {
	var beyond []string
	segments := map[string]bool{}
	for _, row := range outside.Rows(t, "../testdata/percentiles.csv") {
		name := row["segment"]
		segments[name] = true
		p, b := typicalBody(t, name)
		is := map[string]float64{
			"length_to_height":            b.length / b.height,
			"wheelbase_to_length":         b.wheelbase / b.length,
			"front_overhang_to_wheelbase": b.front / b.wheelbase,
			"rear_overhang_to_wheelbase":  b.rear / b.wheelbase,
			"width_mm":                    float64(b.width * float64(p.Wheel.Diameter)),
		}[row["ratio"]]
		if is == 0 {
			t.Fatalf("no formula for %s", row["ratio"])
		}
		if is < decimal(t, row["p10"]) || is > decimal(t, row["p90"]) {
			beyond = append(beyond, name+" "+row["ratio"])
			t.Logf("%s %s is %.3f, p10 %s, p90 %s", name, row["ratio"], is, row["p10"], row["p90"])
		}
	}
	// suv follows studio practice and says so figure by figure; the source's large pickups lack the rear bumper.
	want := []string{
		"pickup-large rear_overhang_to_wheelbase",
		"suv length_to_height", "suv wheelbase_to_length", "suv front_overhang_to_wheelbase", "suv rear_overhang_to_wheelbase",
	}
	if !slices.Equal(beyond, want) {
		t.Errorf("outside p10 to p90: %q; want %q", beyond, want)
	}
	// mid-engine has no measured bodies.
	if len(segments) != len(Names())-1 {
		t.Errorf("%d measured segments; want %d", len(segments), len(Names())-1)
	}
}

// Each exception to the percentiles is explained by the basis of the figures it comes from.
func TestExceptionsAreExplained(t *testing.T) {
	for _, c := range []struct {
		segment string
		figures []Figure
		words   []string
	}{
		{"suv", []Figure{WheelsBetween, FrontOverhang, RearOverhang, Height}, []string{"C studio practice", "M 8", "the range holds both"}},
		{"suv", []Figure{Sill, GreenhouseToBody}, []string{"C studio practice", "M 82 bodies"}},
		{"pickup-large", []Figure{RearOverhang}, []string{"without the rear bumper"}},
		{"mid-engine", []Figure{WheelsBetween, Height, Width}, []string{"C common practice", "no measured bodies"}},
	} {
		p, _ := typicalBody(t, c.segment)
		for _, f := range c.figures {
			for _, words := range c.words {
				if basis := p.Figures[f].Basis; !strings.Contains(basis, words) {
					t.Errorf("%s: basis of %s is %q; want %q in it", c.segment, f, basis, words)
				}
			}
		}
	}
}

// The figures in testdata are the source's own.
func TestPercentilesAgainstSource(t *testing.T) {
	source := map[string]map[string]string{}
	for _, row := range outside.Rows(t, outside.Data(t, "segment-percentiles.csv")) {
		source[row["segment"]+" "+row["ratio"]] = row
	}
	for _, row := range outside.Rows(t, "../testdata/percentiles.csv") {
		segment := row["segment"]
		if segment == "pickup-large" {
			segment = "pickup-fullsize" // as the source calls it
		}
		from := source[segment+" "+row["ratio"]]
		if row["bodies"] != from["n"] || row["p10"] != from["p10"] || row["p50"] != from["p50"] || row["p90"] != from["p90"] {
			t.Errorf("%s %s: %v; the source has %v", segment, row["ratio"], row, from)
		}
	}
}

// era is how far bodies of 1985 and 1990 may lie from today's: their ends were longer and their wheels smaller.
const era = .12

// secondOpinion compares a typical vehicle with the median of older bodies of its style.
func secondOpinion(t *testing.T, what string, is float64, older []float64) {
	t.Helper()
	if len(older) == 0 {
		t.Errorf("%s: no bodies to compare with", what)
		return
	}
	slices.Sort(older)
	median := older[len(older)/2]
	t.Logf("%s: %.3f, median of %d bodies %.3f", what, is, len(older), median)
	if is < median*(1-era) || is > median*(1+era) {
		t.Errorf("%s: %.3f; want within %.0f %% of %.3f", what, is, era*100, median)
	}
}

// Wheelbase and length in wheels, by type, of 1990 cars (car90 of the R package rpart, from a consumers' magazine of April 1990, SEEN).
func TestAgainstCarsOf1990(t *testing.T) {
	wheelbase, length := map[string][]float64{}, map[string][]float64{}
	for _, row := range outside.Rows(t, outside.Data(t, "car90.csv")) {
		if row["tires"] == "" || row["wheelbase_in"] == "" || row["length_in"] == "" {
			continue
		}
		tyre, err := ParseTyre(row["tires"] + row["rim"])
		if err != nil {
			t.Errorf("ParseTyre(%q): %v", row["tires"]+row["rim"], err)
			continue
		}
		// Computed beside the data by the same rule but other hands (CALC).
		if od := decimal(t, row["tyre_od_mm"]); !near(float64(tyre.Diameter), od) {
			t.Errorf("ParseTyre(%q) = %v mm; want %v", tyre.Name, tyre.Diameter, od)
		}
		wheels := 25.4 / float64(tyre.Diameter)
		kind := row["type"]
		wheelbase[kind] = append(wheelbase[kind], decimal(t, row["wheelbase_in"])*wheels)
		length[kind] = append(length[kind], decimal(t, row["length_in"])*wheels)
	}
	for _, c := range []struct{ segment, kind string }{
		{"hatchback", "Small"}, {"sedan-compact", "Compact"}, {"sedan", "Medium"}, {"sedan-large", "Large"}, {"coupe", "Sporty"}, {"minivan", "Van"},
	} {
		_, b := typicalBody(t, c.segment)
		secondOpinion(t, c.segment+" wheelbase, w", b.wheelbase, wheelbase[c.kind])
		secondOpinion(t, c.segment+" length, w", b.length, length[c.kind])
	}
}

// Proportions by body style of 1985 cars (imports85 of the R package randomForest; UCI Machine Learning Repository, Automobile, SEEN).
func TestAgainstCarsOf1985(t *testing.T) {
	low, long, wide := map[string][]float64{}, map[string][]float64{}, map[string][]float64{}
	for _, row := range outside.Rows(t, outside.Data(t, "imports85.csv")) {
		style, inches := row["bodyStyle"], func(name string) float64 { return decimal(t, row[name]) }
		low[style] = append(low[style], inches("length")/inches("height"))
		long[style] = append(long[style], inches("wheelBase")/inches("length"))
		wide[style] = append(wide[style], inches("width")/inches("height"))
	}
	for _, c := range []struct{ segment, style string }{
		{"hatchback", "hatchback"}, {"sedan-compact", "sedan"}, {"sedan", "sedan"}, {"estate", "wagon"}, {"convertible", "convertible"}, {"coupe", "hardtop"},
	} {
		_, b := typicalBody(t, c.segment)
		secondOpinion(t, c.segment+" length ÷ height", b.length/b.height, low[c.style])
		secondOpinion(t, c.segment+" wheelbase ÷ length", b.wheelbase/b.length, long[c.style])
		secondOpinion(t, c.segment+" width ÷ height", b.width/b.height, wide[c.style])
	}
}

package segments

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"
)

// The rule H = round(width·aspect/100), halves up, on rims of whole millimetres (ISO 4000-1 and ETRTO, MEM);
// the diameters computed independently by it (CALC).
func TestParseTyre(t *testing.T) {
	for _, c := range []struct {
		text, name           string
		diameter, width, rim float64
	}{
		{"155/65R14", "155/65R14", 558, 155, 356},
		{"175/65R14", "175/65R14", 584, 175, 356},
		{"185/65R15", "185/65R15", 621, 185, 381},
		{"195/65R15", "195/65R15", 635, 195, 381},
		{"205/55R16", "205/55R16", 632, 205, 406},
		{"225/45R17", "225/45R17", 634, 225, 432},
		{"225/40R18", "225/40R18", 637, 225, 457},
		{"245/40R18", "245/40R18", 653, 245, 457},
		{"235/65R17", "235/65R17", 738, 235, 432},
		{"235/60R18", "235/60R18", 739, 235, 457},
		{"235/55R19", "235/55R19", 741, 235, 483},
		{"255/50R19", "255/50R19", 739, 255, 483},
		{"265/60R18", "265/60R18", 775, 265, 457},
		{"265/70R17", "265/70R17", 804, 265, 432},
		{"275/45R20", "275/45R20", 756, 275, 508},
		{"255/35R19", "255/35R19", 661, 255, 483},
		{"305/30R20", "305/30R20", 692, 305, 508},
		{"lt265/70 r17", "LT265/70R17", 804, 265, 432},
		{"P 235/60R18", "P235/60R18", 739, 235, 457},
		{"205/55ZR16", "205/55ZR16", 632, 205, 406},
		{"195/70R15C", "195/70R15C", 655, 195, 381},
		{"195/80R15", "195/80R15", 693, 195, 381},
		// No aspect: 82 by custom (2nd-hand); 2·round(151.7) + 356.
		{"185R14", "185R14", 660, 185, 356},
		// Flotation: the inches taken at their word.
		{"31x10.50R15", "31x10.50R15", 787.4, 266.7, 381},
		{"31×10.5 R15 LT", "31x10.5R15LT", 787.4, 266.7, 381},
		{"739mm", "", 739, 0, 0},
		{"73.9 cm", "", 739, 0, 0},
		{"29in", "", 736.6, 0, 0},
	} {
		got, err := ParseTyre(c.text)
		if err != nil || got.Name != c.name || !near(float64(got.Diameter), c.diameter) ||
			!near(float64(got.SectionWidth), c.width) || !near(float64(got.RimDiameter), c.rim) {
			t.Errorf("ParseTyre(%q) = %+v, %v; want %+v", c.text, got, err, c)
		}
	}
}

func TestParseTyreErrors(t *testing.T) {
	const want = "; want a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm"
	for _, c := range []struct{ text, err string }{
		{"", "nothing" + want},
		{"205/55", "205/55" + want},
		{"205/55R", "205/55R" + want},
		{"205-55R16", "205-55R16" + want},
		{"20555R16", "20555R16" + want},
		{"X205/55R16", "X205/55R16" + want},
		{"205/05R16", "205/05R16" + want},
		{"739", "739" + want},
		{"1w", "1w" + want},
		{"7mm", "7mm; want a diameter of 200mm to 3000mm"},
		{"-739mm", "-739mm; want a diameter of 200mm to 3000mm"},
		{"30m", "30m; want a diameter of 200mm to 3000mm"},
		{"15x4.50R15", "15x4.50R15" + want + ": no tyre has this size"},
		{"31x1.50R15", "31x1.50R15" + want + ": no tyre has this size"},
	} {
		if got, err := ParseTyre(c.text); err == nil || err.Error() != c.err {
			t.Errorf("ParseTyre(%q) = %v, %v; want %s", c.text, got, err, c.err)
		}
	}
}

// Light-truck sizes, in inches, on a maker's sheet (SEEN, black-wall rows, printed to 0.1 in; the deepest treads of these sizes print up to 1.3 % more).
func TestLightTruckTyres(t *testing.T) {
	for text, inches := range map[string]float64{
		"LT235/85R16": 31.7, "LT245/75R16": 30.5, "LT265/75R16": 31.7, "LT285/75R16": 32.8,
		"LT305/70R16": 32.8, "LT315/75R16": 34.6, "LT255/75R17": 32.0,
	} {
		got, err := ParseTyre(text)
		if err != nil || math.Abs(float64(got.Diameter)/25.4/inches-1) > .013 {
			t.Errorf("ParseTyre(%q) = %.2f in, %v; want %v within 1.3 %%", text, got.Diameter/25.4, err, inches)
		}
	}
}

// A flotation tyre is named by its nominal inches: a 31x10.50R15 measures about 30.5 in (2nd-hand); tolerate 2.5 %.
func TestFlotationTyre(t *testing.T) {
	got, err := ParseTyre("31x10.50R15")
	if err != nil || math.Abs(float64(got.Diameter)/25.4/30.5-1) > .025 {
		t.Errorf("ParseTyre(31x10.50R15) = %.2f in, %v; want 30.5 within 2.5 %%", got.Diameter/25.4, err)
	}
}

// printed is one size of testdata/tyre-diameters.csv: outside diameters as makers print them (SEEN; source and licence in its first line).
type printed struct {
	width, aspect, rim int
	n                  int
	medianMM           float64
}

func (p printed) name() string { return fmt.Sprintf("%d/%dR%d", p.width, p.aspect, p.rim) }

// plain is the same diameter without rounding: rim·25.4 + 2·width·aspect/100.
func (p printed) plain() float64 {
	return float64(float64(p.rim)*25.4) + 2*float64(p.width*p.aspect)/100
}

func printedTyres(t *testing.T) []printed {
	t.Helper()
	f, err := os.Open("../testdata/tyre-diameters.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []printed
	for _, row := range rows[1:] {
		var v [6]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		all = append(all, printed{int(v[0]), int(v[1]), int(v[2]), int(v[3]), v[5] * 25.4})
	}
	return all
}

// The median printed diameter lies within 1 % of the rule in every size printed three times or more, but for two.
func TestTyresAsPrinted(t *testing.T) {
	var off []string
	sizes := 0
	for _, p := range printedTyres(t) {
		if p.n < 3 || p.rim < 13 || p.rim > 22 {
			continue
		}
		sizes++
		tyre, err := ParseTyre(p.name())
		if err != nil {
			t.Errorf("ParseTyre(%q): %v", p.name(), err)
		}
		if math.Abs(p.medianMM/float64(tyre.Diameter)-1) > .01 {
			off = append(off, p.name())
		}
	}
	if want := []string{"315/35R17", "305/30R18"}; !slices.Equal(off, want) {
		t.Errorf("beyond 1 %% of the rule: %v; want %v", off, want)
	}
	if sizes < 170 {
		t.Errorf("%d sizes with three prints or more; want 170 at least", sizes)
	}
}

// Rounding is right and no whim: where the rule and the plain form differ most (1.2 mm or more), makers print the rule's diameter, 16 sizes of 17.
// The means are as printed (SEEN), computed from the same open data.
func TestTyreRuleAgainstPlainForm(t *testing.T) {
	means := []struct {
		name string
		mm   float64
	}{
		{"185/70R14", 617.4}, {"195/70R14", 633.3}, {"205/50R17", 638.1}, {"215/50R17", 648.2}, {"225/50R17", 658.3}, {"235/50R17", 668.0},
		{"255/30R19", 638.0}, {"255/50R19", 740.4}, {"265/30R19", 643.1}, {"275/30R19", 649.4}, {"285/30R19", 656.0}, {"295/30R19", 661.7},
		{"305/30R19", 667.1}, {"325/30R19", 678.2}, {"245/30R22", 707.1}, {"255/30R22", 713.0}, {"265/30R22", 719.2},
	}
	plain := map[string]float64{}
	for _, p := range printedTyres(t) {
		plain[p.name()] = p.plain()
	}
	var lost []string
	for _, m := range means {
		tyre, err := ParseTyre(m.name)
		if err != nil || plain[m.name] == 0 {
			t.Fatalf("ParseTyre(%q): %v, plain form %v", m.name, err, plain[m.name])
		}
		if math.Abs(m.mm-float64(tyre.Diameter)) >= math.Abs(m.mm-plain[m.name]) {
			lost = append(lost, m.name)
		}
	}
	if want := []string{"325/30R19"}; !slices.Equal(lost, want) {
		t.Errorf("the plain form is nearer in %v; want %v only", lost, want)
	}
}

func FuzzParseTyre(f *testing.F) {
	for _, seed := range []string{"205/55R16", "LT265/70R17", "185R14", "31x10.50R15", "739mm", "P235/60ZR18", "99x9.99R99"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		tyre, err := ParseTyre(text)
		if err != nil {
			return
		}
		back, err := ParseTyre(tyre.String())
		if err != nil || back.Name != tyre.Name || math.Abs(float64(back.Diameter-tyre.Diameter)) > 1e-6 {
			t.Errorf("ParseTyre(%q) = %+v, written %q, read back as %+v, %v", text, tyre, tyre, back, err)
		}
	})
}

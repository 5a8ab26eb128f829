package segments

import (
	"math"
	"testing"
)

func TestParseLength(t *testing.T) {
	// On a wheel of 739 mm; 1 in = 25.4 mm exactly.
	for _, c := range []struct {
		text       string
		written    string
		mm, wheels float64
	}{
		{"2.35w", "2.35w", 1736.65, 2.35},
		{"-.5w", "-0.5w", -369.5, -.5},
		{"1737mm", "1737mm", 1737, 1737. / 739},
		{"180cm", "180cm", 1800, 1800. / 739},
		{"4.6m", "4.6m", 4600, 4600. / 739},
		{"68in", "68in", 1727.2, 1727.2 / 739},
		{"1737MM", "1737mm", 1737, 1737. / 739},
		{"2.35W", "2.35w", 1736.65, 2.35},
		{"4.6 m", "4.6m", 4600, 4600. / 739},
		{"0w", "0w", 0, 0},
	} {
		l, err := ParseLength(c.text)
		if err != nil || l.String() != c.written || !near(float64(l.MM(739)), c.mm) || !near(float64(l.wheels(739)), c.wheels) {
			t.Errorf("ParseLength(%q) = %v (%v mm, %v w), %v; want %s, %v mm, %v w",
				c.text, l, l.MM(739), l.wheels(739), err, c.written, c.mm, c.wheels)
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

func TestParseLengthErrors(t *testing.T) {
	const want = "; want a length in w, mm, cm, m or in, like 2.35w"
	for _, c := range []struct{ text, err string }{
		{"", "nothing" + want},
		{"2.35", "2.35" + want + ": the unit is missing"},
		{"w", "w" + want},
		{"2,35w", "2,35w" + want + ", with a decimal point"},
		{"1.737,5mm", "1.737,5mm" + want + ", with a decimal point"},
		{"02w", "02w" + want + ", without leading zeros"},
		{"2.35ft", "2.35ft" + want},
		{"1e3mm", "1e3mm" + want},
		{"NaNw", "NaNw" + want},
		{"infmm", "infmm" + want},
		{"0x1mm", "0x1mm" + want},
		{"--1w", "--1w" + want},
		{"2.35  w", `"2.35  w"` + want},
		{" 2.35w", `" 2.35w"` + want},
		{"2.35w\x1b", `"2.35w\x1b"` + want},
		{"99999999999999999999999999999999mm", "99999999999999999999999999999999mm" + want},
	} {
		if l, err := ParseLength(c.text); err == nil || err.Error() != c.err {
			t.Errorf("ParseLength(%q) = %v, %v; want %s", c.text, l, err, c.err)
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"2.35w", "1737mm", "-4.6 m", "68in", "1e9w", "2,35w", "NaNw", "０w", "010mm"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLength(text)
		if err != nil {
			return
		}
		w := float64(l.wheels(739))
		if math.IsNaN(w) || math.IsInf(w, 0) {
			t.Errorf("ParseLength(%q) is %v wheels", text, w)
		}
		// What is written can be read back, to the six decimals it is written with.
		back, err := ParseLength(l.String())
		if err != nil || back.Unit != l.Unit || math.Abs(back.Value-l.Value) > 1e-6+1e-12*math.Abs(l.Value) {
			t.Errorf("ParseLength(%q) writes %q, read back as %v, %v", text, l, back, err)
		}
	})
}

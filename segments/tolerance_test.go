package segments

import (
	"math"
	"testing"

	"hubrule/internal/geom"
)

// Half the last digit as it was written, and at most half the last digit that sheets print: .01 w, .1°, 1 mm.
func TestTolerance(t *testing.T) {
	for _, c := range []struct {
		figure Figure
		text   string
		wheel  geom.MM
		want   float64
	}{
		{Height, "2.3w", 700, .005},
		{Height, "2.30w", 700, .005},
		{Height, "2.300w", 700, .0005},
		{Height, "1500mm", 700, .5 / 700},
		{Height, "1500.0mm", 700, .05 / 700},
		{Height, "150.00cm", 700, .05 / 700},
		{Height, "1.5m", 700, .5 / 700},
		{Height, "1500mm", 1400, .5 / 1400},
		{Height, "1.5m", 1400, .0005},
		{Height, "60.00in", 700, .005 * 25.4 / 700},
		{WheelsBetween, "3", 700, .005},
		{WheelsBetween, "3.0000", 700, .00005},
		{GreenhouseToBody, "0.450", 700, .0005},
		{PillarRake, "30", 700, .05},
		{PillarRake, "30.00", 700, .005},
	} {
		p, err := ParsePin(c.figure, c.text)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.Tolerance(c.wheel); math.Abs(got-c.want) > 1e-15 {
			t.Errorf("%s %s at a wheel of %v mm: %v; want %v", c.figure, c.text, c.wheel, got, c.want)
		}
	}
}

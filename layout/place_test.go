package layout

import (
	"fmt"
	"math"
	"testing"

	"hubrule/segments"
)

func typical(t testing.TB, name string) Plan {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return Typical(p)
}

// Every relation of the figures' table holds on every typical plan, computed here the other way round.
func TestRelations(t *testing.T) {
	for _, name := range segments.Names() {
		p := typical(t, name)
		v := func(f segments.Figure) float64 { return p.Value(f) }
		q := v(segments.RearWheel) / v(segments.Wheel)
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			// ISO 612 counts overhangs from the wheel centres: with the wheelbase they make the length.
			{"ISO 612", (v(segments.FrontOverhang) + .5) + v(segments.Wheelbase) + (v(segments.RearOverhang) + q/2), v(segments.Length)},
			{"the nose before the axle", -float64(p.Nose()), v(segments.FrontOverhangAxle)},
			{"the tail behind the axle", float64(p.Tail() - p.Wheelbase()), v(segments.RearOverhangAxle)},
			{"nose to tail", float64(p.Tail() - p.Nose()), v(segments.Length)},
			{"the clear gap", v(segments.Wheelbase) - .5 - q/2, v(segments.WheelsBetween)},
			{"the height's parts", v(segments.Sill) + v(segments.BodySide) + v(segments.Greenhouse), v(segments.Height)},
			{"the ratio", v(segments.Greenhouse) / v(segments.BodySide), v(segments.GreenhouseToBody)},
			{"the pillar's rake", degreesOf(p.PillarHead().Y-p.PillarFoot().Y, p.PillarHead().X-p.PillarFoot().X), v(segments.PillarRake)},
			{"the pillar's aim", degreesOf(p.PillarFoot().Y-p.PillarAim(), p.PillarFoot().X), v(segments.PillarRake)},
			{"the rear lamp", v(segments.RearLamp) - v(segments.FrontLamp), v(segments.LampDepth)},
		} {
			if math.Abs(c.got-c.want) > 1e-9 {
				t.Errorf("%s: %s: got %v, want %v", name, c.what, c.got, c.want)
			}
		}
	}
}

func degreesOf[T ~float64](rise, run T) float64 {
	return math.Atan2(float64(rise), float64(run)) * 180 / math.Pi
}

// Every typical plan keeps within what a vehicle can be, and every typical value within its own range.
func TestTypicalPlansStand(t *testing.T) {
	for _, name := range segments.Names() {
		p := typical(t, name)
		if p.Clearance() > p.Sill() || p.Clearance() > p.Chin() || p.Clearance() > p.TailLow() {
			t.Errorf("%s: something hangs below the clearance", name)
		}
		if p.PillarHead().X+.4 > p.GlassEnd() {
			t.Errorf("%s: pillar head at %v, glass ends at %v", name, p.PillarHead().X, p.GlassEnd())
		}
		for _, s := range p.FigureStatuses() {
			if s.Beyond != 0 {
				t.Errorf("%s: %s is %v half-ranges out of its range", name, s.Figure, s.Beyond)
			}
		}
		// The worst place for breakover is nowhere worse than what was found.
		least := p.Breakover()
		for i := range 400 {
			x := .5 + float64(i)/399*(float64(p.Wheelbase()-p.RearRadius())-.5)
			if a := p.breakoverAt(x); a < least-1e-9 {
				t.Errorf("%s: breakover %v, but %v at x = %v", name, least, a, x)
			}
		}
	}
}

// A sum moves on either side by the root of the sum of squares of what its parts may move to that side; one of a single part by just that.
func TestDerivedRange(t *testing.T) {
	for _, name := range segments.Names() {
		p := typical(t, name)
		var below, above float64
		for _, f := range []segments.Figure{segments.FrontOverhang, segments.WheelsBetween, segments.RearOverhang} {
			r := p.Profile.Figures[f].Range
			below, above = below+math.Pow(p.Value(f)-r.Lo, 2), above+math.Pow(r.Hi-p.Value(f), 2)
		}
		length, wheelbase, between := derivedRange(p.Profile, segments.Length), derivedRange(p.Profile, segments.Wheelbase), p.Profile.Figures[segments.WheelsBetween].Range
		one := float64(p.Wheelbase()) - p.WheelsBetween()
		for what, off := range map[string]float64{
			"length's lower end": length.Lo - float64(p.Length()) + math.Sqrt(below), "length's upper end": length.Hi - float64(p.Length()) - math.Sqrt(above),
			"wheelbase's lower end": wheelbase.Lo - between.Lo - one, "wheelbase's upper end": wheelbase.Hi - between.Hi - one,
		} {
			if math.Abs(off) > 1e-9 {
				t.Errorf("%s: %s is off by %g", name, what, off)
			}
		}
	}
}

func ExampleTypical() {
	suv, _ := segments.Find("suv")
	plan := Typical(suv)
	fmt.Printf("%.2f wheels between, %.2f high, %.0f mm long\n", plan.WheelsBetween(), plan.Height(), plan.OnVehicle(plan.Length()))
	// Output: 3.00 wheels between, 2.35 high, 4634 mm long
}

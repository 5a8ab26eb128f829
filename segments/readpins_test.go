package segments

import (
	"fmt"
	"strings"
	"testing"

	"hubrule/segments/strict"
)

// Derived figures of a profile are pins of every brief that leaves them alone.
func TestProfilePins(t *testing.T) {
	p := mustRead(t, "extends: suv\nfigures:\n  length: 4500mm\n  height: 2.4w\n  wheelbase: 3.9w\n")
	if len(p.Pins) != 2 || p.Pins[0].Figure != Length || p.Pins[0].Text != "4500mm" || p.Pins[0].Origin != (Origin{"mine.yaml:3:11", true}) {
		t.Fatalf("pins %+v", p.Pins)
	}
	if suv, _ := Find("suv"); suv.Pins != nil || p.Figures[Length] != (Entry{}) {
		t.Errorf("the parent has %v, the length %v", suv.Pins, p.Figures[Length])
	}
	shorter, err := ParsePin(Length, "4.4m")
	if err != nil {
		t.Fatal(err)
	}
	b := Brief{Profile: p, Pins: []Pin{shorter}}.withProfilePins()
	if len(b.Pins) != 2 || b.Pins[0].Text != "4.4m" || b.Pins[1].Figure != Wheelbase {
		t.Errorf("beside a pin of the brief: %+v", b.Pins)
	}
}

// A message about a value outside an inherited range has what to write instead, which is read.
func TestCureOfValuesOutsideTheirRange(t *testing.T) {
	for _, name := range Names() {
		p, _ := Find(name)
		for f := WheelsBetween; f <= Tumblehome; f++ {
			if !p.Form.Has(f) {
				continue
			}
			r, bounds := p.Figures[f].Range, f.bounds()
			for _, unit := range []string{"w", "mm", "cm", "m", "in"} {
				for _, x := range []float64{r.Lo - r.HalfWidth()/3, r.Hi + r.HalfWidth()/3} {
					if !bounds.contains(x) || f.Info().Unit != InWheels && unit != "w" {
						continue
					}
					text := strict.FormatNumber(x)
					if f.Info().Unit == InWheels {
						one := Pin{length: Measure{1, unit}}
						text = fmt.Sprintf("%.2f%s", one.FromFigureUnit(x, p.Wheel.Diameter), unit)
					}
					read := func(figures string) error {
						_, err := readProfile("f", strict.Parse("f", []byte("extends: "+name+"\nfigures: {"+figures+"}\n")))
						return err
					}
					err := read(f.String() + ": " + text)
					if err == nil {
						continue // rounded into the range
					}
					_, cure, ok := strings.Cut(err.Error(), ", or a range of its own: ")
					if !ok || !strings.Contains(cure, text) {
						t.Errorf("%s: %s: %v", name, f, err)
					} else if err := read(cure); err != nil {
						t.Errorf("%s: %s: %v", name, cure, err)
					}
				}
			}
		}
	}
}

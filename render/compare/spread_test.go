package compare_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/compare"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// In millimetres every track runs from the least to the greatest number, and every dot stands where its number says, though the vehicles
// have different wheels.
func TestSpreadInMillimetres(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	s.Units = request.Millimetres
	plans := []layout.Plan{testsheet.Plan(t, "suv"), testsheet.Plan(t, "van"), testsheet.Plan(t, "city"), testsheet.Plan(t, "sports")}
	doc, _, err := sheet.Compose(request.Request{Plans: plans, Kinds: []request.Kind{request.Spread}, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	file := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(strings.NewReplacer("\u2212", "-", "°", "").Replace(text), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	checked := 0
	for f := range segments.FigureCount {
		for i, w := range file.Texts {
			if f.Info().Role != segments.Declared || f.Info().Unit != segments.InWheels || w.Words != compare.FigureName(f) {
				continue
			}
			lo, hi := number(file.Texts[i+1].Words), number(file.Texts[i+2].Words)
			from, to := math.Inf(1), math.Inf(-1)
			for k := range plans {
				if line, ok := file.Shapes[compare.PlanID(k, "range-"+f.String())]; ok {
					from, to = min(from, line.Num(t, "x1")), max(to, line.Num(t, "x2"))
				}
			}
			for k, p := range plans {
				if !p.Profile.Form.Has(f) {
					continue
				}
				at := file.Shapes[compare.PlanID(k, "value-"+f.String())].Num(t, "cx")
				got := lo + (at-from)/(to-from)*(hi-lo)
				if want := number(file.Texts[i+3+k].Words); math.Abs(got-want) > 1.1 { // whole millimetres at three places
					t.Errorf("%s of %s: dot at %.1f, printed %v, from %v to %v", f, p.Profile.Name, got, want, lo, hi)
				}
				checked++
			}
		}
	}
	if checked < 60 {
		t.Errorf("only %d dots checked", checked)
	}
}

package sheet

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// In millimetres every track runs from the least to the greatest number, and every dot stands where its number says, though the vehicles
// have different wheels.
func TestSpreadInMillimetres(t *testing.T) {
	t.Parallel()
	s := setting(t, "A3")
	s.Units = request.Millimetres
	plans := []layout.Plan{plan(t, "suv"), plan(t, "van"), plan(t, "city"), plan(t, "sports")}
	doc, _, err := Compose(request.Request{Plans: plans, Kinds: []request.Kind{request.Spread}, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	file := readSVG(t, svgOf(t, doc.Pages[0]))
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(strings.NewReplacer("\u2212", "-", "°", "").Replace(text), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	checked := 0
	for f := range segments.FigureCount {
		for i, w := range file.texts {
			if f.Info().Role != segments.Declared || f.Info().Unit != segments.InWheels || w.words != figureWords(f.String()) {
				continue
			}
			lo, hi := number(file.texts[i+1].words), number(file.texts[i+2].words)
			from, to := math.Inf(1), math.Inf(-1)
			for k := range plans {
				if line, ok := file.shapes[planID(k, "range-"+f.String())]; ok {
					from, to = min(from, line.num(t, "x1")), max(to, line.num(t, "x2"))
				}
			}
			for k, p := range plans {
				if !p.Profile.Form.Has(f) {
					continue
				}
				at := file.shapes[planID(k, "value-"+f.String())].num(t, "cx")
				got := lo + (at-from)/(to-from)*(hi-lo)
				if want := number(file.texts[i+3+k].words); math.Abs(got-want) > 1.1 { // whole millimetres at three places
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

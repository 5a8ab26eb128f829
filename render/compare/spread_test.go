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

// The figures of one segment take half a page, and the names of its vehicles stand over their values.
func TestSpreadOfOneSegment(t *testing.T) {
	t.Parallel()
	for _, paper := range []request.Paper{testsheet.Paper(t, "A3"), testsheet.Paper(t, "A4"), testsheet.Paper(t, "A4").Portrait()} {
		s := testsheet.Setting(t, "A3")
		s.Paper = paper
		plans := pinnedPair(t)[:1]
		doc, _, err := sheet.Compose(request.Request{Plans: plans, Kinds: []request.Kind{request.Spread}, Setting: s})
		if err != nil {
			t.Fatal(err)
		}
		names := 0
		for _, w := range testsheet.WrittenOn(doc.Pages[0]) {
			if foot := float64(paper.Height); float64(w.Box.Max.Y) > foot/2 && float64(w.Box.Min.Y) < foot-30 {
				t.Errorf("%s: %q stands %.1f mm down", paper.Name, w.Text, float64(w.Box.Min.Y))
			}
			if w.Text == "typical" {
				names++
			}
		}
		if names < 2 { // in the key, and over each block
			t.Errorf("%s: the name stands %d times on the sheet", paper.Name, names)
		}
	}
}

// The scale under a row is marked at round values of the unit that is printed, and nowhere else.
func TestSpreadScalesAreRound(t *testing.T) {
	t.Parallel()
	for units, step := range map[request.Units]float64{request.Wheels: .01, request.Millimetres: 10, request.Inches: .5} {
		for _, segment := range []string{"suv", "van"} { // in one unit; and beside another vehicle
			s := testsheet.Setting(t, "A3")
			s.Units = units
			plans := []layout.Plan{testsheet.Plan(t, segment)}
			if segment == "van" {
				plans = append(plans, testsheet.Plan(t, "van"), testsheet.Plan(t, "city"))
			}
			p := plans[0]
			r := p.Profile.Figures[segments.Sill].Range
			unit := map[request.Units]float64{request.Wheels: 1, request.Millimetres: float64(p.OnVehicle(1)),
				request.Inches: float64(p.OnVehicle(1)) / 25.4}[units]
			doc, _, err := sheet.Compose(request.Request{Plans: plans, Kinds: []request.Kind{request.Spread}, Setting: s})
			if err != nil {
				t.Fatal(err)
			}
			file := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
			line := file.Shapes["range-sill"]
			from, to := line.Num(t, "x1"), line.Num(t, "x2")
			marks := 0
			for _, x := range compare.ScaleMarks(doc.Pages[0], line.Num(t, "y1")) {
				v := (r.Lo + (float64(x)-from)/(to-from)*(r.Hi-r.Lo)) * unit
				if off := math.Abs(v/step - math.Round(v/step)); off > .01 {
					t.Errorf("%s in %s: a mark at %.4f, no multiple of %g", segment, units, v, step)
				}
				marks++
			}
			if marks < 3 {
				t.Errorf("%s in %s: %d marks on the scale of the sill", segment, units, marks)
			}
		}
	}
}

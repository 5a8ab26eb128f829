package sheet

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// The title block names the unit once; a wider rear tyre makes it the front wheel, and millimetres leave the counts in wheels.
func TestUnitOnce(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		segment string
		units   request.Units
		want    []string
	}{
		{"suv", request.Wheels, []string{"unit wheel"}}, {"mid-engine", request.Wheels, []string{"unit front wheel"}},
		{"suv", request.Millimetres, []string{"unit mm on the vehicle", "counts in wheels"}},
	} {
		for _, view := range request.Views() {
			s := testsheet.Setting(t, "A3")
			if view == request.EllipsesView {
				continue
			}
			s.Units, s.Views, s.Camera = c.units, []request.View{view}, shotSetting(t, "A3", "front-quarter").Camera
			var got []string
			for _, words := range said(t, testsheet.Plan(t, c.segment), s, request.Full) {
				if strings.HasPrefix(words, "unit ") || strings.HasPrefix(words, "counts in ") || strings.HasPrefix(words, "lengths in ") {
					got = append(got, words)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%s, %s from %s: %q, want %q", c.segment, c.units, view, got, c.want)
			}
		}
	}
}

// The end of the side glass is measured from the nearest edge of a tyre.
func TestGlassEndFromTheNearestEdge(t *testing.T) {
	t.Parallel()
	base := testsheet.Plan(t, "suv") // its tyres reach from −0.5 to 0.5 and from 3.5 to 4.5
	for end, want := range map[float64]string{
		-.02: "0.02 ahead of the back of the rear tyre", 0: "over the back of the rear tyre", .3: "0.30 behind the rear tyre",
		-.9: "0.10 behind the front of the rear tyre", -1.3: "0.30 ahead of the rear tyre", -3: "1.00 behind the front tyre",
	} {
		v := base.Values()
		v[segments.GlassEnd] = end
		if text := said(t, layout.Place(base.Profile, v), testsheet.Setting(t, "A3"), request.Full); !slices.Contains(text, want) {
			t.Errorf("glass end %g: no %q in %q", end, want, text)
		}
	}
}

// A chain under the ground has one unit: the parts between nose and tail add up to the length.
func TestChainInOneUnit(t *testing.T) {
	t.Parallel()
	whole := regexp.MustCompile(`^[0-9]+$`)
	eachSegment(t, func(t *testing.T, _ int, p layout.Plan) {
		s := testsheet.Setting(t, "A3")
		s.Units = request.Millimetres
		f, sum := sheetsOf(t, p, s, request.Full)[0], 0.
		under := f.Shapes["rule-along"].Num(t, "y1")
		for _, w := range f.Texts {
			if w.Group == "guide-labels" && w.Y > under && w.Y < under+8 && whole.MatchString(w.Words) {
				sum += number(t, w.Words)
			}
		}
		if length := float64(p.OnVehicle(p.Length())); sum < length-3 || sum > length+3 { // five numbers, each rounded
			t.Errorf("the chain adds up to %g mm, the length is %.1f mm", sum, length)
		}
	})
}

// Every trace sheet has one line of the same form: what it is, its size on paper, and the way it faces.
func TestTraceTitlesAreAlike(t *testing.T) {
	t.Parallel()
	form := regexp.MustCompile(`^Sport utility, trace, (near )?wheel on paper \d+ mm, facing left$`)
	for _, view := range request.Views() {
		if view == request.EllipsesView {
			continue
		}
		s := testsheet.Setting(t, "A3")
		s.Views, s.Camera = []request.View{view}, shotSetting(t, "A3", "front-quarter").Camera
		if text := said(t, testsheet.Plan(t, "suv"), s, request.Trace); !slices.ContainsFunc(text, form.MatchString) {
			t.Errorf("from %s: %q", view, text)
		}
	}
}

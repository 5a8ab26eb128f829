package sheet

import (
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// bent solves a segment with one tweak.
func bent(t testing.TB, name, tweak string, strength float64) (layout.Plan, bool) {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	tw, err := segments.FindTweak(tweak)
	if err != nil {
		t.Fatal(err)
	}
	if tw.Refusal(p) != "" {
		return layout.Plan{}, false
	}
	plan, err := layout.Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{{Tweak: tw, Strength: strength, Source: tweak}}})
	if err != nil {
		t.Fatal(err)
	}
	return plan, true
}

// Bent plans keep their words apart too, with the ground angles drawn: every segment with every tweak, both ways, on A3 and A4.
func TestNothingOverlapsWhenBent(t *testing.T) {
	among, pages := segments.All(), 0
	for _, name := range segments.Names() {
		for _, tweak := range segments.TweakNames() {
			for _, strength := range []float64{-2, -1, 1, 2} {
				p, ok := bent(t, name, tweak, strength)
				if !ok {
					continue
				}
				for _, paperName := range []string{"A3", "A4"} {
					s := testsheet.Setting(t, paperName)
					s.Checks = true
					if paperName == "A4" {
						s.Title = "Kornfeld evening class, second session of the winter"
					}
					for _, kinds := range [][]request.Kind{{request.Full, request.Trace}, {request.Steps, request.Answer}} {
						doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s, Among: among})
						if err != nil {
							t.Errorf("%s %s %v on %s: %v", name, tweak, strength, paperName, err)
							continue
						}
						for _, page := range doc.Pages {
							pages++
							saidWheel(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, page)))
							for _, f := range testsheet.Faults(page) {
								t.Errorf("%s %s %v, %s, %s: %s", name, tweak, strength, page.Title, paperName, f)
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d pages", pages)
}

// The strip says what was asked for and what it reads as; the angles carry their caution.
func TestStripOfABrief(t *testing.T) {
	p, _ := bent(t, "suv", "sporty", .8)
	s := testsheet.Setting(t, "A3")
	s.Checks = true
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s, Among: segments.All()})
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, w := range testsheet.WrittenOn(doc.Pages[0]) {
		all = append(all, w.Text)
	}
	text := strings.Join(all, "\n")
	for _, want := range []string{"sporty 0.8; reads as suv", "angles are an aid to sketching, never an approval", "approach ", "departure ", "breakover "} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q:\n%s", want, text)
		}
	}
}

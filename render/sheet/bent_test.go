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

// Bent plans keep their words apart too, with the ground angles drawn: every segment with every tweak, strengths to both sides, papers and
// kinds by turns.
func TestNothingOverlapsWhenBent(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, typical layout.Plan) {
		for j, tweak := range segments.TweakNames() {
			for k, strength := range onTurn(i+j, []float64{-2, 1, -1, 2}) {
				p, ok := bent(t, typical.Profile.Name, tweak, strength)
				if !ok {
					continue
				}
				for _, job := range onTurn(i/2+2*j+3*k, bentJobs(t)) {
					job.Plans = []layout.Plan{p}
					for _, page := range inOrder(t, job) {
						saidWheel(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, page)))
					}
				}
			}
		}
	})
}

// bentJobs are the papers and kinds on which bent plans are tried. The long title makes the strip of the small paper tight.
func bentJobs(t *testing.T) (out []request.Request) {
	for _, kinds := range [][]request.Kind{{request.Full, request.Trace}, {request.Steps, request.Answer}} {
		wide, narrow := testsheet.Setting(t, "A3"), testsheet.Setting(t, "A4")
		wide.Checks, narrow.Checks = true, true
		narrow.Title = "Kornfeld evening class, second session of the winter"
		out = append(out, request.Request{Kinds: kinds, Setting: narrow}, request.Request{Kinds: kinds, Setting: wide})
	}
	return out
}

// The strip says what was asked for and what it reads as; the angles carry their caution.
func TestStripOfABrief(t *testing.T) {
	t.Parallel()
	p, _ := bent(t, "suv", "sporty", .8)
	s := testsheet.Setting(t, "A3")
	s.Checks = true
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s})
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

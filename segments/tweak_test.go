package segments

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/segments/strict"
)

func TestTweakCatalogue(t *testing.T) {
	for _, name := range TweakNames() {
		tweak, err := FindTweak(name)
		if err != nil {
			t.Fatal(err)
		}
		if tweak.Summary == "" || len(tweak.Moves) == 0 {
			t.Errorf("%s: no line or no moves", name)
		}
		checkMoves(t, tweak.Moves, "")
		for form, moves := range tweak.ByForm {
			checkMoves(t, moves, form)
		}
		for other := range tweak.conflicts {
			if _, err := FindTweak(other); err != nil {
				t.Errorf("%s: quarrels with %s: %v", name, other, err)
			}
		}
	}
	files, err := filepath.Glob("tweaks/*.yaml")
	if err != nil || len(files) != len(TweakNames()) {
		t.Errorf("%d files, %d names", len(files), len(TweakNames()))
	}
}

// declaredNames are the figures that have a range, as messages tell them.
const declaredNames = "wheels-between, front-overhang, rear-overhang, sill, height, greenhouse-to-body, clearance, chin, chin-setback, tail-low, tail-setback, " +
	"pillar-aim, pillar-rake, screen-base, glass-end, arch-gap, lamp-depth, lamp-offset, bonnet-edge, cowl, deck, tail-foot, width, track or tumblehome"

func TestTweakMessages(t *testing.T) {
	const fine = "kind: tweak\nmoves:\n  height: {by: 0.1w, why: taller}\n"
	for _, c := range []struct{ data, want string }{
		{fine, ""},
		{"moves: {height: {by: 0.1w, why: x}}", "f:1:1: no kind; want kind: tweak"},
		{"kind: segment\nmoves: {height: {by: 0.1w, why: x}}", "f:1:7: kind: segment; want tweak"},
		{"kind: tweak", "f:1:1: no moves; want moves or by-form"},
		{"kind: tweak\nmoves: {hight: {by: 0.1w, why: x}}", `f:2:9: moves: unknown figure "hight"; did you mean "height"?`},
		{"kind: tweak\nmoves: {length: {by: 0.1w, why: x}}", "f:2:9: moves: length follows from other figures; want those moved"},
		{"kind: tweak\nmoves: {wheel: {by: 0.1w, why: x}}", "f:2:9: moves: wheel is not for tweaks to move; want it left out, or pinned"},
		{"kind: tweak\nmoves: {height: {by: 0.1, why: x}}", "f:2:22: moves.height.by: 0.1; want -2w to 2w, or half-ranges like 0.6h"},
		{"kind: tweak\nmoves: {height: {by: 90mm, why: x}}", "f:2:22: moves.height.by: 90mm; want wheels, like -0.09w: a tweak knows no tyre"},
		{"kind: tweak\nmoves: {pillar-rake: {by: 0.1w, why: x}}", "f:2:27: moves.pillar-rake.by: 0.1w; want a number, -45 to 45, without a unit"},
		{"kind: tweak\nmoves: {height: {by: 0.1w}}", "f:2:17: moves.height: no why; want why: and a reason in a few words"},
		{"kind: tweak\nmoves: {height: {by: 0.1w, toward: 2w, why: x}}", "f:2:17: moves.height: both by and toward; want one of them"},
		{"kind: tweak\nmoves: {height: {why: x}}", "f:2:17: moves.height: no by; want {by: …, why: …} or {toward: …, why: …}"},
		{"kind: tweak\nmoves: {greenhouse: {by: 1h, why: x}}", "f:2:26: moves.greenhouse.by: greenhouse has no range of its own; want of: and a figure that has one"},
		{"kind: tweak\nmoves: {sill: {by: 1h, of: pillar-rake, why: x}}", "f:2:28: moves.sill.of: pillar-rake is counted in another unit than sill; want one that is not"},
		{"kind: tweak\nby-form: {two-box: {deck: {by: 0.1w, why: x}}}", "f:2:21: by-form.two-box: a two-box has no deck; want it left out"},
		{"kind: tweak\nby-form: {twobox: {sill: {by: 0.1w, why: x}}}", `f:2:11: by-form: unknown form "twobox"; did you mean "two-box"? want one-box, two-box, three-box, fastback, bed or open`},
		{"kind: tweak\nmoves: {sill: {by: 40h, why: x}}", "f:2:20: moves.sill.by: 40h; want half-ranges, -10h to 10h"},
		{"kind: tweak\nmoves: {sill: {by: .nan, why: x}}", "f:2:20: moves.sill.by: .nan; want -2w to 2w, or half-ranges like 0.6h"},
		{"kind: tweak\nmoves: {}", "f:2:8: moves: an empty table; want at least one figure"},
		{"kind: tweak\nmoves:", "f:2:7: moves: nothing; want a table of keys and values"},
		{"kind: tweak\nby-form: {}", "f:2:10: by-form: an empty table; want a form and what moves there"},
		{"kind: tweak\nby-form: {bed: {}}", "f:2:16: by-form.bed: an empty table; want at least one figure"},
		{"kind: tweak\nmoves: {height: 0.1w}", "f:2:17: moves.height: 0.1w; want a table of keys and values"},
		{"kind: tweak\nmoves: {form: {by: 1, why: x}}", "f:2:9: moves: form is not for tweaks to move; want it left out, or pinned"},
		{"kind: tweak\nmoves:\n  height:\n    by: 0,1w\n    why: x", "f:4:9: moves.height.by: 0,1w; want -2w to 2w, or half-ranges like 0.6h, with a decimal point"},
		{"kind: tweak\nmoves:\n  height:\n    by: 0,6h\n    why: x", "f:4:9: moves.height.by: 0,6h; want half-ranges, -10h to 10h, with a decimal point"},
		{"kind: tweak\nmoves: {greenhouse: {by: 3w, why: x}}", "f:2:26: moves.greenhouse.by: 3w; want -2w to 2w"},
		{"kind: tweak\nmoves: {belt-rise: {by: 1h, why: x}}", "f:2:25: moves.belt-rise.by: belt-rise has no range of its own; want of: and a figure that has one"},
		{"kind: tweak\nmoves: {sill: {by: 1h, of: belt-rise, why: x}}", "f:2:28: moves.sill.of: belt-rise has no range; want " + declaredNames},
		{"kind: tweak\nmoves: {sill: {by: 0.1w, of: height, why: x}}", "f:2:30: moves.sill.of: goes with half-ranges like 0.6h"},
		{"kind: tweak\nmoves: {height: {toward: 3h, why: x}}", "f:2:26: moves.height.toward: 3h; want 1w to 5w"},
		{"kind: tweak\nmoves: {height: {toward: 2.2w, below: 1h, why: x}}", "f:2:39: moves.height.below: 1h; want -2w to 2w"},
		{"kind: tweak\nmoves: {tail-rake: {toward: 16, share: 2, until: 3, why: x}}", "f:2:40: moves.tail-rake.share: 2; want 0 to 1\nf:2:50: moves.tail-rake.until: 3; want 0 to 2"},
		{"kind: tweak\nmoves: {tail-foot: {toward: -0.2w, before: tail, why: x}}", "f:2:29: moves.tail-foot.toward: -0.2w; want 0w to 3w"},
		{"kind: tweak\nmoves: {glass-end: {toward: 0.2w, before: tail, why: x}}", "f:2:43: moves.glass-end.before: only tail-foot is counted from the tail; want it left out"},
		{"kind: tweak\nmoves: {tail-foot: {by: 0.2w, before: tail, why: x}}", "f:2:39: moves.tail-foot.before: goes with toward, not with by"},
		{"kind: tweak\nmoves: {sill: {by: 1h, because: x}}", "f:2:15: moves.sill: no why; want why: and a reason in a few words\n" + `f:2:24: moves.sill: unknown key "because"; want by, of, toward, share, until, below, before or why`},
		{fine + "refuse: {beds: x}", `f:4:10: refuse: unknown form "beds"; did you mean "bed"? want one-box, two-box, three-box, fastback, bed or open`},
		{fine + "quarrels: {Big One: x}", `f:4:12: quarrels: "Big One"; want the name of a tweak`},
	} {
		_, err := readTweak("f", strict.Parse("f", []byte(c.data)))
		got := ""
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%q:\ngot  %s\nwant %s", c.data, got, c.want)
		}
	}
}

func TestParseAppliedTweak(t *testing.T) {
	for _, c := range []struct {
		text     string
		name     string
		strength float64
		want     string
	}{
		{"longer", "longer", 1, ""},
		{"sporty=0.8", "sporty", .8, ""},
		{"./mine.yaml=-2", "./mine.yaml", -2, ""},
		{"sporty=3", "", 0, "3; want -2 to 2"},
		{"sporty=0,5", "", 0, "0,5; want a number, -2 to 2, with a decimal point"},
		{"./a=b.yaml", "./a=b.yaml", 1, ""},
		{"./a=b.yaml=0.5", "./a=b.yaml", .5, ""},
		{"sporty=-0", "sporty", 0, ""},
		{"sporty=1/2", "", 0, "1/2; want a number, -2 to 2"},
		{"sporty=80%", "", 0, "80%; want a number, -2 to 2, without a unit"},
		{"sporty=-2.01", "", 0, "-2.01; want -2 to 2"},
		{"sporty=", "", 0, "nothing; want a number, -2 to 2"},
	} {
		name, strength, err := ParseAppliedTweak(c.text)
		got := ""
		if err != nil {
			got = err.Error()
		}
		if name != c.name || strength != c.strength || got != c.want {
			t.Errorf("ParseAppliedTweak(%q) = %q, %v, %q; want %q, %v, %q", c.text, name, strength, got, c.name, c.strength, c.want)
		}
	}
}

// What the tweaks' words promise, added up from their moves.
func TestTweakSums(t *testing.T) {
	length := []Figure{Wheelbase, FrontOverhang, RearOverhang}
	for _, c := range []struct {
		says    string
		tweaks  []string
		figures []Figure
		want    float64
	}{
		{"more cabin on the same footprint", []string{"roomy"}, length, 0},
		{"the belt stays: what the sill gives, the body side takes", []string{"sporty"}, []Figure{Sill, BodySide}, 0},
		{"shorter and longer leave a little wheelbase", []string{"shorter", "longer"}, []Figure{Wheelbase}, .14},
		{"stately sets the cabin back by what the wheelbase grows", []string{"stately"}, []Figure{Wheelbase, PillarFoot}, .44},
		{"sporty and tough leave thin glass", []string{"sporty", "tough"}, []Figure{Greenhouse}, -.13},
	} {
		sum := 0.
		for _, name := range c.tweaks {
			tweak, err := FindTweak(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range tweak.Moves {
				if slices.Contains(c.figures, m.Figure) {
					sum += m.By
				}
			}
		}
		if !near(sum, c.want) {
			t.Errorf("%s: %v add up to %v; want %v", c.says, c.figures, sum, c.want)
		}
	}
}

// A conflict is reported once a pair, whichever stands first; not when one is reversed, not at strength 0.
func TestConflicts(t *testing.T) {
	applied := func(name string, strength float64) AppliedTweak {
		tweak, err := FindTweak(name)
		if err != nil {
			t.Fatal(err)
		}
		return AppliedTweak{Tweak: tweak, Strength: strength, Source: name}
	}
	const both = "shorter and longer cancel each other; left is a little wheelbase"
	for _, c := range []struct {
		tweaks []AppliedTweak
		want   []string
	}{
		{nil, nil},
		{[]AppliedTweak{applied("longer", 1)}, nil},
		{[]AppliedTweak{applied("shorter", 1), applied("longer", .5)}, []string{both}},
		{[]AppliedTweak{applied("longer", 1), applied("sporty", 1), applied("shorter", 1)}, []string{both}},
		{[]AppliedTweak{applied("longer", 1), applied("shorter", -1)}, nil},
		{[]AppliedTweak{applied("longer", 1), applied("shorter", 0)}, nil},
		{[]AppliedTweak{applied("roomy", 1), applied("fastback", 1), applied("tough", 1)}, []string{
			"roomy and fastback quarrel; headroom and slope make a hump",
			"tough and fastback make a lifted coupe of a sedan; only if that is meant",
		}},
		{[]AppliedTweak{applied("sporty", 1), applied("fastback", 1), applied("stately", 1)}, nil}, // these work well together
	} {
		if got := Conflicts(c.tweaks); !slices.Equal(got, c.want) {
			t.Errorf("%v: %q; want %q", c.tweaks, got, c.want)
		}
	}
}

// A tweak's words come from the profile first, then from the tweak's own list of forms.
func TestTweakWords(t *testing.T) {
	tweak, err := FindTweak("fastback")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ segment, refusal, idle string }{
		{"sedan", "", ""},
		{"pickup", "fastback: a pickup's tail is its bed; nothing can slope there", ""},
		{"van", "fastback: its load needs the upright tail", ""},
		{"convertible", "fastback: a convertible has no fixed roof; use coupe", ""},
		{"sports", "", "fastback: a sports car is a fastback already"},
	} {
		p, err := Find(c.segment)
		if err != nil {
			t.Fatal(err)
		}
		if got := tweak.Refusal(p); got != c.refusal {
			t.Errorf("%s: refusal %q; want %q", c.segment, got, c.refusal)
		}
		if got := tweak.NoEffect(p); got != c.idle {
			t.Errorf("%s: idle %q; want %q", c.segment, got, c.idle)
		}
	}
}

func FuzzTweak(f *testing.F) {
	for _, name := range TweakNames() {
		data, err := os.ReadFile("tweaks/" + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("kind: tweak\nby-form: {three-box: {tail-foot: {toward: .3w, before: tail, share: .5, until: 2, below: -.1w, why: x}}}\nquarrels: {longer: x}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		tweak, err := readTweak("f", strict.Parse("f", data))
		if (tweak == nil) == (err == nil) {
			t.Fatalf("tweak %v, error %v", tweak, err)
		}
		if err != nil {
			return
		}
		checkMoves(t, tweak.Moves, "")
		for form, moves := range tweak.ByForm {
			checkMoves(t, moves, form)
		}
	})
}

// checkMoves asks what every move that was read keeps: one of by and toward, finite and within bounds, a figure that may be moved, a reason.
func checkMoves(t *testing.T, moves []Move, form Form) {
	t.Helper()
	if len(moves) == 0 && form != "" {
		t.Errorf("%s: no moves", form)
	}
	for _, m := range moves {
		a := m.Figure.Info()
		switch g := m.Toward; {
		case a.Unit == AsWord || a.Unit == InMM || a.Role == Derived && !isPart(m.Figure) || form != "" && !form.Has(m.Figure) || m.Why == "":
			t.Errorf("%s %+v", form, m)
		case g != nil && (m.By != 0 || m.HalfRanges || g.BeforeTail && m.Figure != TailFoot):
			t.Errorf("%s %+v toward %+v", form, m, *g)
		case g != nil && !(g.Value >= a.Lo && g.Value <= a.Hi && g.Share >= 0 && g.Share <= 1 && g.Until >= 0 && g.Until <= 2 && math.Abs(g.Below) <= moveBounds(m.Figure).Hi):
			t.Errorf("%s %+v toward %+v", form, m, *g)
		case m.HalfRanges && (m.Of.Info().Role != Declared || m.Of.Info().Unit != a.Unit || !(math.Abs(m.By) <= 10)):
			t.Errorf("%s %+v", form, m)
		case !m.HalfRanges && !(math.Abs(m.By) <= moveBounds(m.Figure).Hi):
			t.Errorf("%s %+v", form, m)
		}
	}
}

func FuzzParseAppliedTweak(f *testing.F) {
	for _, s := range []string{"longer", "sporty=0.8", "./mine.yaml=-0.5", "./a=b.yaml", "=", "sporty=NaN", "sporty=1e1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		name, strength, err := ParseAppliedTweak(text)
		switch {
		case err != nil && (name != "" || strength != 0):
			t.Errorf("%q: %q, %v beside the error %v", text, name, strength, err)
		case err == nil && !(strength >= -strongest && strength <= strongest && strings.HasPrefix(text, name)):
			t.Errorf("%q: %q, %v", text, name, strength)
		}
	})
}

func FuzzPin(f *testing.F) {
	for _, s := range []string{"2.35w", "4600mm", "0.45", "255/45R20", "-0.1w", "1e9", "NaN", "3", "31x10.50R15"} {
		for g := range FigureCount {
			f.Add(uint8(g), s)
		}
	}
	f.Fuzz(func(t *testing.T, figure uint8, text string) {
		p, err := ParsePin(Figure(figure%uint8(FigureCount)), text)
		if err != nil {
			return
		}
		if v := p.Value(700); v != v || p.Tolerance(700) < 0 {
			t.Errorf("%q: %v, slack %v", text, v, p.Tolerance(700))
		}
		_ = p.CheckBounds(700)
	})
}

// sameAgain writes a brief that is in its one form, reads that and compares what it says.
func sameAgain(t *testing.T, b Brief) {
	t.Helper()
	lines, _ := b.YAMLLines(strconv.Quote)
	text := FlowMapping(lines)
	again, err := Library{}.ParseTable(VehicleSpec(text), "f")
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	if lines, _ := again.Canonical().YAMLLines(strconv.Quote); FlowMapping(lines) != text {
		t.Errorf("%s written again is %s", text, FlowMapping(lines))
	}
}

func FuzzBrief(f *testing.F) {
	for _, s := range []string{
		"kind: brief\nsegment: suv\ntweak: {sporty: 0.5}\npin: {length: 4.7m, wheel: 255/45R20}\nkeep: [height]\npaper: A3\nsheets: [full, trace]\n",
		"kind: brief\nsegment: pickup\npin: {deck: 1.5w, height: 1700mm, pillar-rake: 30}\n",
		"kind: brief\nsegment: suv\nalso: [{segment: van, keep: sill}, {segment: 1}]\nagainst: [suv+sporty=.5, {segment: sedan, pin: {height: 1.5 m}}]\n",
		"kind: brief\n", "kind: brief\nsegment: [suv]\nkeep: {}\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b := Library{}.ReadBrief("none", strict.Parse("f", data), []string{"paper", "sheets", "against"})
		if b.Err() == nil {
			for _, one := range b.Briefs {
				_, _, _ = one.Summary(), one.Refusal(), one.Notes()
				sameAgain(t, one.Canonical())
			}
		}
	})
}

package segments

import (
	"os"
	"path/filepath"
	"testing"

	"hubrule/segments/strict"
)

func TestTweakCatalogue(t *testing.T) {
	for _, name := range TweakNames() {
		tweak, err := FindTweak(name)
		if err != nil {
			t.Fatal(err)
		}
		if tweak.Line == "" || len(tweak.Moves) == 0 {
			t.Errorf("%s: no line or no moves", name)
		}
		for other := range tweak.Quarrels {
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
		{"kind: tweak\nby-form: {twobox: {sill: {by: 0.1w, why: x}}}", `f:2:11: by-form: unknown form "twobox"; did you mean "two-box"?`},
		{"kind: tweak\nmoves: {sill: {by: 40h, why: x}}", "f:2:20: moves.sill.by: 40h; want half-ranges, -10h to 10h"},
		{"kind: tweak\nmoves: {sill: {by: .nan, why: x}}", "f:2:20: moves.sill.by: .nan; want -2w to 2w, or half-ranges like 0.6h"},
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

func TestParseDose(t *testing.T) {
	for _, c := range []struct {
		text     string
		name     string
		strength float64
		want     string
	}{
		{"longer", "longer", 1, ""},
		{"sporty=0.8", "sporty", .8, ""},
		{"./mine.yaml=-2", "./mine.yaml", -2, ""},
		{"sporty=3", "", 0, "3; want a strength, -2 to 2"},
		{"sporty=0,5", "", 0, "0,5; want a strength, -2 to 2, with a decimal point"},
		{"sporty=", "", 0, "nothing; want a strength, -2 to 2"},
	} {
		name, strength, err := ParseDose(c.text)
		got := ""
		if err != nil {
			got = err.Error()
		}
		if name != c.name || strength != c.strength || got != c.want {
			t.Errorf("ParseDose(%q) = %q, %v, %q; want %q, %v, %q", c.text, name, strength, got, c.name, c.strength, c.want)
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
		if got := tweak.Idle(p); got != c.idle {
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
	f.Fuzz(func(t *testing.T, data []byte) {
		tweak, err := readTweak("f", strict.Parse("f", data))
		if (tweak == nil) == (err == nil) {
			t.Errorf("tweak %v, error %v", tweak, err)
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
		if v := p.Value(700); v != v || p.Slack(700) < 0 {
			t.Errorf("%q: %v, slack %v", text, v, p.Slack(700))
		}
		_ = p.Check(700)
	})
}

func FuzzBrief(f *testing.F) {
	for _, s := range []string{
		"kind: brief\nsegment: suv\ntweak: {sporty: 0.5}\npin: {length: 4.7m, wheel: 255/45R20}\nkeep: [height]\npaper: A3\nsheets: [full, trace]\n",
		"kind: brief\nsegment: pickup\npin: {deck: 1.5w, height: 1700mm, pillar-rake: 30}\n",
		"kind: brief\n", "kind: brief\nsegment: [suv]\nkeep: {}\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := readBrief("none", strict.Parse("f", data), []string{"paper", "sheets"})
		if (b == nil) == (err == nil) {
			t.Errorf("brief %v, error %v", b, err)
		}
		if b != nil {
			_, _, _ = b.Brief.Words(), b.Brief.Refusal(), b.Brief.Notes()
		}
	})
}

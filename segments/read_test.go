package segments

import (
	"math"
	"strings"
	"testing"

	"hubrule/segments/strict"
)

const (
	allKeys    = "kind, extends, title, line, form, wheel, rear-wheel, figures, outline, solid, glass-from, refuse or no-change"
	lengthWant = "want a length in w, mm, cm, m or in, like 2.35w"
	tyreWant   = "want a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm"
)

var allNames = strict.JoinOr(Names())

// Each bad file stands beside all its messages.
func TestBadProfiles(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"", "1:1: empty; want a table of keys and values"},
		{"suv", "1:1: plain text; want a table of keys and values"},
		{"extends: suv\naliases: [mine]", `2:10: aliases: a profile outside the catalogue is found by its path; want no aliases`},
		{"extends: suf", `1:10: extends: unknown segment "suf"; did you mean "suv"?`},
		{"extends: lorry\nfigures: {height: 2.4w}", `1:10: extends: unknown segment "lorry"; want ` + allNames},
		{"extends: ../suv.yaml", `1:10: extends: unknown segment "../suv.yaml"; want ` + allNames},
		{"extends: [suv]", "1:10: extends: a list; want " + allNames},
		{"kind: tweak\nextends: suv", "1:7: kind: tweak; want segment"},
		{"extends: suv\nfigure: {}", `2:1: unknown key "figure"; did you mean "figures"?`},
		{"extends: suv\ncolour: red", `2:1: unknown key "colour"; want ` + allKeys},
		{"extends: suv\ntitle: 4", "2:8: title: 4; want a text; put it in quotes"},
		{"extends: suv\nform: threebox", `2:7: form: unknown form "threebox"; did you mean "three-box"? want one-box, two-box, three-box, fastback, bed or open`},
		{"extends: suv\nform: three-box", "1:1: no deck, tail-foot; want every figure of a three-box"},
		{"extends: suv\nwheel: 235/60", "2:8: wheel: 235/60; " + tyreWant},
		{"extends: suv\nwheel: 739", "2:8: wheel: 739; " + tyreWant},
		{"extends: suv\nwheel: [739mm]", "2:8: wheel: a list; " + tyreWant},
		{"extends: suv\nrear-wheel: 2m", "2:13: rear-wheel: 2m; want half to twice the front wheel, 235/60R18"},
		{"extends: suv\nglass-from: back", `2:13: glass-from: unknown axle "back"; want front or rear`},
		{"extends: suv\nfigures: 3", "2:10: figures: 3; want a table of keys and values"},
		{"extends: suv\nfigures:\n  height: 9w", "3:11: figures.height: 9w; want 1w to 5w"},
		{"extends: suv\nfigures:\n  height: 9000mm", "3:11: figures.height: 9000mm; want 1w to 5w (739mm to 3695mm)"},
		{"extends: suv\nfigures:\n  height: 2.35", "3:11: figures.height: 2.35; " + lengthWant + ": the unit is missing"},
		{"extends: suv\nfigures:\n  height: 2,35w", "3:11: figures.height: 2,35w; " + lengthWant + ", with a decimal point"},
		{"extends: suv\nfigures: {height: 2,35w}", `2:21: figures: "35w" stands alone; is it a decimal comma? write 2.35w`},
		{"extends: suv\nfigures: {height: {range: [2,19w, 2,45w]}}", "2:27: figures.height.range: a list; want 2 values, not 4; is a decimal comma among them? write a point"},
		{"extends: suv\nfigures:\n  height: ~", "3:11: figures.height: ~; " + lengthWant},
		{"extends: suv\nfigures:\n  height:", "3:10: figures.height: nothing; " + lengthWant},
		{"extends: suv\nfigures:\n  height: .nan", "3:11: figures.height: .nan; " + lengthWant},
		{"extends: suv\nfigures:\n  height: 2.6w", "3:11: figures.height: 2.6w lies outside the inherited range; want 2.19w to 2.45w, or a range of its own: height: {value: 2.6w, range: [2.19w, 2.6w]}"},
		{"extends: suv\nfigures:\n  height: 1830mm", "3:11: figures.height: 1830mm lies outside the inherited range; want 1619mm to 1810mm, or a range of its own: height: {value: 1830mm, range: [1619mm, 1830mm]}"},
		{"extends: suv\nfigures:\n  height: {value: 1.5m}", "3:19: figures.height.value: 1.5m lies outside the inherited range; want 1.619m to 1.81m, or a range of its own: height: {value: 1.5m, range: [1.5m, 1.81m]}"},
		{"extends: suv\nfigures:\n  wheels-between: 3.4", "3:19: figures.wheels-between: 3.4 lies outside the inherited range; want 2.6 to 3.11, or a range of its own: wheels-between: {value: 3.4, range: [2.6, 3.4]}"},
		{"extends: suv\nfigures:\n  height: {range: [1800mm, 1850mm]}", "3:11: figures.height: 1737mm lies outside its own range; want 1800mm to 1850mm"},
		{"extends: suv\nfigures:\n  height: {value: 1700mm, range: [1800mm, 1850mm]}", "3:19: figures.height.value: 1700mm lies outside its own range; want 1800mm to 1850mm"},
		{"extends: suv\nfigures:\n  height: {range: [2.4w, 2.5w]}", "3:11: figures.height: 2.35w lies outside its own range; want 2.4w to 2.5w"},
		{"extends: suv\nfigures:\n  height: {range: [2.45w, 2.19w]}", "3:19: figures.height.range: 2.45w to 2.19w; want the smaller value first"},
		{"extends: suv\nfigures:\n  height: {range: [2.35w, 2.35w]}", "3:19: figures.height.range: 2.35w to 2.35w; want the smaller value first"},
		{"extends: suv\nfigures:\n  height: {range: 2.35w}", "3:19: figures.height.range: 2.35w; want a list of 2 in [ ]"},
		{"extends: suv\nfigures:\n  height: {val: 2.35w}", `3:12: figures.height: unknown key "val"; want value, range or basis`},
		{"extends: suv\nfigures:\n  height: {basis: by eye}", `3:19: figures.height.basis: "by eye"; want M (measured), C (common practice) or R (remembered, by eye) and a sentence`},
		{"extends: suv\nfigures:\n  wheels-between: 3w", "3:19: figures.wheels-between: 3w; want a number, 0.5 to 12, without a unit"},
		{"extends: suv\nfigures:\n  wheels-between: 03", "3:19: figures.wheels-between: 03; want a number, 0.5 to 12, without leading zeros"},
		{"extends: suv\nfigures:\n  pillar-rake: .inf", "3:16: figures.pillar-rake: .inf; want a number, 15 to 85"},
		{"extends: suv\nfigures:\n  pillar-rake: 34°", "3:16: figures.pillar-rake: 34°; want a number, 15 to 85, without a unit"},
		{"extends: suv\nfigures:\n  wheels-betwen: 3", `3:3: figures: unknown figure "wheels-betwen"; did you mean "wheels-between"?`},
		{"extends: suv\nfigures:\n  length: 99m", "3:11: figures.length: 99m; want 2w to 20w (1478mm to 14780mm)"},
		{"extends: suv\nfigures:\n  length: 4500", "3:11: figures.length: 4500; " + lengthWant + ": the unit is missing"},
		{"extends: suv\nfigures:\n  length: {value: 4500mm}", "3:11: figures.length: a table; want a value alone: length follows from other figures, and is pinned here"},
		{"extends: suv\nfigures:\n  deck: 1w", "3:3: figures: a two-box has no deck; want it left out"},
		{"extends: suv\nfigures:\n  wheel: 739mm", "3:3: figures: wheel stands at the top of the file, not among the figures"},
		{"extends: suv\nfigures:\n  height: 2.4w\n  height: 2.4w", `4:3: figures: "height" stands twice, first on line 3; want it once`},
		{"extends: suv\noutline: {apex: 9}", "2:17: outline.apex: 9; want 0 to 2"},
		{"extends: sports\noutline: {tail-lean: .2}", "2:22: outline.tail-lean: changes nothing under the lip of a cut tail; leave it out"},
		{"extends: sports\noutline: {nose-step: .02}", "2:22: outline.nose-step: changes nothing on a nose with a tip; leave it out"},
		{"extends: suv\noutline: {glass-tail: .3, glass-rake: 40}",
			"2:39: outline.glass-rake: changes nothing beside glass-tail, whose rake is glass-tail-rake; leave it out"},
		{"extends: suv\noutline: {apexx: 1}", `2:11: outline: unknown key "apexx"; did you mean "apex"?`},
		{"extends: suv\noutline: {doors: 3}", "2:18: outline.doors: 3; want 0, 2 or 4"},
		{"extends: suv\noutline: {intake: yes}", "2:19: outline.intake: yes; want true or false"},
		{"extends: suv\noutline: {stance: low}", "2:19: outline.stance: low; want high"},
		{"extends: suv\noutline: {slide: [1, .5]}", "2:18: outline.slide: 1 to 0.5; want the smaller value first"},
		{"extends: suv\noutline: {seats: [.2, 5]}", "2:23: outline.seats[2]: 5; want -0.2 to 1.2"},
		{"extends: suv\noutline: {pillars: [{at: .5}, 3]}", "2:21: outline.pillars[1]: no width, tilt; want at, width, tilt\n2:31: outline.pillars[2]: 3; want a table of keys and values"},
		{"extends: suv\nsolid: {tuck: 2}", "2:15: solid.tuck: 2; want 0 to 0.3"},
		{"extends: suv\nsolid: {tucks: 0}", `2:9: solid: unknown key "tucks"; did you mean "tuck"?`},
		{"extends: suv\noutline: {soften: {chn: [0, 1]}}", `2:20: outline.soften: unknown corner "chn"; did you mean "chin"?`},
		{"extends: suv\noutline: {soften: {chin: [0, 9]}}", "2:30: outline.soften.chin[2]: 9; want 0 to 3"},
		{"extends: suv\nrefuse: {Roomy!: no}", `2:10: refuse: "Roomy!"; want the name of a tweak`},
		{"extends: suv\nrefuse: {roomy: }", "2:17: refuse.roomy: nothing; want a text"},
		{"form: two-box", "1:1: no title, wheel, figures; want title, form, wheel and figures, or extends: SEGMENT"},
		{
			"title: X\nform: one-box\nwheel: 739mm\nfigures:\n  height: 2.4w\n  sill: {value: .3w, range: [.2w, .4w]}\n  rim: .6\n",
			"5:3: figures: no belt-rise, tail-rake, header-drop, wheels-between, front-overhang, rear-overhang, greenhouse-to-body, clearance, chin, chin-setback, tail-low, " +
				"tail-setback, pillar-aim, pillar-rake, screen-base, glass-end, arch-gap, lamp-depth, lamp-offset, bonnet-edge, cowl, width, track, tumblehome; want every figure of a one-box\n" +
				"5:11: figures.height: no range; want {value: …, range: [from, to], basis: …}\n" +
				"6:9: figures.sill: no basis; want basis: one line that says where the figure comes from",
		},
	} {
		want := "bad.yaml:" + strings.ReplaceAll(c.want, "\n", "\nbad.yaml:")
		p, err := readOwnProfile("bad", strict.Parse("bad.yaml", []byte(c.data)))
		if p != nil || err == nil || err.Error() != want {
			t.Errorf("reading %q:\n got %v\nwant %s", c.data, err, want)
		}
	}
}

// All problems of a file come at once, in the order of the file, and nothing is reported twice.
func TestManyProblems(t *testing.T) {
	const data = `extends: suv
titel: Hatch
wheel: 205/55R
figures:
  height: 9w
  wheels-betwen: 3
  sill: {value: 0,32w, range: [0.4w, 0.3w]}
  tail-foot: 0.8w
  length: 4.4
  pillar-rake: 300
outline: {apex: x, pillars: [{at: 2, width: 1, tilt: 0}]}
refuse: none
`
	const want = `hatch.yaml:2:1: unknown key "titel"; did you mean "title"?
hatch.yaml:3:8: wheel: 205/55R; want a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm
hatch.yaml:5:11: figures.height: 9w; want 1w to 5w
hatch.yaml:6:3: figures: unknown figure "wheels-betwen"; did you mean "wheels-between"?
hatch.yaml:7:19: figures.sill: "32w" stands alone; is it a decimal comma? write 0.32w
hatch.yaml:7:31: figures.sill.range: 0.4w to 0.3w; want the smaller value first
hatch.yaml:8:3: figures: a two-box has no tail-foot; want it left out
hatch.yaml:9:11: figures.length: 4.4; want a length in w, mm, cm, m or in, like 2.35w: the unit is missing
hatch.yaml:10:16: figures.pillar-rake: 300; want 15 to 85
hatch.yaml:11:17: outline.apex: x; want a number, 0 to 2
hatch.yaml:11:35: outline.pillars[1].at: 2; want -0.5 to 1
hatch.yaml:11:45: outline.pillars[1].width: 1; want 0.01 to 0.3
hatch.yaml:12:9: refuse: none; want a table of keys and values`
	_, err := readProfile("hatch", strict.Parse("hatch.yaml", []byte(data)))
	problems, ok := err.(*strict.Problems)
	if !ok || err.Error() != want {
		t.Fatalf("got\n%v\nwant\n%s", err, want)
	}
	if len(problems.List) != 13 {
		t.Errorf("%d problems; want 13", len(problems.List))
	}
}

func FuzzProfile(f *testing.F) {
	for _, name := range Names() {
		data, err := embedded.ReadFile("catalogue/" + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("extends: suv\nwheel: 700mm\nfigures: {height: 1700mm, sill: {range: [.3w, .5w]}}\noutline: {stance: high, soften: {chin: [0, 1]}}\n"))
	f.Add([]byte("extends: sports\nform: open\nfigures: {tail-foot: {value: .5w, range: [0w, 1w], basis: R x}}\nrear-wheel: 31x10.50R15\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := readProfile("f", strict.Parse("f.yaml", data))
		if err != nil {
			return
		}
		for f := range FigureCount {
			a, e := f.Info(), p.Figures[f]
			if f == formFigure || a.Role == Derived || !p.Form.Has(f) {
				continue
			}
			if math.IsNaN(e.Value) || e.Value < a.Lo || e.Value > a.Hi {
				t.Errorf("%s = %v; want %v to %v", f, e.Value, a.Lo, a.Hi)
			}
			if a.Role == Declared && (!e.Range.contains(e.Value) || e.Range.HalfWidth() <= 0 || e.Basis == "") {
				t.Errorf("%s = %+v", f, e)
			}
		}
	})
}

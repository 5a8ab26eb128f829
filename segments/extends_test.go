package segments

import (
	"reflect"
	"testing"

	"hubrule/segments/strict"
)

func mustRead(t *testing.T, data string) *Profile {
	t.Helper()
	p, err := readOwnProfile("mine", strict.Parse("mine.yaml", []byte(data)))
	if err != nil {
		t.Fatalf("%s\n%v", data, err)
	}
	return p
}

func TestExtends(t *testing.T) {
	suv, _ := Find("suv")
	p := mustRead(t, "extends: suv\n")
	if p.Extends != "suv" {
		t.Errorf("extends %q", p.Extends)
	}
	if p.InCatalogue() || !suv.InCatalogue() {
		t.Error("what is built on a segment counts as a segment")
	}
	p.Name, p.Extends, p.Aliases, p.inCatalogue = "suv", "", suv.Aliases, true // names are not inherited
	if !reflect.DeepEqual(p, suv) {
		t.Errorf("extending suv without a change gives\n%+v\nwant\n%+v", p, suv)
	}

	// A value alone keeps range and basis; a range or a basis alone keeps the rest; no other figure moves.
	p = mustRead(t, "extends: suv\nfigures:\n  height: 2.4w\n  sill: {range: [0.35w, 0.45w]}\n  width: {basis: R a narrower street}\n  belt-rise: 2\n")
	want := suv.Figures
	want[Height].Value = 2.4
	want[Sill].Range = Range{.35, .45}
	want[Width].Basis = "R a narrower street"
	want[BeltRise].Value = 2
	if p.Figures != want {
		t.Errorf("figures\n%v\nwant\n%v", p.Figures, want)
	}
}

// A new wheel changes millimetres and keeps wheels; lengths in millimetres turn into wheels through the file's own tyre.
func TestExtendsWheel(t *testing.T) {
	suv, _ := Find("suv")
	p := mustRead(t, "extends: suv\nwheel: 800mm\nfigures: {height: 1880mm, front-overhang: 48cm}\n")
	want := suv.Figures
	want[Wheel].Value, want[RearWheel].Value = 800, 800
	want[FrontOverhang].Value = 480. / 800
	if p.Figures != want { // 1880 mm is 2.35 w again; a bare diameter keeps the rim
		t.Errorf("figures\n%v\nwant\n%v", p.Figures, want)
	}

	p = mustRead(t, "extends: suv\nwheel: 245/45R19\n")
	if got := p.Figures[Rim].Value; !near(got, 483./703) {
		t.Errorf("rim = %v; want that of the designation, 483 ÷ 703", got)
	}

	// A new front tyre stands at both ends unless the rear is named.
	p = mustRead(t, "extends: mid-engine\nwheel: 255/35R20\n")
	if p.RearWheel != p.Wheel || p.Figures[RearWheel].Value != float64(p.Wheel.Diameter) {
		t.Errorf("rear wheel %v; want %v", p.RearWheel, p.Wheel)
	}
	p = mustRead(t, "extends: mid-engine\nrear-wheel: 325/30R21\n")
	if p.Wheel.Name != "245/35R20" || p.RearWheel.Name != "325/30R21" {
		t.Errorf("wheels %v and %v", p.Wheel, p.RearWheel)
	}
}

// Another form asks for the figures it has more and drops those it lacks.
func TestExtendsForm(t *testing.T) {
	p := mustRead(t, "extends: sedan\nform: fastback\n")
	sedan, _ := Find("sedan")
	if p.Figures[TailFoot] != (Entry{}) || p.Figures[Deck] != sedan.Figures[Deck] {
		t.Errorf("tail-foot %v, deck %v", p.Figures[TailFoot], p.Figures[Deck])
	}
	if p.Solid != solidFor(Fastback) {
		t.Errorf("numbers across of another form are %+v; want the form's own", p.Solid)
	}
	if !reflect.DeepEqual(p.Shape, shapeFor(Fastback, "")) {
		t.Errorf("shape of another form is %+v; want the form's own", p.Shape)
	}
	p = mustRead(t, "extends: hatchback\nform: bed\nfigures: {deck: {value: 1.5w, range: [1.4w, 1.6w], basis: R by eye}}\n")
	if !p.GlassFromFront || p.Figures[Deck] != (Entry{1.5, Range{1.4, 1.6}, "R by eye"}) {
		t.Errorf("glass from front %v, deck %v", p.GlassFromFront, p.Figures[Deck])
	}
	p = mustRead(t, "extends: van\nglass-from: rear\nfigures: {belt-rise: 1}\n")
	if p.GlassFromFront {
		t.Error("glass-from: rear does not take the van's side glass to the rear")
	}
}

func TestExtendsOutline(t *testing.T) {
	suv, _ := Find("suv")
	p := mustRead(t, `extends: suv
outline:
  apex: 1.2
  doors: 2
  intake: true
  slide: [0.5, 1]
  seats: [0.3, 0.7]
  pillars: [{at: 0.4, width: 0.05, tilt: -0.1}]
  soften: {chin: [0.2, 0.3], glass-4: [0.01, 0.02]}
`)
	want := suv.Shape
	want.Apex, want.Doors, want.Intake = 1.2, 2, true
	want.Slide, want.Seats = Range{.5, 1}, []float64{.3, .7}
	want.Pillars = []Pillar{{.4, .05, -.1}}
	want.Fillets.Chin = Fillet{Before: .2, After: .3}
	want.Fillets.Glass[3] = Fillet{Before: .01, After: .02}
	if !reflect.DeepEqual(p.Shape, want) {
		t.Errorf("shape\n%+v\nwant\n%+v", p.Shape, want)
	}
	// A stance starts afresh from the form.
	if p = mustRead(t, "extends: hatchback\noutline: {stance: high, pillars: []}\n"); len(p.Shape.Pillars) != 0 || p.Shape.FaceLean != shapeFor(TwoBox, highStance).FaceLean {
		t.Errorf("shape %+v", p.Shape)
	}
}

// A tweak that made no sense on the parent may be allowed again.
func TestExtendsSentences(t *testing.T) {
	p := mustRead(t, "extends: van\nrefuse: {}\nno-change: {sporty: it is sporty already}\n")
	if len(p.refuse) != 0 || p.noChange["sporty"] != "it is sporty already" {
		t.Errorf("refuse %v, no change %v", p.refuse, p.noChange)
	}
}

package segments

import (
	"fmt"
	"hubrule/internal/outside"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func ExampleFind() {
	suv, err := Find("suv")
	if err != nil {
		fmt.Println(err)
		return
	}
	height := suv.Figures[Height]
	fmt.Printf("%s on %s: %.2f w high, %.2f to %.2f\n", suv.Title, suv.Wheel, height.Value, height.Range.Lo, height.Range.Hi)
	_, err = Find("suf")
	fmt.Println(err)
	// Output:
	// Sport utility on 235/60R18: 2.35 w high, 2.19 to 2.45
	// unknown segment "suf"; did you mean "suv"?
}

func ExampleParseLength() {
	l, err := ParseLength("1737mm")
	fmt.Printf("%v is %.2f w on a wheel of 739 mm, %v\n", l, l.wheels(739), err)
	_, err = ParseLength("2,35w")
	fmt.Println(err)
	// Output:
	// 1737mm is 2.35 w on a wheel of 739 mm, <nil>
	// 2,35w; want a length in w, mm, cm, m or in, like 2.35w, with a decimal point
}

// Every segment loads, holds its own ranges and says where each figure comes from.
func TestCatalogue(t *testing.T) {
	for _, name := range Names() {
		p, err := Find(name)
		if err != nil {
			t.Errorf("Find(%q): %v", name, err)
			continue
		}
		if p.Name != name || p.Title == "" || p.Summary == "" {
			t.Errorf("Find(%q): name %q, title %q, line %q", name, p.Name, p.Title, p.Summary)
		}
		for f := range FigureCount {
			e := p.Figures[f]
			switch {
			case !p.Form.Has(f) || f.Info().Role == Derived:
				if e != (Entry{}) {
					t.Errorf("%s: %s = %+v; want none", name, f, e)
				}
			case f.Info().Role == Declared && !(e.Range.Lo < e.Value && e.Value < e.Range.Hi):
				t.Errorf("%s: %s %v outside its range %v", name, f, e.Value, e.Range)
			case f.Info().Role == Declared && !strings.ContainsAny(e.Basis[:1], "MCR"):
				t.Errorf("%s: basis of %s is %q", name, f, e.Basis)
			}
		}
		if room := p.Figures[Width].Range.Hi - .03 - float64(p.Wheel.SectionWidth/p.Wheel.Diameter); p.Figures[Track].Range.Hi > room {
			t.Errorf("%s: a track of %.3f puts the tyres out of the widest body; room for %.3f", name, p.Figures[Track].Range.Hi, room)
		}
	}
}

// Names lists exactly the files that are embedded.
func TestNames(t *testing.T) {
	files, err := embedded.ReadDir("catalogue")
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, f := range files {
		want = append(want, strings.TrimSuffix(f.Name(), ".yaml"))
	}
	names := Names()
	slices.Sort(names)
	slices.Sort(want)
	if !slices.Equal(names, want) {
		t.Errorf("Names() = %q; embedded are %q", names, want)
	}
}

// What is particular about single segments.
func TestSegments(t *testing.T) {
	forms := map[string]Form{"city": TwoBox, "sedan": ThreeBox, "sports": Fastback, "convertible": Open, "pickup": Bed, "van": OneBox}
	for name, form := range forms {
		if p, _ := Find(name); p.Form != form {
			t.Errorf("%s is a %s; want %s", name, p.Form, form)
		}
	}
	for _, name := range Names() {
		p, _ := Find(name)
		if want := p.Form == Bed || name == "van"; p.GlassFromFront != want {
			t.Errorf("%s: GlassFromFront = %v; want %v", name, p.GlassFromFront, want)
		}
		if (p.RearWheel != p.Wheel) != (name == "mid-engine") {
			t.Errorf("%s: wheels %v and %v", name, p.Wheel, p.RearWheel)
		}
	}
	for _, c := range []struct{ name, tweak, refuse, noChange string }{
		{"pickup", "fastback", "a pickup's tail is its bed; nothing can slope there", ""},
		{"pickup-large", "fastback", "a pickup's tail is its bed; nothing can slope there", ""},
		{"van", "fastback", "its load needs the upright tail", ""},
		{"convertible", "fastback", "a convertible has no fixed roof; use coupe", ""},
		{"mid-engine", "roomy", "the engine stands behind the seats; pin greenhouse or height instead", ""},
		{"mid-engine", "fastback", "", "a mid-engine car is a fastback already"},
		{"sports", "fastback", "", "a sports car is a fastback already"},
		{"suv", "fastback", "", ""},
	} {
		p, _ := Find(c.name)
		if p.refuse[c.tweak] != c.refuse || p.noChange[c.tweak] != c.noChange {
			t.Errorf("%s, %s: refused with %q, no change with %q; want %q, %q", c.name, c.tweak, p.refuse[c.tweak], p.noChange[c.tweak], c.refuse, c.noChange)
		}
	}
}

func TestFindErrors(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct{ name, want string }{
		{"sedam", `unknown segment "sedam"; did you mean "sedan"?`},
		{"pickup-larg", `unknown segment "pickup-larg"; did you mean "pickup-large"?`},
		{"wagn", `unknown segment "wagn"; did you mean "wagon" (estate)?`},
		{"Sport car", `unknown segment "Sport car"; did you mean "sports car" (sports)?`},
		{"lorry", `unknown segment "lorry"; want ` + allNames},
		{"", `unknown segment ""; want ` + allNames},
		{dir, dir + ": a directory; want a YAML file"},
		{dir + "/none.yaml", dir + "/none.yaml: no such file or directory"},
		{"none.yml", "none.yml: no such file or directory"},
	} {
		if p, err := Find(c.name); err == nil || err.Error() != c.want {
			t.Errorf("Find(%q) = %v, %v; want %s", c.name, p, err, c.want)
		}
	}
}

func TestFindPath(t *testing.T) {
	path := filepath.Join(t.TempDir(), "my-hatch.yaml")
	if err := os.WriteFile(path, []byte("extends: hatchback\ntitle: My hatch\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := Find(path)
	if err != nil || p.Name != "my-hatch" || p.Title != "My hatch" || p.Form != TwoBox {
		t.Errorf("Find(%q) = %+v, %v", path, p, err)
	}
	for name, want := range map[string]bool{"suv": true, "suv.yaml": false, "./suv": false, "a.yml": false, `a\b`: false, "": true} {
		if got := IsName(name); got != want {
			t.Errorf("IsName(%q) = %v; want %v", name, got, want)
		}
	}
}

// The percentiles that a basis quotes are those of the measured bodies on the segment's own tyre, to half its last digit.
func TestBasisAgainstBodies(t *testing.T) {
	bodies := map[string][]map[string]string{}
	for _, row := range outside.Rows(t, outside.Data(t, "measured-bodies.csv")) {
		name := row["segment"]
		if name == "pickup-fullsize" {
			name = "pickup-large"
		}
		bodies[name] = append(bodies[name], row)
	}
	quoted := regexp.MustCompile(`M (\d+) bodies[^:]*: (-?[\d.]+) / (-?[\d.]+) / (-?[\d.]+)`)
	checked := 0
	for _, name := range Names() {
		p, _ := Find(name)
		for figure, measure := range map[Figure]func(map[string]string) (mm, less float64){
			WheelsBetween: column(t, "wheelbase", 1), FrontOverhang: column(t, "front_overhang", .5), RearOverhang: column(t, "rear_overhang", .5),
			Height: column(t, "height", 0), Width: column(t, "width", 0), ScreenBase: screenBase(t),
		} {
			m := quoted.FindStringSubmatch(p.Figures[figure].Basis)
			if m == nil {
				continue
			}
			var x []float64
			for _, row := range bodies[name] {
				if mm, less := measure(row); !math.IsNaN(mm) {
					x = append(x, mm/float64(p.Wheel.Diameter)-less)
				}
			}
			slices.Sort(x)
			got := fmt.Sprintf("%d %.2f %.2f %.2f", len(x), percentile(x, .1), percentile(x, .5), percentile(x, .9))
			if want := strings.Join(m[1:], " "); got != want {
				t.Errorf("%s: basis of %s says %s; the bodies say %s", name, figure, want, got)
			}
			checked++
		}
	}
	if checked != 17*6 {
		t.Errorf("%d figures quote measured bodies; want %d", checked, 17*6)
	}
}

// screenBase reads the screen's base behind the front axle: from the front bumper to it, less the overhang before the axle.
func screenBase(t *testing.T) func(map[string]string) (float64, float64) {
	bumper, axle := column(t, "bumper_to_screen_base", 0), column(t, "front_overhang", 0)
	return func(row map[string]string) (float64, float64) {
		x, _ := bumper(row)
		before, _ := axle(row)
		return x - before, 0
	}
}

// column reads one column of the measured bodies, NaN where it is empty, and what to take off it in wheels.
func column(t *testing.T, name string, less float64) func(map[string]string) (float64, float64) {
	return func(row map[string]string) (float64, float64) {
		if row[name] == "" {
			return math.NaN(), less
		}
		return decimal(t, row[name]), less
	}
}

// percentile is of type 7: linear between the sorted values, ends included. Of no values it is NaN.
func percentile(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	at := share * float64(len(sorted)-1)
	i := int(at)
	if i+1 == len(sorted) {
		return sorted[i]
	}
	return sorted[i] + (sorted[i+1]-sorted[i])*(at-float64(i))
}

// Names are found in any case, and by the everyday words that the catalogue lists.
func TestFindByEverydayWords(t *testing.T) {
	for word, want := range map[string]string{
		"SUV": "suv", "Sedan Large": "sedan-large", "wagon": "estate", "Station Wagon": "estate", "station_wagon": "estate", "saloon": "sedan",

		"truck": "pickup", "Roadster": "convertible", "MPV": "minivan", "people carrier": "minivan", "People-Carrier": "minivan",
		"Coupé": "coupe", "4x4": "off-roader",
	} {
		if p, err := Find(word); err != nil || p.Name != want {
			t.Errorf("Find(%q) = %v, %v; want %s", word, p, err, want)
		}
	}
	for _, word := range []string{"", "-", " ", "station", "./wagon", "all"} {
		if p, err := Find(word); err == nil {
			t.Errorf("Find(%q) = %s; want an error", word, p.Name)
		}
	}
	if tweak, err := FindTweak("Cab Forward"); err != nil || tweak.Name != "cab-forward" {
		t.Errorf("FindTweak: %v, %v", tweak, err)
	}
}

// A word stands for one segment only, and no segment's name for another.
func TestAliasesAreUnique(t *testing.T) {
	seen := map[string]string{"all": "the command line"}
	for _, name := range Names() {
		seen[name] = name
	}
	for _, p := range All() {
		if len(p.Aliases) < 2 {
			t.Errorf("%s: %d aliases", p.Name, len(p.Aliases))
		}
		for _, alias := range p.Aliases {
			if other := seen[spelled(alias)]; other != "" || spelled(alias) == "" || !IsName(alias) {
				t.Errorf("%s: %q is taken by %q", p.Name, alias, other)
			}
			seen[spelled(alias)] = p.Name
		}
	}
}

// A hint stands behind no figure's own name, and names figures only.
func TestFigureHints(t *testing.T) {
	words := regexp.MustCompile(`did you mean|it follows from|[a-z-]+`)
	for word, hint := range figureHints() {
		if _, known := Lookup(word); known || FigureHint(word) != hint {
			t.Errorf("%s: a figure %v, with the hint %q; want none, %q", word, known, FigureHint(word), hint)
		}
		for _, name := range words.FindAllString(hint, -1)[1:] {
			if _, known := Lookup(name); !known && name != "and" && name != "or" {
				t.Errorf("%s: %q names %q, which is no figure", word, hint, name)
			}
		}
	}
}

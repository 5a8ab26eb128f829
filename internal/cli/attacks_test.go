package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// attack is a command that must be refused: its exit code and what it says. Its file, if any, is called f.yaml.
type attack struct {
	args, file string
	code       int
	want       string
}

// attacks are refused each in one line, and nothing is written.
var attacks = []attack{
	// Every number has an upper and a lower bound.
	{"draw suv --view perspective --distance 9500000m", "", 2, "hubrule: --distance: 9500000m; want 0.1w to 10000w, or 100mm to 7000000mm"},
	{"draw suv --view perspective --distance 10000000w", "", 2, "hubrule: --distance: 10000000w; want 0.1w to 10000w, or 100mm to 7000000mm"},
	{"draw suv --view perspective --eye 1000000000w --lens 15", "", 2, "hubrule: --eye: 1000000000w; want 0.02w to 1000w, or 20mm to 700000mm"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nview: perspective\neye: 100000000m\n", 1,
		"f.yaml:4:6: eye: 100000000m; want 0.02w to 1000w, or 20mm to 700000mm"},
	{"draw suv --view perspective --camera ./f.yaml", "kind: camera\ndistance: 9500000m\n", 1,
		"./f.yaml:2:11: distance: 9500000m; want 0.1w to 10000w, or 100mm to 7000000mm"},
	{"handout f.yaml", "kind: class\nstudents: 2\npages:\n  - {segment: suv, view: perspective, sheets: practice, distance: 9500000m}\n", 1,
		"f.yaml:4:67: pages[1].distance: 9500000m; want 0.1w to 10000w, or 100mm to 7000000mm"},
	{"draw suv --view perspective --turn=", "", 2, "hubrule: --turn: a value is missing"},

	{"draw f.yaml", "kind: brief\nsegment: suv\nsheets: overlay\nagainst: [suv+tough, sedan, van]\nalso: [{segment: van}, {segment: city}]\ncount: 9\n", 1,
		"f.yaml:6:8: count: goes with sheets: thumbnails"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nsheets: overlay\nagainst: [suv+tough, suv+sporty, sedan, van]\n", 1,
		"f.yaml:4:10: against: an overlay holds at most 4 vehicles; found 5"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nsheets: [spread]\nalso: [{segment: van}, {segment: city}, {segment: van}, {segment: van}, {segment: van}, {segment: van}]\n", 1,
		"f.yaml:3:9: sheets: a spread holds at most 6 vehicles; found 7"},
	{"draw suv van city van van van van --sheet spread", "", 2, "hubrule: a spread holds at most 6 vehicles; found 7"},

	// A file that is not there is reported where it is named.
	{"draw f.yaml", "kind: brief\nsegment: suv\nview: perspective\ncamera: ./no.yaml\n", 1, "f.yaml:4:9: camera: no.yaml: no such file or directory"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nsheets: overlay\nagainst: [van, ./no.yaml]\n", 1,
		"f.yaml:4:16: against[2]: no.yaml: no such file or directory"},
	{"draw suv --view perspective --camera ./f.yaml", "kind: camera\neye: 0w\n", 1, "./f.yaml:2:6: eye: 0w; want 0.02w to 1000w, or 20mm to 700000mm"},

	// A command has a bounded number of pages.
	{"handout f.yaml", "kind: class\nstudents: 10000\npages: [{segment: suv, sheets: [full, practice], copies: 100}]\n", 1,
		"hubrule: 2000000 pages; want 1 to 20000, or more with --max-pages"},
	{"draw suv --scale 1:2 --tile --max-pages 5", "", 1, "hubrule: 26 pages; want 1 to 5, or more with --max-pages"},
	{"draw suv --max-pages 0", "", 2, "hubrule: --max-pages: 0; want 1 to 10000000"},

	// A word is read in one way, and no value is passed over.
	{"draw suv --sheet thumbnails --count 0", "", 2, "hubrule: --count: 0; want 2 to 24"},
	{"draw suv --sheet thumbnails --count 012", "", 2, "hubrule: --count: 012; want a whole number, 2 to 24, without leading zeros"},
	{"draw suv --sheet thumbnails --count 0x10", "", 2, "hubrule: --count: 0x10; want a whole number, 2 to 24"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nsheets: thumbnails\ncount: 08\n", 1,
		"f.yaml:4:8: count: 08; want a whole number, 2 to 24, without leading zeros"},
	{"draw suv --portrait=t", "", 2, `hubrule: --portrait: "t"; want true or false`},
	{"draw f.yaml", "kind: brief\nsegment: suv\nframe: 1\n", 1, "f.yaml:3:8: frame: 1; want true or false"},
	{"draw suv --guides outline --outline=false", "", 2, "hubrule: --outline: the guide outline is among those to draw; give one of them"},
	{"draw f.yaml", "kind: brief\nsegment: suv\nguides: [checks]\nchecks: false\n", 1,
		"f.yaml:4:9: checks: the guide checks is among those to draw; give one of them"},
	{"draw suv --save=", "", 2, "hubrule: --save: a value is missing"},
	{"draw suv --paper A4 --paper A3", "", 2, "hubrule: --paper stands twice; want it once"},
	{"draw suv --title=", "", 2, "hubrule: --title: a value is missing"},
	{"draw suv --title=a\u202eb", "", 2, `hubrule: argument "--title=a\u202eb": a control character, '\u202e'; want letters on one line`},

	{"completion zhs", "", 2, `hubrule: unknown command "zhs"; did you mean "zsh"? want bash, fish, powershell or zsh`},
	{"completion zsh x", "", 2, "hubrule: completion takes no more words; found 1"},

	// The desk is not opened with what draw refuses.
	{"desk f.yaml --no-browser", "kind: brief\nsegment: suv\npin: {height: 9w}\n", 1, "f.yaml:3:15: pin.height: 9w; want 1w to 5w"},
	{"desk suvv", "", 2, `hubrule: unknown segment "suvv"; did you mean "suv"?`},
	{"desk suv --listen 8000", "", 2, "hubrule: --listen 8000: want ADDRESS:PORT, like 127.0.0.1:8000 or [::1]:8000"},
	{"desk ./f.yaml", "\x00\x00\x00\x18ftypheic", 1, "hubrule: ./f.yaml: HEIC, which is not read; save it as JPEG or PNG"},
	{"desk f.yaml", "kind: marks\nsize: [300, 200]\nmarks: {}\n", 1, "f.yaml:1:1: no facing; want facing: left or right, where the nose points"},
	{"desk suv van", "", 2, "hubrule: one file or segment at a time; found 2"},

	// The wrong file is not read aloud.
	{"draw ./f.yaml", "root:x:0:0:root:/root\ndaemon:x:1\n", 1, "./f.yaml:1:1: plain text; want a table of keys and values"},
}

func TestAttacks(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, a := range attacks {
		held := 0
		if os.Remove("f.yaml"); a.file != "" {
			held++
			if err := os.WriteFile("f.yaml", []byte(a.file), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		var errs bytes.Buffer
		code := Main(strings.Fields(a.args), nil, &errs, &errs)
		if code != a.code || errs.String() != a.want+"\n" {
			t.Errorf("%s: exit code %d, %swant %d, %s", a.args, code, &errs, a.code, a.want)
		}
		if left, _ := filepath.Glob("*"); len(left) != held {
			t.Errorf("%s: leaves %q", a.args, left)
		}
	}
}

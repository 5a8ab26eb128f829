package job

import (
	"os"
	"strings"
	"testing"
	"unicode"

	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// FuzzClass reads class files: whatever they hold, they are read or refused with plain words.
func FuzzClass(f *testing.F) {
	class, err := os.ReadFile("../../testdata/class/class.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(class)
	for _, text := range []string{
		"kind: class\ndate: 2026-11-25\nstudents: [Ada, {name: Bo, facing: right, set: 7}, {name: Cy, absent: true}]\nvary: 1\nseed: 4\npages:\n- {segment: suv, sheets: [practice], given: 2}\n",
		"kind: class\ntitle: x\ndate: 2026-11-25\nstudents: 3\nview: perspective\ncamera: front-quarter\nturn: 20\npages: [{segment: van, tweak: {roomy: .5}}, {segment: suv, against: [sedan+height=2w], sheets: overlay}]\n",
		"kind: class\nstudents: names.csv\npages: []\n",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file, jobs, err := LoadClass(nil, strict.Stdin, strings.NewReader(string(data)))
		if err == nil && (len(file.Pages) == 0 || len(jobs) != len(file.Pages)) {
			t.Errorf("%d pages, %d jobs", len(file.Pages), len(jobs))
		}
		plain(t, err)
	})
}

// FuzzCamera reads camera files; a camera that is let pass projects the wheels of a vehicle to where a drawing can have them, or says why
// not.
func FuzzCamera(f *testing.F) {
	for _, text := range []string{
		"kind: camera\nextends: front-quarter\nturn: 50\neye: 1.6m\ndistance: 12m\nlens: 85\ntilt: 2\n", "kind: camera\neye: 0w\n",
		"kind: camera\ndistance: 9000000m\n", "kind: camera\nextends: nope\nlens: 1e3\n",
	} {
		f.Add([]byte(text))
	}
	profile, err := segments.Find("suv")
	if err != nil {
		f.Fatal(err)
	}
	plan := layout.Typical(profile)
	wheels := view.NewSolid(plan).Wheels()
	f.Fuzz(func(t *testing.T, data []byte) {
		spec, err := readCamera(strict.Parse("f", data))
		if err != nil {
			plain(t, err)
			return
		}
		c, err := spec.Camera(plan)
		if err != nil {
			plain(t, err)
			return
		}
		for _, w := range wheels {
			image, err := c.WheelImage(w)
			if err != nil {
				plain(t, err)
			} else if at := image.Outer.Half; !(at.X > 0 && at.Y > 0 && at.X < 1e9 && at.Y < 1e9) {
				t.Errorf("%q: a wheel of half axes %v", data, at)
			}
		}
	})
}

// FuzzFlags gives settings as flags do, one a line: what is let pass is written as a brief and read back as the same brief.
func FuzzFlags(f *testing.F) {
	for _, text := range []string{
		"sheet=full,trace\npaper=A4\nportrait=true\nscale=1:20", "view=perspective\ncamera=front-low\nturn=-30.5\neye=1.2m\nlens=85",
		"paper=2732x2048px\ndpi=264\nink=grey\ntitle=Émile's", "sheet=thumbnails\ncount=12\nlabels=none", "sheet=overlay\nagainst=suv+height=2w,sedan+sporty",
		"guides=roof,wheels\nlegend=true\nunits=mm\nframe=true", "count=012", "title=\x1b[31m",
	} {
		f.Add(text)
	}
	profile, err := segments.Find("suv")
	if err != nil {
		f.Fatal(err)
	}
	plan := layout.Typical(profile)
	f.Fuzz(func(t *testing.T, text string) {
		if strings.Contains(text, "/") || strings.Contains(text, "camera=.") { // no files
			return
		}
		var r Reader
		for line := range strings.SplitSeq(text, "\n") {
			name, word, _ := strings.Cut(line, "=")
			s, known := Find(name)
			switch {
			case !known:
			case s.Name == "against":
				r.Flag(name, SplitVehicles([]string{word})...)
			default:
				r.Flag(name, word)
			}
		}
		j, err := r.Job()
		if err != nil {
			plain(t, err)
			return
		}
		j.Plans = []layout.Plan{plan}
		brief := Written(j.Request, nil)
		for _, c := range brief {
			if c != '\n' && unicode.IsControl(c) {
				t.Errorf("%q in %q", c, brief)
			}
		}
	})
}

// plain fails where an error has nothing to say, or far too much.
func plain(t *testing.T, err error) {
	t.Helper()
	if err != nil && (err.Error() == "" || len(err.Error()) > 1<<20) {
		t.Errorf("an error of %d bytes", len(err.Error()))
	}
}

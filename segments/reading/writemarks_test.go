package reading

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"hubrule/segments/strict"
)

// Every marks file that the program comes with is written so that it is read alike, and written again as it was.
func TestYAMLOfMarks(t *testing.T) {
	var paths []string
	for _, pattern := range []string{testdata + "/*.yaml", "../../docs/examples/school/sketch.yaml", "../../docs/examples/school/photos/*.yaml",
		"../../docs/examples/school/sketches/*.yaml"} {
		found, _ := filepath.Glob(pattern) // a pattern of ours
		paths = append(paths, found...)
	}
	if len(paths) < 20 {
		t.Fatalf("%d marks files; want those of the examples", len(paths))
	}
	for _, path := range paths {
		file, err := LoadMarks(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		text := file.YAML()
		again, err := ReadMarks(nil, path, strict.Parse(path, []byte(text)))
		if err != nil {
			t.Fatalf("%s: %v in\n%s", path, err, text)
		}
		if again.YAML() != text {
			t.Errorf("%s is written again as\n%s", path, again.YAML())
		}
		was, one := file.Reading()
		is, two := again.Reading()
		was.Picture, is.Picture = nil, nil // they differ in the places of their marks
		if one != nil || two != nil || !reflect.DeepEqual(was, is) {
			t.Errorf("%s is read otherwise once it was written: %v, %v\n%s", path, one, two, text)
		}
	}
}

// Whatever a marks file says, quotes and tables too, is read alike once it was written.
func TestYAMLKeepsWhatWasGiven(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(testdata, "plain-exact.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	all := strings.NewReplacer("marks:\n", `student: "Zoë: 'a' \"#1"
wheelbase: 2.803m
distance: 1600cm
eye-height: "1400 mm"
like: suv
cropped: true
rear-tyre: "225/50 R17"
hidden: [chin, far-rear]
marks:
  deck: {at: [1300.25, 800], pm: 6, inboard: 0.2w}
  sill: [1501, 1233]
`, "  belt: [[", "  rear-lamp: [[2600, 900], [2601, 950]]\n  belt: [[", "  sill: [1501.5695, 1233.0164]\n", "").Replace(string(text))
	file, err := ReadMarks(nil, "all.yaml", strict.Parse("all.yaml", []byte(all)))
	if err != nil {
		t.Fatalf("%v in\n%s", err, all)
	}
	again, err := ReadMarks(nil, "all.yaml", strict.Parse("all.yaml", []byte(file.YAML())))
	again.Marks.studentPlace = file.Marks.studentPlace
	if err != nil || !reflect.DeepEqual(again.Marks, file.Marks) {
		t.Errorf("%v: written as\n%s", err, file.YAML())
	}
	for _, line := range []string{"wheelbase: 2.803m", "hidden: [chin, far-rear]", "distance: 1600cm", "like: suv", "  deck: {at: [1300.25, 800], pm: 6, inboard: 0.2w}",
		"  rear-lamp: [[2601, 950], [2600, 900]]", `student: "Zoë: 'a' \"#1"`} {
		if !strings.Contains(file.YAML(), line+"\n") {
			t.Errorf("no line %s in\n%s", line, file.YAML())
		}
	}
}

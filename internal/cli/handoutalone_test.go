package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// splitFiles writes a class of some students, split into files of a format, and returns their contents by name.
func splitFiles(t *testing.T, format string, students []string, args ...string) map[string]string {
	t.Helper()
	pages := map[string]string{ // what takes long is drawn in one of the formats
		"svg": "  - {segment: suv, sheets: [full, steps, practice]}\n",
		"pdf": "  - {segment: suv, sheets: [steps, practice]}\n  - {segment: van, view: perspective, sheets: [practice]}\n",
	}
	class := classFile(t, "kind: class\ntitle: Week 3\nvary: 0.8\nseed: 11\nstudents:\n  - "+strings.Join(students, "\n  - ")+
		"\npages:\n"+pages[format]+"  - {segment: sedan, tweak: {sporty: 0.5}, pin: {length: 4.7m}, sheets: [trace], copies: 2}\n")
	folder := filepath.Join(t.TempDir(), "each")
	var errs bytes.Buffer
	args = append([]string{"handout", class, "--split", folder, "--format", format}, args...)
	if code := Main(args, nil, &errs, &errs); code != exitDone {
		t.Fatalf("exit code %d: %s", code, &errs)
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[e.Name()] = string(data)
	}
	return out
}

// TestNobodyChangesTheOthers: whoever leaves, joins, moves in the list, is excused or draws anew, the files of all the others stay as they
// were, byte for byte.
func TestNobodyChangesTheOthers(t *testing.T) {
	t.Parallel()
	class := []string{"Ada Marlow", "{name: Bo Ilves, facing: right}", "Chidi Okoro", "Dana", "Émile Roux"}
	shuffled := []string{class[3], class[1], class[4], class[0], class[2]}
	excused := slices.Clone(class)
	excused[1] = "{name: Bo Ilves, facing: right, absent: true}"
	again := slices.Clone(class)
	again[2] = "{name: Chidi Okoro, set: 7}"
	for _, format := range []string{"svg", "pdf"} {
		perStudent := map[string]int{"svg": 5, "pdf": 1}[format]
		before := splitFiles(t, format, class)
		if len(before) != 5*perStudent {
			t.Fatalf("%s: %d files", format, len(before))
		}
		for _, c := range []struct {
			what     string
			students []string
			args     []string
			others   int    // whose files stay
			changed  string // stem of the files that may differ
			inPDF    bool   // tried with PDFs too
		}{
			{"one removed", class[1:], nil, 4, "", true},
			{"the only one who faces right removed", slices.Delete(slices.Clone(class), 1, 2), nil, 4, "", false},
			{"two added", append([]string{"Aaron With A Rather Long Name", "{name: Zoe, facing: right}"}, class...), nil, 5, "", true},
			{"shuffled", shuffled, nil, 5, "", false},
			{"one excused", excused, nil, 4, "", false},
			{"another draw for one", again, nil, 4, "Chidi-Okoro", true},
			{"one alone", class, []string{"--only", "chidi okoro"}, 1, "", true},
			{"two alone, one of them excused", excused, []string{"--only", "Dana,Bo Ilves"}, 2, "", false},
		} {
			if format == "pdf" && !c.inPDF {
				continue
			}
			same, after := 0, splitFiles(t, format, c.students, c.args...)
			for name, data := range before {
				now, ok := after[name]
				switch mayChange := c.changed != "" && strings.HasPrefix(name, c.changed); {
				case !ok:
				case now == data:
					same++
				case !mayChange:
					t.Errorf("%s: %s changed", c.what, name)
				}
			}
			// The steps beside a practice sheet show the class's own vehicle, so they stay where one is drawn anew.
			if c.changed != "" && format == "svg" {
				if after["Chidi-Okoro-3.svg"] == before["Chidi-Okoro-3.svg"] || after["Chidi-Okoro-4.svg"] == before["Chidi-Okoro-4.svg"] {
					t.Errorf("%s: the sheets are the same", c.what)
				}
				same -= 2
			}
			if same != c.others*perStudent {
				t.Errorf("%s, %s: %d files stayed, want %d", c.what, format, same, c.others*perStudent)
			}
		}
	}
}

// TestNumberedStudents: without names the number decides, so a larger class only adds to a smaller one.
func TestNumberedStudents(t *testing.T) {
	t.Parallel()
	files := map[int]map[string]string{}
	for _, n := range []int{3, 12} {
		class := classFile(t, fmt.Sprintf("kind: class\nvary: 1\nstudents: %d\npages: [{segment: suv, sheets: [trace]}]\n", n))
		folder := filepath.Join(t.TempDir(), "each")
		var errs bytes.Buffer
		if code := Main([]string{"handout", class, "--split", folder, "--format", "svg"}, nil, &errs, &errs); code != exitDone {
			t.Fatalf("exit code %d: %s", code, &errs)
		}
		files[n] = map[string]string{}
		for i := range 3 {
			name := fmt.Sprintf("student-%02d-1.svg", i+1)
			data, err := os.ReadFile(filepath.Join(folder, name))
			if err != nil {
				t.Fatal(err)
			}
			files[n][name] = string(data)
		}
	}
	for name, data := range files[3] {
		if files[12][name] != data {
			t.Errorf("%s changed", name)
		}
	}
}

package reading

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// FuzzMarks: whatever a marks file says, it is read or refused, soon, and with a reason.
func FuzzMarks(f *testing.F) {
	for _, name := range []string{"plain", "focal-yaw", "far-no-lens", "sunk-right", "round"} {
		text, err := os.ReadFile(filepath.Join(testdata, name+"-noisy.yaml"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
		f.Add(string(text[:len(text)*2/3]))
	}
	text, err := os.ReadFile(filepath.Join(testdata, "plain-exact.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	for old, new := range map[string]string{
		"focal:": "distance:", "marks:": "on-sheet: {paper: A3, left: [10, 900], top: [1500, 20], right: [2990, 900], bottom: [1500, 1990]}\nmarks:",
		"658mm": "6e300mm", "[3000, 2000]": "[101, 20000]", "[[": "[[.nan, ", ", ": ",0", "round:": "cropped: true\n#",
	} {
		f.Add(strings.Replace(string(text), old, new, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		began := time.Now()
		file, err := LoadMarks("-", bytes.NewReader([]byte(text)))
		if err == nil {
			if file.Marks.Picture != "" {
				return // pictures have targets of their own
			}
			_, err = file.Reading()
		}
		if err != nil && strings.TrimSpace(err.Error()) == "" {
			t.Error("refused without a reason")
		}
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

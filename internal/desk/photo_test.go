package desk_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// marksFiles are marks files of many kinds: photographs to both sides with and without a lens, and a sketch on its sheet.
func marksFiles(t testing.TB) (paths []string) {
	t.Helper()
	for _, pattern := range []string{"../../testdata/reading/*.yaml", "../../docs/examples/school/photos/*.yaml", "../../docs/examples/school/sketch.yaml"} {
		found, _ := filepath.Glob(pattern) // a pattern of ours
		paths = append(paths, found...)
	}
	if len(paths) < 15 {
		t.Fatalf("%d marks files", len(paths))
	}
	for i := range paths {
		paths[i], _ = filepath.Abs(paths[i]) // the working directory is known
	}
	return paths
}

// marksAs is what a page has of a marks file: its keys in JSON without its kind, and its name.
func marksAs(t testing.TB, path string) (marks, name string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var keys map[string]any
	if err := yaml.Unmarshal(text, &keys); err != nil {
		t.Fatal(err)
	}
	delete(keys, "kind")
	data, err := json.Marshal(keys)
	if err != nil {
		t.Fatal(err)
	}
	return string(data), strings.TrimSuffix(filepath.Base(path), ".yaml")
}

// read is the answer of /read.
type readAnswer struct {
	Reading     json.RawMessage
	Head        string
	SkewWords   string `json:"skew-words"`
	Ranking     string
	Differences []struct{ Figure, Words string }
	Moves       []string
	Unsure      []string
	Sheet       *struct {
		Width, Height float64
		SVG           string
		Words         []struct {
			Figure, Anchor string
			X, Y, Size     float64
			Spans          []struct{ Text string }
		}
		Box           []float64
	}
}

// TestReadAsTheCommand: a reading is the very bytes of read --format json but for their spaces, alone and held against a segment and a brief,
// and its sentences are those of the table.
func TestReadAsTheCommand(t *testing.T) {
	c := open(t, "", false)
	brief := filepath.Join(t.TempDir(), "suv.yaml")
	if err := os.WriteFile(brief, []byte("kind: brief\nsegment: suv\ntweak: {sporty: 1}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for i, path := range marksFiles(t) {
		marks, name := marksAs(t, path)
		call := [][]string{{""}, {`, "against": "hatchback"`, "--against", "hatchback"},
			{`, "against": {"segment": "suv", "tweak": {"sporty": 1}}`, "--against", brief}}[i%3]
		var got readAnswer
		c.ask("POST", "/read", fmt.Sprintf(`{"marks": %s, "name": %q%s}`, marks, name, call[0]), &got)
		t.Chdir(filepath.Dir(path))
		var want bytes.Buffer
		if err := json.Compact(&want, run(t, append([]string{"read", name + ".yaml", "--format", "json"}, call[1:]...)...)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Reading, want.Bytes()) {
			t.Errorf("%s is read as\n%s\nwant\n%s", path, got.Reading, &want)
		}
		table := string(run(t, append([]string{"read", name + ".yaml"}, call[1:]...)...))
		lines := strings.Split(table, "\n")
		if lines[0] != got.Head || got.Ranking == "" || !strings.Contains(table, "\n"+got.Ranking+"\n") || got.SkewWords != "" && lines[1] != got.SkewWords {
			t.Errorf("%s: %q, %q and %q stand not in\n%s", path, got.Head, got.SkewWords, got.Ranking, table)
		}
		if (got.Differences != nil) != (len(call) > 1) || (got.Moves != nil) != (len(call) > 1) {
			t.Errorf("%s with%s: differences %v, moves %v", path, call[0], got.Differences, got.Moves)
		}
		for _, d := range got.Differences {
			if d.Words == "" || !strings.Contains(table, d.Words) {
				t.Errorf("%s: %v stands not in\n%s", path, d, table)
			}
		}
	}
}

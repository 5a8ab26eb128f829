package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// What a run that was killed left behind does not stand in the way, though the process ids be the same.
func TestLeftOverPart(t *testing.T) {
	folder := t.TempDir()
	part := filepath.Join(folder, fmt.Sprintf(".hubrule-%d-0.part", os.Getpid()))
	if err := os.WriteFile(part, []byte("left over"), 0o666); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "suv.svg")
	if err := writeAll([]output{{path, []byte("new")}}); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "new" {
		t.Errorf("suv.svg holds %q, %v, want %q", got, err, "new")
	}
	if got, err := os.ReadFile(part); err != nil || string(got) != "left over" {
		t.Errorf("somebody else's part holds %q, %v; want it untouched", got, err)
	}
}

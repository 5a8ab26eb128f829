package cli

import (
	"errors"
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
	if err := writeAll([]output{{path, []byte("new")}}, nothing); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "new" {
		t.Errorf("suv.svg holds %q, %v, want %q", got, err, "new")
	}
	if got, err := os.ReadFile(part); err != nil || string(got) != "left over" {
		t.Errorf("somebody else's part holds %q, %v; want it untouched", got, err)
	}
}

func nothing() error { return nil }

// When one of several files cannot be put in its place, or standard output fails, the others are as they were.
func TestAllFilesOrNone(t *testing.T) {
	folder := t.TempDir()
	old, fresh, blocked := filepath.Join(folder, "old.svg"), filepath.Join(folder, "fresh.svg"), filepath.Join(folder, "blocked.svg")
	if err := os.WriteFile(old, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	files := []output{{old, []byte("new")}, {fresh, []byte("new")}, {blocked, []byte("new")}}
	for what, stream := range map[string]func() error{
		// A folder that turns up under the last name after everything was staged.
		"a rename fails":        func() error { return os.MkdirAll(filepath.Join(blocked, "in"), 0o777) },
		"standard output fails": func() error { return errors.New("full") },
	} {
		if err := writeAll(files, stream); err == nil {
			t.Errorf("%s: no error", what)
		}
		if got, _ := os.ReadFile(old); string(got) != "old" {
			t.Errorf("%s: the old file holds %q", what, got)
		}
		os.RemoveAll(blocked)
		left, err := os.ReadDir(folder)
		if err != nil || len(left) != 1 {
			t.Errorf("%s: left over: %v, %v", what, left, err)
		}
	}
	if err := writeAll(files, nothing); err != nil {
		t.Fatal(err)
	}
	if left, _ := os.ReadDir(folder); len(left) != 3 {
		t.Errorf("files: %v", left)
	}
}

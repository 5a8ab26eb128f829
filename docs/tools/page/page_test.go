package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestDist: the files of dist are what the sources give, so that what is served was never edited by hand.
func TestDist(t *testing.T) {
	files, err := bundle(source)
	if err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(filepath.Join(source, "dist"))
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(files) || len(files) != 3 {
		t.Errorf("dist has %d files, the bundle %d; want 3", len(entries), len(files))
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(source, "dist", name))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("dist/%s is stale (%v): run go generate ./internal/desk", name, err)
		}
		if len(want) == 0 {
			t.Errorf("dist/%s is empty", name)
		}
	}
}

// TestTypes: the page's types hold. The bundler strips types without reading them.
func TestTypes(t *testing.T) {
	tsc, err := exec.LookPath("tsc")
	if err != nil {
		if os.Getenv("HUBRULE_STRICT") != "" {
			t.Fatal(err)
		}
		t.Skip("tsc is missing: types are not checked")
	}
	if out, err := exec.Command(tsc, "-p", source).CombinedOutput(); err != nil {
		t.Errorf("tsc: %v\n%s", err, out)
	}
}

package docs

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// texts lists every text of the project, by its path from here.
func texts(t *testing.T) []string {
	t.Helper()
	found, err := filepath.Glob("../*.md")
	if err != nil {
		t.Fatal(err)
	}
	err = filepath.WalkDir(".", func(path string, _ fs.DirEntry, err error) error {
		if strings.HasSuffix(path, ".md") {
			found = append(found, path)
		}
		return err
	})
	if err != nil || len(found) < 5 {
		t.Fatalf("texts %v (%v)", found, err)
	}
	return found
}

var link = regexp.MustCompile(`\]\(([^)#]+)(#[^)]*)?\)`)

// Every link to a file of the project leads to one.
func TestLinks(t *testing.T) {
	for _, text := range texts(t) {
		data, err := os.ReadFile(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range link.FindAllStringSubmatch(string(data), -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(filepath.Dir(text), m[1])); err != nil {
				t.Errorf("%s links to %s, which is not there", text, m[1])
			}
		}
	}
}

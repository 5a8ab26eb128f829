package outside

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// Rows reads a CSV file whose comments start with #; the first row names the columns.
func Rows(t testing.TB, path string) []map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", filepath.Base(path), err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, name := range rows[0] {
			named[name] = row[i]
		}
		out = append(out, named)
	}
	return out
}

// Data returns the path of a file in the folder that HUBRULE_DATA names. It skips the test where the variable is unset, and fails it
// where the folder lacks the file.
func Data(t testing.TB, file string) string {
	t.Helper()
	folder := os.Getenv("HUBRULE_DATA")
	if folder == "" {
		t.Skipf("skipped: HUBRULE_DATA names no folder with %s", file)
	}
	path := filepath.Join(folder, file)
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("HUBRULE_DATA: %v", err)
	}
	return path
}

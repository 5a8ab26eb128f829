package outside_test

import (
	"path/filepath"
	"strings"
	"testing"

	"hubrule/internal/outside"
)

func TestRunReadsAFile(t *testing.T) {
	outside.Need(t, "cat")
	path := outside.File(t, "words.txt", []byte("wheels between\n"))
	if got := string(outside.Run(t, "cat", path)); got != "wheels between\n" {
		t.Errorf("cat gives %q", got)
	}
	if !strings.HasSuffix(path, "words.txt") {
		t.Errorf("the file is called %s", path)
	}
}

// recorder stands in for a test, to see whether it would be skipped or failed: the first of both ends a test.
type recorder struct {
	testing.TB
	skipped, failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Skipf(string, ...any)  { r.skipped = !r.failed }
func (r *recorder) Fatalf(string, ...any) { r.failed = !r.skipped }

func TestNeedOfWhatIsMissing(t *testing.T) {
	for _, strict := range []string{"", "1"} {
		t.Setenv("HUBRULE_STRICT", strict)
		var r recorder
		outside.Need(&r, "no-such-program-anywhere")
		if r.failed != (strict == "1") || strict == "" && !r.skipped {
			t.Errorf("HUBRULE_STRICT=%q: failed %v, skipped %v", strict, r.failed, r.skipped)
		}
	}
}

func TestDataOfWhatIsMissing(t *testing.T) {
	folder := filepath.Dir(outside.File(t, "cars.csv", []byte("name\n")))
	for _, tt := range []struct {
		folder, file    string
		skipped, failed bool
	}{
		{"", "cars.csv", true, false},
		{folder, "cars.csv", false, false},
		{folder, "vans.csv", false, true},
	} {
		t.Setenv("HUBRULE_DATA", tt.folder)
		var r recorder
		path := outside.Data(&r, tt.file)
		if r.skipped != tt.skipped || r.failed != tt.failed || tt.folder != "" && path != filepath.Join(tt.folder, tt.file) {
			t.Errorf("HUBRULE_DATA=%q: %s: path %q, skipped %v, failed %v", tt.folder, tt.file, path, r.skipped, r.failed)
		}
	}
}

package outside_test

import (
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

// recorder stands in for a test, to see whether it would be skipped or failed.
type recorder struct {
	testing.TB
	skipped, failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Skipf(string, ...any)  { r.skipped = true }
func (r *recorder) Fatalf(string, ...any) { r.failed = true }

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

// Package outside lets tests ask programs that others wrote about the files that ours wrote.
//
// Where such a program is not installed a test says so and is skipped; with HUBRULE_STRICT=1 in the
// environment, as `make test` sets it, a missing program is a failure.
package outside

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Need skips or fails t when one of the programs is not installed.
func Need(t testing.TB, programs ...string) {
	t.Helper()
	for _, program := range programs {
		if _, err := exec.LookPath(program); err == nil {
			continue
		}
		if os.Getenv("HUBRULE_STRICT") == "1" {
			t.Fatalf("%s is not installed; make test installs it on Debian", program)
		}
		t.Skipf("%s is not installed", program)
	}
}

// Oracle skips t unless HUBRULE_ORACLE=1: it needs heavy programs or much time, and runs in `make oracle`.
func Oracle(t testing.TB, programs ...string) {
	t.Helper()
	if os.Getenv("HUBRULE_ORACLE") != "1" {
		t.Skip("runs in make oracle only")
	}
	Need(t, programs...)
}

// Run runs a program and returns its standard output. It fails t when the program does.
func Run(t testing.TB, program string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command(program, args...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s%s", program, args, err, out, stderr.Bytes())
	}
	return out
}

// File writes data under a name into a folder of the test's own and returns its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

//go:build unix

package cli

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"hubrule/internal/outside"
)

// largeClass writes a class file that takes a while to draw and returns its path.
func largeClass(t *testing.T, folder string, students int) string {
	t.Helper()
	path := filepath.Join(folder, "large.yaml")
	text := fmt.Sprintf("kind: class\nstudents: %d\nvary: 0.5\npages: [{segment: suv, sheets: [practice, trace]}]\n", students)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// hubrule is a command of the test's own program, which runs the command line when it is called so.
func hubrule(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "hubrule")
	if err := os.Symlink(self, link); err != nil {
		t.Fatal(err)
	}
	return exec.Command(link, args...)
}

// contents lists a folder's files but for parts, and what each holds.
func contents(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		if data, err := os.ReadFile(filepath.Join(folder, e.Name())); err == nil {
			out[e.Name()] = string(data)
		}
	}
	return out
}

// TestInterrupted: asked to end at any moment, a handout leaves the old files or the new ones whole, and nothing else.
func TestInterrupted(t *testing.T) {
	outside.Need(t, "qpdf")
	r := rand.New(rand.NewPCG(5, 5))
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM, os.Kill} {
		ended := map[bool]int{}
		for range 6 {
			folder := t.TempDir()
			class := largeClass(t, folder, 300)
			sheets, key := filepath.Join(folder, "sheets.pdf"), filepath.Join(folder, "key.pdf")
			if err := os.WriteFile(sheets, []byte("old"), 0o666); err != nil {
				t.Fatal(err)
			}
			c := hubrule(t, "handout", class, "-o", sheets, "--answers-to", key)
			var errs bytes.Buffer
			c.Stderr = &errs
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(time.Duration(5+r.IntN(200)) * time.Millisecond)
			c.Process.Signal(signal)
			err := c.Wait()
			ended[err == nil]++
			left := contents(t, folder)
			switch {
			case c.ProcessState.ExitCode() < 0: // before it listened to signals
			case err != nil && signal != os.Kill && errs.String() != "hubrule: interrupted; nothing was written\n":
				t.Errorf("%v: said %q", signal, errs.String())
			}
			if err != nil && signal != os.Kill && len(left) != 2 {
				t.Errorf("%v: left %d files", signal, len(left))
			}
			if left["sheets.pdf"] == "old" {
				if key, there := left["key.pdf"]; there && signal != os.Kill {
					t.Errorf("%v: the key is there (%d bytes) and the sheets are not", signal, len(key))
				}
				continue
			}
			outside.Run(t, "qpdf", "--check", sheets)
		}
		t.Logf("%v: %d ended by it, %d were done before", signal, ended[false], ended[true])
	}
}

// TestDiskIsFull: when there is no more room for a file, the old one stays and nothing is left over.
func TestDiskIsFull(t *testing.T) {
	outside.Need(t, "sh")
	for _, what := range []string{"sheets.pdf", "--split"} {
		folder := t.TempDir()
		class := largeClass(t, folder, 40)
		sheets := filepath.Join(folder, "sheets.pdf")
		if err := os.WriteFile(sheets, []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		args := []string{"handout", class, "-o", sheets}
		if what == "--split" {
			args = []string{"handout", class, "--split", filepath.Join(folder, "each"), "--answers-to", filepath.Join(folder, "key.pdf")}
		}
		c := hubrule(t, args...)
		// Files may have 16 KiB (32 blocks of 512); Go programs are told by an error, not by the signal.
		limited := exec.Command("sh", append([]string{"-c", `ulimit -f 32; exec "$@"`, "sh"}, c.Args...)...)
		limited.Args[4] = c.Path
		said, err := limited.CombinedOutput()
		if err == nil || !strings.Contains(string(said), "file too large") {
			t.Errorf("%s: %v, %s", what, err, said)
		}
		left := contents(t, folder)
		if len(left) != 2 || left["sheets.pdf"] != "old" {
			t.Errorf("%s: left %d files", what, len(left))
		}
		if _, err := os.Stat(filepath.Join(folder, "each")); err == nil {
			t.Errorf("%s: the folder is left", what)
		}
	}
}

// TestNowhereToWrite: a full device, a closed pipe and a folder that nobody may write into are told.
func TestNowhereToWrite(t *testing.T) {
	folder := t.TempDir()
	class := largeClass(t, folder, 2)
	for _, c := range []struct{ script, want string }{
		{`"$0" handout "$1" -o - >/dev/full`, "hubrule: cannot write to standard output: no space left on device\n"},
		{`"$0" handout "$1" -o "$2/full.pdf"`, "no space left on device\n"},
		{`"$0" handout "$1" -o "$2/nowhere/sheets.pdf"`, "no such file or directory\n"},
		{`"$0" handout "$1" --split "$2/nowhere/each"`, "no such file or directory\n"},
		{`"$0" handout "$1" --split "$1"`, "it is no folder\n"},
	} {
		os.Remove(filepath.Join(folder, "full.pdf"))
		if err := os.Symlink("/dev/full", filepath.Join(folder, "full.pdf")); err != nil {
			t.Fatal(err)
		}
		h := hubrule(t)
		said, err := exec.Command("sh", "-c", c.script, h.Path, class, folder).CombinedOutput()
		if err == nil || !strings.HasSuffix(string(said), c.want) {
			t.Errorf("%s: %v, %q; want %q", c.script, err, said, c.want)
		}
	}
}

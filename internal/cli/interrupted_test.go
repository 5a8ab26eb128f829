//go:build unix

package cli

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
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

// contents lists a folder's files, hidden ones too, and what each holds; of what is no regular file nothing.
func contents(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		var data []byte
		if e.Type().IsRegular() {
			data, _ = os.ReadFile(filepath.Join(folder, e.Name()))
		}
		out[e.Name()] = string(data)
	}
	return out
}

// TestInterrupted: asked to end at any moment, a command leaves the old files or the new ones whole, and nothing else.
func TestInterrupted(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf")
	r := rand.New(rand.NewPCG(5, 5))
	for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGKILL} {
		ended := map[bool]int{}
		for n := range 6 {
			folder := t.TempDir()
			class := largeClass(t, folder, 60)
			sheets, key := filepath.Join(folder, "sheets.pdf"), filepath.Join(folder, "key.pdf")
			if err := os.WriteFile(sheets, []byte("old"), 0o666); err != nil {
				t.Fatal(err)
			}
			c := hubrule(t, "handout", class, "-o", sheets, "--answers-to", key, "--force")
			longest := 150
			if n%2 == 0 {
				c = hubrule(t, "draw", "suv", "van", "sedan", "--sheet", "full,trace", "-o", sheets, "-o", key, "--force")
				longest = 60
			}
			var errs bytes.Buffer
			c.Stderr = &errs
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(time.Duration(5+r.IntN(longest)) * time.Millisecond)
			c.Process.Signal(signal)
			err := c.Wait()
			ended[err == nil]++
			left := contents(t, folder)
			if left["sheets.pdf"] != "old" {
				outside.Run(t, "qpdf", "--check", sheets)
			}
			if signal == syscall.SIGKILL {
				continue
			}
			delete(left, "large.yaml")
			// A signal may end the process before it listens.
			if code := c.ProcessState.ExitCode(); err != nil && code >= 0 && errs.String() != "hubrule: interrupted; nothing was written\n" {
				t.Errorf("%v: exit code %d, said %q", signal, code, errs.String())
			}
			if err != nil && (len(left) != 1 || left["sheets.pdf"] != "old") || err == nil && len(left) != 2 {
				t.Errorf("%v: %v, but left %q", signal, err, slices.Sorted(maps.Keys(left)))
			}
		}
		t.Logf("%v: %d ended by it, %d were done before", signal, ended[false], ended[true])
	}
}

// TestInterruptedWhileBlocked: a signal ends a command that waits for a reader, and the message says whether anything was sent.
func TestInterruptedWhileBlocked(t *testing.T) {
	t.Parallel()
	const sent = "no file was written, but some output may have been sent"
	for _, c := range []struct{ args, want string }{
		{"draw suv -o key.pdf -o pipe.svg --force", "nothing was written"},
		{"draw suv --dpi 200 -o key.pdf -o - --format png --force", sent},
		{"handout large.yaml -o - --answers-to key.pdf --force", sent},
	} {
		folder := t.TempDir()
		largeClass(t, folder, 20)
		if err := os.WriteFile(filepath.Join(folder, "key.pdf"), []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		if err := syscall.Mkfifo(filepath.Join(folder, "pipe.svg"), 0o666); err != nil {
			t.Fatal(err)
		}
		before := contents(t, folder)
		h := hubrule(t, strings.Fields(c.args)...)
		h.Dir = folder
		var errs bytes.Buffer
		h.Stderr = &errs
		out, err := h.StdoutPipe()
		if err == nil {
			err = h.Start()
		}
		if err != nil {
			t.Fatal(err)
		}
		if c.want == sent { // the rest does not fit into the pipe
			if _, err := out.Read(make([]byte, 1)); err != nil {
				t.Error(err)
			}
		} else {
			waitFor(t, func() bool { return len(contents(t, folder)) > len(before) })
		}
		h.Process.Signal(syscall.SIGTERM)
		stuck := time.AfterFunc(20*time.Second, func() { h.Process.Kill() })
		h.Wait()
		stuck.Stop()
		if code := h.ProcessState.ExitCode(); code != exitInput || errs.String() != "hubrule: interrupted; "+c.want+"\n" {
			t.Errorf("%q: exit code %d, said %q", c.args, code, errs.String())
		}
		if left := contents(t, folder); !maps.Equal(left, before) {
			t.Errorf("%q: left %q", c.args, slices.Sorted(maps.Keys(left)))
		}
	}
}

// waitFor waits until something is so.
func waitFor(t *testing.T, is func() bool) {
	t.Helper()
	for end := time.Now().Add(30 * time.Second); !is(); {
		if time.Now().After(end) {
			t.Fatal("waited in vain")
		}
	}
}

// TestInterruptedWhileRenaming: once the first file is in place all are, and the message agrees.
func TestInterruptedWhileRenaming(t *testing.T) {
	t.Parallel()
	const students = 60
	folder := t.TempDir()
	each := filepath.Join(folder, "each")
	if err := os.Mkdir(each, 0o777); err != nil {
		t.Fatal(err)
	}
	first := filepath.Join(each, "student-01.pdf")
	c := hubrule(t, "handout", largeClass(t, folder, students), "--split", each)
	var errs bytes.Buffer
	c.Stderr = &errs
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	waitFor(t, func() bool { _, err := os.Stat(first); return err == nil })
	c.Process.Signal(syscall.SIGTERM)
	c.Wait()
	// A signal may end the process when it no longer listens and has said everything.
	if code := c.ProcessState.ExitCode(); code > 0 || !strings.HasPrefix(errs.String(), fmt.Sprintf("wrote %d files into %s (", students, each)) {
		t.Errorf("exit code %d, said %q", code, errs.String())
	}
	if left := contents(t, each); len(left) != students {
		t.Errorf("%d files are left, want %d", len(left), students)
	}
}

// TestIgnoredSignals: what nohup ignores stays ignored.
func TestIgnoredSignals(t *testing.T) {
	t.Parallel()
	outside.Need(t, "sh")
	folder := t.TempDir()
	h := hubrule(t, "handout", largeClass(t, folder, 40), "-o", filepath.Join(folder, "sheets.pdf"))
	c := exec.Command("sh", append([]string{"-c", `trap "" HUP; exec "$@"`, "sh"}, h.Path)...)
	c.Args = append(c.Args, h.Args[1:]...)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	waitFor(t, func() bool { return len(contents(t, folder)) > 1 })
	c.Process.Signal(syscall.SIGHUP)
	if err := c.Wait(); err != nil || len(contents(t, folder)) != 2 {
		t.Errorf("%v", err)
	}
}

// TestDiskIsFull: when there is no more room for a file, the old one stays and nothing is left over.
func TestDiskIsFull(t *testing.T) {
	t.Parallel()
	outside.Need(t, "sh")
	for _, what := range []string{"sheets.pdf", "--split"} {
		folder := t.TempDir()
		class := largeClass(t, folder, 40)
		sheets := filepath.Join(folder, "sheets.pdf")
		if err := os.WriteFile(sheets, []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		args := []string{"handout", class, "-o", sheets, "--force"}
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

// TestReaderIsGone: a closed pipe and a full device make every command fail, and it leaves nothing, not even the key of a class.
func TestReaderIsGone(t *testing.T) {
	t.Parallel()
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	unread, closed, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	unread.Close()
	defer closed.Close()
	folder := t.TempDir()
	largeClass(t, folder, 3)
	if err := os.WriteFile(filepath.Join(folder, "old.pdf"), []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	before := contents(t, folder)
	for _, args := range [][]string{
		{"handout", "large.yaml", "-o", "-", "--answers-to", "key.pdf"},
		{"draw", "suv", "-o", "old.pdf", "-o", "new.pdf", "-o", "-", "--format", "pdf", "--save", "suv.yaml", "--force"},
		{"figures", "suv"}, {"figures", "suv", "--format", "json"}, {"figures", "suv", "--format", "csv"},
		{"segments"}, {"segments", "suv"}, {"tweaks"}, {"tweaks", "sporty"}, {"draw", "--help"},
	} {
		for out, why := range map[*os.File]string{full: "no space left on device", closed: "broken pipe"} {
			c := hubrule(t, args...)
			var errs bytes.Buffer
			c.Dir, c.Stdout, c.Stderr = folder, out, &errs
			c.Run()
			if code := c.ProcessState.ExitCode(); code != exitInput || errs.String() != "hubrule: cannot write to standard output: "+why+"\n" {
				t.Errorf("%q: exit code %d, said %q", args, code, errs.String())
			}
			if left := contents(t, folder); !maps.Equal(left, before) {
				t.Errorf("%q: left %q", args, slices.Sorted(maps.Keys(left)))
			}
		}
	}
}

// TestNowhereToWrite: a full device, a closed pipe and a folder that nobody may write into are reported.
func TestNowhereToWrite(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	class := largeClass(t, folder, 2)
	for _, c := range []struct{ script, want string }{
		{`"$0" handout "$1" -o - >/dev/full`, "hubrule: cannot write to standard output: no space left on device\n"},
		{`"$0" draw suv --format svg -o - >&-`, "hubrule: cannot write to standard output: it is closed\n"},
		{`"$0" handout "$1" -o "$2/full.pdf"`, "no space left on device\n"},
		{`"$0" handout "$1" -o "$2/nowhere/sheets.pdf"`, "there is no folder " + filepath.Join(folder, "nowhere") + "\n"},
		{`"$0" handout "$1" --split "$2/nowhere/each"`, "there is no folder " + filepath.Join(folder, "nowhere") + "\n"},
		{`"$0" handout "$1" --split "$1"`, "it is not a folder\n"},
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

package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"syscall"
	"time"
	"unicode"
	"unicode/utf8"
)

// target is the program under attack.
type target struct {
	program, root string
	yaml          map[string][]byte // files that are read without a complaint, by name
	tweaks        []string          // those of yaml that are tweaks
	font          []byte
	reading       reading

	succeeded, refused atomic.Int64 // runs since the last line of the table
}

// readSeeds reads the files that attacks begin with.
func (t *target) readSeeds() error {
	t.yaml = map[string][]byte{}
	for _, pattern := range []string{"docs/examples/*.yaml", "testdata/class/*.yaml", "segments/catalogue/*.yaml", "segments/tweaks/*.yaml"} {
		paths, err := filepath.Glob(pattern)
		if err != nil {
			return err
		}
		for _, path := range paths {
			name := filepath.Base(path)
			if t.yaml[name], err = os.ReadFile(path); err != nil {
				return err
			}
			if filepath.Base(filepath.Dir(path)) == "tweaks" {
				t.tweaks = append(t.tweaks, name)
			}
		}
	}
	var err error
	if t.font, err = os.ReadFile("fonts/IBMPlexSansCondensed_400Regular.ttf"); err == nil {
		t.reading, err = readReading()
	}
	return err
}

// Limits of one run.
const (
	patience   = 30 * time.Second
	memory     = 1 << 21 // KiB of address space; the Go runtime alone reserves half of it
	mostErrors = 64 << 10
)

// result is what a run left behind.
type result struct {
	code          int // exit code; -1 for a signal
	signal        syscall.Signal
	stdout        []byte
	stderr        []byte
	late          bool
	before, after map[string]int64 // sizes of the files of the folder
}

// command returns a run of the program in a folder, within the limits; limit is more for ulimit, like "-f 8".
func (t *target) command(ctx context.Context, folder, limit string, args ...string) *exec.Cmd {
	script := fmt.Sprintf("ulimit -v %d; ulimit -c 0; ", memory)
	if limit != "" {
		script += "ulimit " + limit + "; "
	}
	c := exec.CommandContext(ctx, "sh", append([]string{"-c", script + `exec "$0" "$@"`, t.program}, args...)...)
	c.Dir = folder
	c.WaitDelay = time.Second
	return c
}

// run runs the program to its end.
func (t *target) run(folder, limit string, args ...string) result {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	r := result{before: sizes(folder)}
	c := t.command(ctx, folder, limit, args...)
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	err := c.Run()
	r.finish(folder, err, &out, &errs)
	r.late = ctx.Err() != nil
	t.count(r)
	return r
}

func (t *target) count(r result) {
	if r.code == 0 {
		t.succeeded.Add(1)
	} else {
		t.refused.Add(1)
	}
}

func (r *result) finish(folder string, err error, out, errs *bytes.Buffer) {
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		r.code = exit.ExitCode()
		if s, ok := exit.Sys().(syscall.WaitStatus); ok && s.Signaled() {
			r.signal = s.Signal()
		}
	} else if err != nil {
		r.code = -2
	}
	r.stdout, r.stderr, r.after = out.Bytes(), errs.Bytes(), sizes(folder)
}

func sizes(folder string) map[string]int64 {
	out := map[string]int64{}
	filepath.Walk(folder, func(path string, info os.FileInfo, err error) error {
		if err == nil && info.Mode().IsRegular() {
			name, _ := filepath.Rel(folder, path)
			out[name] = info.Size()
		}
		return nil
	})
	return out
}

var crashed = regexp.MustCompile(`(?m)^(panic:|fatal error:|goroutine \d+ \[|\s+/\S+\.go:\d+)|runtime error|internal error`)

// fault says what is wrong with a run that should end with one of some exit codes, or "".
func (r result) fault(codes ...int) string {
	switch {
	case r.late:
		return fmt.Sprintf("not done after %v", patience)
	case crashed.Match(r.stderr):
		return "crashed: " + firstLines(r.stderr)
	case len(r.stderr) > mostErrors:
		return fmt.Sprintf("%d bytes on standard error", len(r.stderr))
	case control(r.stderr) != "":
		return "control characters on standard error: " + control(r.stderr)
	}
	ok := false
	for _, c := range codes {
		ok = ok || r.code == c
	}
	if !ok {
		return fmt.Sprintf("exit code %d, signal %v: %s", r.code, r.signal, firstLines(r.stderr))
	}
	if r.code != 0 && len(r.stderr) == 0 {
		return fmt.Sprintf("exit code %d without a word", r.code)
	}
	for name := range r.after {
		if _, old := r.before[name]; old {
			continue
		}
		if r.code != 0 || strings.Contains(name, ".part") {
			return fmt.Sprintf("exit code %d, and left %s behind", r.code, name)
		}
	}
	return ""
}

// control returns the first line that holds a control or format character, or bytes that are no UTF-8.
func control(text []byte) string {
	for line := range strings.SplitSeq(string(text), "\n") {
		if !utf8.ValidString(line) || strings.ContainsFunc(line, func(r rune) bool {
			return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029'
		}) {
			return fmt.Sprintf("%.200q", line)
		}
	}
	return ""
}

func firstLines(text []byte) string { return fmt.Sprintf("%.300q", text) }

// whole reports whether a file is complete, by how its format ends.
func whole(path string) bool {
	data, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	end := data[max(0, len(data)-64):]
	switch filepath.Ext(path) {
	case ".pdf":
		return bytes.HasPrefix(data, []byte("%PDF-")) && bytes.Contains(end, []byte("%%EOF"))
	case ".svg":
		return bytes.Contains(end, []byte("</svg>"))
	case ".png":
		return bytes.HasPrefix(data, []byte("\x89PNG")) && bytes.Contains(end, []byte("IEND"))
	}
	return true
}

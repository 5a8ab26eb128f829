package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestProgressOnTerminal: the bar only grows, ends full, and is wiped out to its last sign.
func TestProgressOnTerminal(t *testing.T) {
	t.Parallel()
	var out bytes.Buffer
	p := &progress{to: &out, what: "sheets", total: 1000, shown: -1}
	p.show()
	for range p.total {
		p.step()
	}
	shown := strings.Split(out.String(), "\r")[1:]
	if len(shown) != barWide+1 {
		t.Errorf("%d bars were shown, want one for each of %d signs and the empty one", len(shown), barWide)
	}
	for i, bar := range shown {
		if full := strings.Count(bar, "█"); full != i {
			t.Errorf("bar %d has %d full signs", i, full)
		}
	}
	last := shown[len(shown)-1]
	if !strings.HasSuffix(last, "1000 of 1000") {
		t.Errorf("the last bar says %q", last)
	}
	out.Reset()
	p.end()
	if blanks := strings.Trim(out.String(), "\r"); strings.TrimSpace(blanks) != "" || len(blanks) < utf8.RuneCountInString(last) {
		t.Errorf("%q does not wipe out %q", out.String(), last)
	}
}

// TestProgressElsewhere: nothing is shown in a file, on the null device or in memory.
func TestProgressElsewhere(t *testing.T) {
	t.Parallel()
	var memory bytes.Buffer
	p := newProgress(&memory, "sheets", 2)
	p.step()
	p.end()
	if memory.Len() > 0 {
		t.Errorf("%q in memory", &memory)
	}
	path := filepath.Join(t.TempDir(), "errors")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	for _, f := range []*os.File{file, null} {
		if isTerminal(f) {
			t.Errorf("%s is taken for a terminal", f.Name())
		}
	}
}

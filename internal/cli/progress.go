package cli

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"
)

// progress is a bar on a terminal; anywhere else it shows nothing. A library would be linked into every command that starts.
type progress struct {
	to          io.Writer
	what        string
	done, total int
	shown       int // of barWide
}

const barWide = 40

// newProgress starts a bar of so many steps on w, if that is a terminal.
func newProgress(w io.Writer, what string, total int) *progress {
	if m, ok := w.(messages); ok {
		w = m.to // it goes back to the start of its line
	}
	if !isTerminal(w) {
		w = io.Discard
	}
	p := &progress{to: w, what: what, total: total, shown: -1}
	p.show()
	return p
}

// isTerminal reports whether somebody reads w as it is written. The null device is a character device too, but has no size to ask for.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	null, _ := os.Stat(os.DevNull)
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && f.Name() != os.DevNull && !os.SameFile(info, null)
}

// step counts one step.
func (p *progress) step() {
	p.done++
	p.show()
}

func (p *progress) show() {
	full := barWide * p.done / max(p.total, 1)
	if full != p.shown {
		p.shown = full
		fmt.Fprintf(p.to, "\r%s %s%s %d of %d", p.what, strings.Repeat("█", full), strings.Repeat("░", barWide-full), p.done, p.total)
	}
}

// end wipes the bar out: what stays on the screen are messages.
func (p *progress) end() {
	fmt.Fprintf(p.to, "\r%s\r", strings.Repeat(" ", len(p.what)+barWide+24))
}

// hurry is how long a picture may take before a bar is shown: a shorter one would only flicker. Judged by eye.
const hurry = 400 * time.Millisecond

// rowsBar shows a bar while the rows of long pictures are drawn: a [png.Watcher].
type rowsBar struct {
	to    io.Writer
	start time.Time
	bar   *progress
}

// Drawn shows how many rows of a picture are drawn.
func (b *rowsBar) Drawn(rows, all int) {
	switch {
	case b.bar == nil && time.Since(b.start) > hurry && rows < all:
		b.bar = newProgress(b.to, "rows of pixels", all)
	case b.bar != nil && rows == all:
		b.bar.end()
		b.bar = nil
	}
	if b.bar != nil {
		b.bar.done = rows
		b.bar.show()
	}
}

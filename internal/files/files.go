// Package files writes the files of one command: all of them or none.
//
// Every file waits under a temporary name beside its target until all are whole; then all are renamed. A failure, a signal
// or a reader that closes its pipe leaves the old files as they were and nothing else. Standard output, devices and named pipes
// cannot be taken back, so their bytes wait as well and are sent last before the renames.
//
// Two goroutines take part. The one that calls [Run] owns everything that waits on the disk, never blocks for long, and listens
// for signals. The command runs in the other, which may compute or block as it likes: it asks the owner for each step on the disk.
package files

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"hubrule/internal/fault"
)

// Run runs a command, puts nothing in place that it does not commit, and clears what is left when it ends, panics or is interrupted.
// An interrupt (SIGINT, SIGTERM or SIGHUP) ends ctx, and Run returns an error that says what was written; once everything is in
// place, the command runs to its end instead. A panic of work is returned as a [fault.Fault].
// A failure to write to stdout is an error of Run even if work overlooks it.
func Run(stdout io.Writer, work func(ctx context.Context, s *Set) error) error {
	ctx, stop := listen()
	defer stop()
	s := &Set{stdout: standardOutput{to: stdout}, calls: make(chan func()), ended: make(chan struct{})}
	done := make(chan error, 1)
	go func() {
		defer s.Discard() // so that a panic leaves nothing behind
		defer fault.Catch(func(err error) { done <- err })
		done <- work(ctx, s)
	}()
	err := s.serve(ctx, done)
	s.stage.clear()
	close(s.ended)
	switch {
	case err == nil:
		return s.stdout.err
	case !errors.Is(err, context.Canceled):
		return err
	}
	select {
	case <-done: // the command has removed what it showed on the terminal
	case <-time.After(100 * time.Millisecond):
	}
	if s.stdout.begun.Load() {
		return errors.New("interrupted; no file was written, but some output may have been sent")
	}
	return errors.New("interrupted; nothing was written")
}

// listen returns a context that a signal ends. Signals that whoever started the program ignores, as nohup does, stay ignored. A write
// to a closed pipe becomes an error, also on standard output, where it would end the process.
func listen() (context.Context, context.CancelFunc) {
	signals := slices.DeleteFunc([]os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}, signal.Ignored)
	signal.Ignore(syscall.SIGPIPE)
	if len(signals) == 0 { // NotifyContext would take that for all of them
		return context.WithCancel(context.Background())
	}
	return signal.NotifyContext(context.Background(), signals...)
}

// serve carries out the command's calls until it is done or interrupted, which once its files are in place it cannot be.
func (s *Set) serve(ctx context.Context, done <-chan error) error {
	interrupted := ctx.Done()
	for {
		select {
		case call := <-s.calls:
			call()
			if s.stage.placed {
				interrupted = nil
			}
		case err := <-done:
			return err
		case <-interrupted:
			return ctx.Err()
		}
	}
}

// Same reports whether two paths lead to one file, by whatever links.
func Same(a, b string) bool {
	if key(a) == key(b) {
		return true
	}
	first, _ := os.Stat(a)
	second, _ := os.Stat(b)
	return os.SameFile(first, second)
}

const toStandardOutput = "to standard output"

// failed words an error about path, which is as the user wrote it; "-" is standard output.
func failed(path string, err error) error {
	if path == "-" {
		path = toStandardOutput
	}
	if path != toStandardOutput && errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("cannot write %s: there is no folder %s", path, filepath.Dir(path))
	}
	return fmt.Errorf("cannot write %s: %w", path, fault.Plain(err))
}

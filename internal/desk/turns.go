package desk

import (
	"context"
	"errors"
	"runtime"
	"sync/atomic"
	"time"

	"hubrule/internal/parallel"
)

// turns let long work yield: each piece of it waits for a turn of its caller, so that it holds no worker for its whole time.
type turns struct {
	queue  *queue
	caller string
	ctx    context.Context
	begun  atomic.Bool

	patience time.Duration // how long a piece waits for a free worker before it stands in line
}

// busyWait is how long begun work waits before it asks again for a place in a full queue. Judged by eye.
const busyWait = 50 * time.Millisecond

// Printing uses what others leave: a piece looks for a free worker at intervals, and takes its turn with them only after a while. Judged by
// eye: then even beside forty who drag some thirty pages a second are printed.
const (
	printPatience = 250 * time.Millisecond
	lookEvery     = 4 * time.Millisecond
)

// giveWay waits for a free worker, as long as the work is patient.
func (t *turns) giveWay() error {
	for end := time.Now().Add(t.patience); t.queue.isBusy() && time.Now().Before(end); {
		select {
		case <-t.ctx.Done():
			return t.ctx.Err()
		case <-time.After(lookEvery):
		}
	}
	return t.ctx.Err() // a free worker asks nothing
}

// do does one piece in its turn. The error is that ctx ended or, before the first piece, that there is no room to wait.
func (t *turns) do(piece func()) error {
	for {
		if err := t.giveWay(); err != nil {
			return err
		}
		err := t.queue.enter(t.ctx, t.caller)
		if err == nil {
			break
		}
		if !errors.Is(err, errFull) || !t.begun.Load() {
			return err
		}
		select {
		case <-t.ctx.Done():
			return t.ctx.Err()
		case <-time.After(busyWait):
		}
	}
	defer t.queue.leave()
	t.begun.Store(true)
	piece()
	return nil
}

// try is do of a piece that may fail.
func (t *turns) try(piece func() error) (err error) {
	if full := t.do(func() { err = piece() }); full != nil {
		return full
	}
	return err
}

// spread does pieces 0 to n−1, on all processors: a class.Spread.
func (t *turns) spread(n int, do func(i int)) error {
	var next atomic.Int64
	errs := make([]error, min(n, runtime.GOMAXPROCS(0)))
	parallel.Do(len(errs), func(w int) {
		for i := int(next.Add(1)) - 1; i < n && errs[w] == nil; i = int(next.Add(1)) - 1 {
			errs[w] = t.do(func() { do(i) })
		}
	})
	return errors.Join(errs...)
}

package cli

import (
	"context"
	"runtime"
)

// inOrder makes count things on all processors and takes them in order. Only some more than there are workers exist at a time, so memory
// does not grow with count. The first error ends it.
func inOrder[T any](ctx context.Context, count int, produce func(i int) (T, error), take func(T) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	type result struct {
		thing T
		err   error
	}
	workers := runtime.GOMAXPROCS(0)
	slots := make(chan chan result, 4*workers) // results in order, each with a place of its own
	jobs := make(chan func(), workers)
	for range workers {
		go func() {
			for job := range jobs {
				job()
			}
		}()
	}
	go func() {
		defer close(slots)
		defer close(jobs)
		for i := range count {
			slot := make(chan result, 1)
			select {
			case slots <- slot:
			case <-ctx.Done():
				return
			}
			jobs <- func() {
				thing, err := produce(i)
				slot <- result{thing, err}
			}
		}
	}()
	for slot := range slots {
		var r result
		select {
		case r = <-slot:
		case <-ctx.Done():
			return ctx.Err()
		}
		if r.err != nil {
			return r.err
		}
		if err := take(r.thing); err != nil {
			return err
		}
	}
	return ctx.Err()
}

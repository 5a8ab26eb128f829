package parallel

import (
	"context"
	"runtime"
	"sync"

	"hubrule/internal/fault"
)

// InOrder makes count things on all processors and takes them in order. Only a few for each processor exist at a time, so memory does not
// grow with count. The first error ends it.
func InOrder[T any](ctx context.Context, count int, produce func(i int) (T, error), take func(T) error) error {
	ctx, cancel := context.WithCancel(ctx)
	var running sync.WaitGroup
	defer running.Wait()
	defer cancel()
	type result struct {
		thing T
		err   error
	}
	slots := make(chan chan result, 4*runtime.GOMAXPROCS(0)) // results in order, each with a place of its own
	running.Go(func() {
		defer close(slots)
		for i := range count {
			slot := make(chan result, 1)
			select {
			case slots <- slot:
			case <-ctx.Done():
				return
			}
			running.Go(func() {
				defer fault.Catch(func(err error) { slot <- result{err: err} })
				thing, err := produce(i)
				slot <- result{thing, err}
			})
		}
	})
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

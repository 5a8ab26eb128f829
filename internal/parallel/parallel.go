// Package parallel spreads work over the processors.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"

	"hubrule/internal/fault"
)

// Do calls do with 0 to n−1, on all processors, the lower numbers first. A panic in one of them becomes the caller's.
func Do(n int, do func(i int)) {
	workers := min(n, runtime.GOMAXPROCS(0))
	var group sync.WaitGroup
	var next atomic.Int64
	faults := make([]error, workers)
	for w := range workers {
		group.Go(func() {
			defer fault.Catch(func(err error) { faults[w] = err })
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	group.Wait()
	for _, err := range faults {
		if err != nil {
			panic(err)
		}
	}
}

// Together makes some calls at once, on all processors.
func Together(calls ...func()) { Do(len(calls), func(i int) { calls[i]() }) }

// Map returns what of gives for each of the things, in their order.
func Map[T, U any](things []T, of func(T) U) []U {
	out := make([]U, len(things))
	Do(len(things), func(i int) { out[i] = of(things[i]) })
	return out
}

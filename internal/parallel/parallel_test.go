package parallel_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"hubrule/internal/parallel"
)

// Every number is done once, results keep their order, and a panic reaches the caller.
func TestDo(t *testing.T) {
	var sum atomic.Int64
	parallel.Do(1000, func(i int) { sum.Add(int64(i)) })
	if got := sum.Load(); got != 499500 {
		t.Errorf("the sum of 0 to 999 is %d", got)
	}
	parallel.Do(0, func(int) { t.Error("called for nothing") })
	if got := parallel.Map([]int{3, 1, 2}, func(i int) string { return fmt.Sprint(i) }); !slices.Equal(got, []string{"3", "1", "2"}) {
		t.Errorf("Map gave %v", got)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	panics(t)
	runtime.GOMAXPROCS(4)
	panics(t)
}

// panics reports a panic that does not reach the caller as an error.
func panics(t *testing.T) {
	t.Helper()
	defer func() {
		if err, ok := recover().(error); !ok || !strings.Contains(err.Error(), "planted") {
			t.Errorf("recovered %v, want the planted error", err)
		}
	}()
	parallel.Do(10, func(i int) {
		if i == 3 {
			panic("planted")
		}
	})
}

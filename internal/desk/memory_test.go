package desk_test

import (
	"fmt"
	"os"
	"runtime"
	"strconv"
	"testing"
)

// heap returns what is in use once the garbage is gone.
func heap() int {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC() // what finalizers held
	runtime.ReadMemStats(&m)
	return int(m.HeapAlloc)
}

// TestFlatMemory: calls leave nothing behind. HUBRULE_ATTACK names how many are made.
func TestFlatMemory(t *testing.T) {
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/plain-noisy.yaml")
	many := 120
	if n, err := strconv.Atoi(os.Getenv("HUBRULE_ATTACK")); err == nil {
		many = n
	}
	segments, call := []string{"suv", "van", "city", "sports", "pickup", "nothing"}, 0
	work := func(times int) {
		for range times {
			call++
			job := fmt.Sprintf(`{"job": {"segment": %q, "title": "%d", "tweak": {"sporty": %.3f}, "pin": {"height": "%.3fw"}}`,
				segments[call%len(segments)], call, float64(call%200)/100-1, 1.9+float64(call%70)/100)
			switch call % 5 {
			case 0:
				c.send("POST", "/sheet", job+`, "screen": {"width": 1000, "height": 600, "lettering-px": 14}}`)
			case 1:
				c.send("POST", "/keep", job+`, "format": "svg"}`)
			case 2:
				c.send("POST", fmt.Sprintf("/%d", call), "{}")
			case 3:
				c.send("POST", "/read", fmt.Sprintf(`{"marks": %s, "name": "%d", "narrows": true}`, marks, call))
			default:
				c.send("POST", "/solve", job+`}`)
			}
		}
	}
	work(many / 3) // what is made once
	before, routines := heap(), runtime.NumGoroutine()
	work(many - many/3)
	const noise = 1 << 20
	if after := heap(); after > before+noise {
		t.Errorf("after %d calls %d bytes are in use, after %d %d", many/3, before, many, after)
	} else {
		t.Logf("%d bytes after %d calls, %d after %d", before, many/3, after, many)
	}
	if n := runtime.NumGoroutine(); n > routines+2 {
		t.Errorf("%d goroutines, before %d", n, routines)
	}
}

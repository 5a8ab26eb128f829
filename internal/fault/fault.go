// Package fault turns panics into errors: a mistake of the program's own ends a command with one line, and leaves no half-written file.
// A panic ends the process unless its own goroutine catches it, so every goroutine that works on what users give defers [Catch].
package fault

import (
	"fmt"
	"runtime"
	"strings"
)

// Fault is a panic as an error of one line, without paths of the machine that built the program.
type Fault struct {
	function string // the innermost one of this program, as "layout/view.(*Scene).sort"; "" where none is known
	text     string
}

// Error says what went wrong and in which function.
func (f *Fault) Error() string {
	where := ""
	if f.function != "" {
		where = " in " + f.function
	}
	return "internal error" + where + ": " + f.text + "; no file was written; please report it with the command"
}

// Catch is deferred; it hands a panic of the function that defers it to report.
func Catch(report func(error)) {
	switch v := recover().(type) {
	case nil:
	case *Fault: // of another goroutine
		report(v)
	default:
		report(&Fault{innermost(), strings.Join(strings.Fields(fmt.Sprint(v)), " ")})
	}
}

// innermost returns the function of this program that panicked.
func innermost() string {
	const module, self = "hubrule/", "hubrule/internal/fault."
	callers := make([]uintptr, 64)
	frames := runtime.CallersFrames(callers[:runtime.Callers(2, callers)])
	for more := true; more; {
		var f runtime.Frame
		f, more = frames.Next()
		if name, ours := strings.CutPrefix(f.Function, module); ours && !strings.HasPrefix(f.Function, self) {
			return name
		}
	}
	return ""
}

package fault

import (
	"errors"
	"fmt"
	"testing"
)

func caught(work func()) (err error) {
	defer Catch(func(e error) { err = e })
	work()
	return nil
}

func ExampleCatch() {
	half := func(n int) (err error) {
		defer Catch(func(e error) { err = e })
		if n%2 != 0 {
			panic("odd")
		}
		return nil
	}
	fmt.Println(half(4) == nil, half(3) == nil)
	// Output: true false
}

// A fault names the function and stays one line; passed on from another goroutine it still names the first function.
func TestCatch(t *testing.T) {
	const rest = "; no file was written; please report it with the command"
	var none []int
	first := caught(func() { _ = none[len(none)] })
	for _, tt := range []struct {
		err  error
		want string
	}{
		{caught(func() {}), "<nil>"},
		{caught(func() { panic("two\nlines") }), "internal error: two lines" + rest},
		{first, "internal error: runtime error: index out of range [0] with length 0" + rest},
		{caught(func() { panic(first) }), "internal error: runtime error: index out of range [0] with length 0" + rest},
		{&Fault{"layout.Solve", "odd"}, "internal error in layout.Solve: odd" + rest},
	} {
		if got := fmt.Sprint(tt.err); got != tt.want {
			t.Errorf("%s; want %s", got, tt.want)
		}
	}
	var f *Fault
	if !errors.As(first, &f) {
		t.Errorf("%T is no fault", first)
	}
}

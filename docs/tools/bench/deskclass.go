//go:build unix

package main

import (
	"fmt"
	"strings"
	"sync/atomic"
)

// deskClass is a class of forty with four pages each, as a call has it.
func deskClass() string {
	var names []string
	for i := range 40 {
		names = append(names, fmt.Sprintf(`"Student %c%c"`, 'A'+i/26, 'A'+i%26))
	}
	return `"class": {"students": [` + strings.Join(names, ", ") + `], "vary": 0.6, "seed": 7, "pages": [
		{"segment": "suv", "sheets": ["steps", "practice"], "given": 2}, {"segment": "sedan", "tweak": {"sporty": 0.5}, "sheets": ["full"]},
		{"segment": "sedan", "pin": {"length": "4.7m"}, "sheets": ["trace"]}]}`
}

// benchClass times the calls of a class, and those of visitors who drag while the class is printed over and over.
func (s *served) benchClass(row func(name string, times []float64, err error) error, drags func() ([]float64, error)) error {
	class := deskClass()
	many := func(calls int, path string, body func(n int) string) (out []float64, err error) {
		for n := range calls {
			t, _, err := s.send(path, body(n))
			if err != nil {
				return nil, err
			}
			out = append(out, t)
		}
		return out, nil
	}
	page := func(n int) string {
		return fmt.Sprintf(`{%s, "student": %d, "page": 2, "answer": true}`, class, n%40+1)
	}
	print := func(n int) string { return fmt.Sprintf(`{%s, "id": "benchmark-%010d"}`, class, n) }
	for _, c := range []struct {
		name, path string
		calls      int
		body       func(int) string
	}{
		{"`/class/page` of a class of 40, a practice sheet with its answer", "/class/page", deskCalls, page},
		{"`/class/check` of that class", "/class/check", deskCalls / 3, func(int) string { return "{" + class + "}" }},
		{"`/class/print` of its 160 pages", "/class/print", deskCalls / 30, print},
	} {
		times, err := many(c.calls, c.path, c.body)
		if err := row(c.name, times, err); err != nil {
			return err
		}
	}
	var stop atomic.Bool
	failed := make(chan error, 1)
	go func() {
		var err error
		for n := deskCalls; err == nil && !stop.Load(); n++ {
			_, _, err = s.send("/class/print", print(n))
		}
		failed <- err
	}()
	times, err := drags()
	stop.Store(true)
	if err == nil {
		err = <-failed
	}
	return row(fmt.Sprintf("`/sheet` of the %d who drag, while that class is printed", deskVisitors), times, err)
}

package strict

import (
	"regexp"
	"sync"
)

// Pattern returns a function that compiles a regular expression when it is first asked for: most commands ask for none.
func Pattern(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

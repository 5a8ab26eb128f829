package job

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"hubrule/segments/strict"
)

// one completes a row for a setting that has one value.
func one[T any](s Setting, at func(*Job) *T, parse func(word string) (T, error), write func(T) string) Setting {
	s.parse = single(func(j *Job, word string) (err error) {
		*at(j), err = parse(word)
		return err
	})
	s.write = func(_ *writer, j Job) string { return write(*at(&j)) }
	return s
}

// single parses a setting that has one value.
func single(parse func(j *Job, word string) error) func(*Job, []string) error {
	return func(j *Job, words []string) error {
		if len(words) != 1 {
			return errors.New("a list; want one value")
		}
		return parse(j, words[0])
	}
}

// choice completes a row for one of a few names.
func choice[T ~string](s Setting, at func(*Job) *T, allowed ...T) Setting {
	s.Words = names(allowed)
	return one(s, at, func(word string) (T, error) { return oneOf(word, allowed) }, func(v T) string { return string(v) })
}

// list completes a row for comma-separated names, each once. A flag given twice adds to its list.
func list[T ~string](s Setting, at func(*Job) *[]T, allowed []T) Setting {
	s.List, s.Words, s.Help = true, names(allowed), fmt.Sprintf(s.Help, strings.Join(names(allowed), " "))
	s.parse = func(j *Job, words []string) (err error) {
		*at(j), err = listOf(words, allowed)
		return err
	}
	s.write = func(_ *writer, j Job) string { return yamlList(*at(&j)) }
	return s
}

// flag completes a row for true or false.
func flag(s Setting, at func(*Job) *bool) Setting {
	s.Bool = true
	return one(s, at, parseBool, ifTrue)
}

// text completes a row for free words.
func text(s Setting, at func(*Job) *string) Setting {
	return one(s, at, parseWords, func(words string) string {
		if words == "" {
			return ""
		}
		return strconv.Quote(words)
	})
}

// number completes a row for a number.
func number[T ~float64](s Setting, at func(*Job) *T, lo, hi T) Setting {
	parse := func(word string) (T, error) {
		v, ok := strict.ParseNumber(word)
		if !ok || v < float64(lo) || v > float64(hi) {
			return 0, fmt.Errorf("%s; want %g to %g%s", strict.Excerpt(word), float64(lo), float64(hi), strict.NumberHint(word))
		}
		return T(v), nil
	}
	return one(s, at, parse, inFull[T])
}

// names returns a list of names as strings.
func names[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = string(v)
	}
	return out
}

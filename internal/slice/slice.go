// Package slice has the two walks over a slice that the standard library lacks.
package slice

// Map returns what from makes of each item, in order; nil for no items.
func Map[T, U any](items []T, from func(T) U) []U {
	if len(items) == 0 {
		return nil
	}
	out := make([]U, len(items))
	for i, item := range items {
		out[i] = from(item)
	}
	return out
}

// Find returns the first item that matches, and whether there is one.
func Find[T any](items []T, matches func(T) bool) (T, bool) {
	for _, item := range items {
		if matches(item) {
			return item, true
		}
	}
	var none T
	return none, false
}

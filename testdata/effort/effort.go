// Package effort decides, in one place, how much work a test does. The plain
// test command stays short: there a long test looks at a part of what it could
// look at. Where outside tools are required, as .ci/run does, it looks at all.
//
// It lives under testdata so that no pattern such as ./... builds it into the
// program; only tests import it.
package effort

import "spruelight/testdata/outside"

// Whole reports whether tests do all of their work.
func Whole() bool { return outside.Required() }

// Of returns the amount of work to do: whole where tests do all of it.
func Of[T any](short, whole T) T {
	if Whole() {
		return whole
	}
	return short
}

// Share returns the part of a list that a short test looks at: each part-th
// element, from a first one on, so that several settings share the list among
// them. A whole test looks at all of it.
func Share[T any](list []T, first, part int) []T {
	if Whole() {
		return list
	}
	var some []T
	for i := first % part; i < len(list); i += part {
		some = append(some, list[i])
	}
	return some
}

package desk

import (
	"errors"
	"fmt"

	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// asked reads a value from the command line, and keeps its text for findings
// and for the last place it was written to.
func asked[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](flag, text string) (source.Value[T], error) {
	var v T
	if text == "" {
		return source.Value[T]{}, nil
	}
	err := P(&v).UnmarshalText([]byte(text))
	if err == nil {
		return source.Written(v, source.NewFile(flag, text).At(0, len(text))), nil
	}
	var e *quantity.Error
	if errors.As(err, &e) {
		return source.Value[T]{}, fmt.Errorf("%s: %s; %s", flag, e.Says, e.Remedy)
	}
	return source.Value[T]{}, fmt.Errorf("%s: %w", flag, err)
}

// needed reads a value that the sum cannot do without.
func needed[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](flag, text, example string) (T, error) {
	v, err := asked[T, P](flag, text)
	if err == nil && !v.Set {
		err = fmt.Errorf("%s is missing; write it like %s %q", flag, flag, example)
	}
	return v.V, err
}

// form reads the values of a question. The first one that cannot be read is
// the error.
type form struct{ err error }

func read[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](f *form, flag, text string) source.Value[T] {
	v, err := asked[T, P](flag, text)
	if f.err == nil {
		f.err = err
	}
	return v
}

// meant returns "; did you mean …?" for a mistyped word, or nothing.
func meant(word string, known []string) string {
	if near, ok := journal.Nearest(word, known); ok {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// stopsAmong returns the findings of severity stop.
func stopsAmong(found source.Findings) source.Findings {
	var stops source.Findings
	for _, f := range found {
		if f.Severity() == source.Stop {
			stops.Add(f)
		}
	}
	return stops
}

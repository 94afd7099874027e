package scale

import (
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// written reads a value from a file of its own, so that it carries the text and
// the place it has in a journal.
func written[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](t testing.TB, text string) source.Value[T] {
	t.Helper()
	var v T
	if err := P(&v).UnmarshalText([]byte(text)); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return source.Written(v, source.NewFile("build.md", text).At(0, len(text)))
}

func measured(t testing.TB, text string) Length {
	return written[quantity.Measured](t, text)
}

// lengths reads "length 204 mm ± 0.5 mm; beam 67 mm".
func lengths(t testing.TB, text string) (out source.Entries[Length]) {
	t.Helper()
	for _, part := range strings.Split(text, ";") {
		name, value, ok := strings.Cut(strings.TrimSpace(part), " ")
		if !ok {
			continue
		}
		out = append(out, source.Entry[Length]{Name: source.Written(name, source.NewFile("build.md", part).At(0, len(name))),
			Value: measured(t, value)})
	}
	return out
}

// account reads one source's lengths.
func account(t testing.TB, who, text string) Account {
	return Account{Source: source.Written(who, source.NewFile("build.md", who).At(0, len(who))), Real: lengths(t, text)}
}

func rules(found []source.Finding) string {
	names := make([]string, len(found))
	for i, f := range found {
		names[i] = f.Rule.Name
	}
	return strings.Join(names, " ")
}

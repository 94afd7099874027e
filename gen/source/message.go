package source

import (
	"fmt"
	"slices"
	"strings"
)

// Message is something to say: a form, and the values for its verbs. The form
// is English, and the key under which a language has its own; there the same
// values stand, in another order by %[2]s. Values are
//
//   - strings: names and words of the workshop's own, which stay as they are;
//   - whole numbers and floats, with the form's verb;
//   - whatever has a method String: quantities, moments, times at the bench;
//     a language prints them its own way;
//   - Messages, Lists and Counts, which are translated in turn.
//
// A form without values stands as it is: a per cent sign in it is one.
type Message struct {
	Form string
	Args []any
}

// Say returns a message of a form and its values.
func Say(form string, args ...any) Message {
	if false { // has go vet hold the values against the form
		return Message{Form: fmt.Sprintf(form, args...)}
	}
	return Message{Form: form, Args: args}
}

// Word returns a message without values: a term of the trade, a whole sentence.
func Word(text string) Message { return Message{Form: text} }

// String is the message in English.
func (m Message) String() string {
	if len(m.Args) == 0 {
		return m.Form
	}
	return fmt.Sprintf(m.Form, m.Args...)
}

// MessageOf returns what may be written as a text without values, or is a Message.
func MessageOf(what any) Message {
	switch what := what.(type) {
	case Message:
		return what
	case string:
		return Word(what)
	}
	panic(fmt.Sprintf("a %T is no message", what))
}

// Text is several sentences in a row; those that say nothing are left out.
func Text(sentences ...Message) Message {
	said := slices.DeleteFunc(slices.Clone(sentences), Message.Empty)
	if len(said) == 1 {
		return said[0]
	}
	return Say("%s", List{Of: Anys(said), Sep: Pause})
}

// Pause is what stands between two sentences.
const Pause = " "

// Empty reports whether nothing is said.
func (m Message) Empty() bool { return m.Form == "" }

// MarshalText writes the message in English, for JSON.
func (m Message) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// List is several values in a row: "D1, D2 and D3".
type List struct {
	Of   []any
	Sep  string // between two; a comma where it is ""
	Last string // form of all but the last and the last: "%s and %s"; "" for Sep there too
}

// And lists values with "and" before the last.
func And[T any](of []T) List { return List{Of: Anys(of), Last: "%s and %s"} }

// Or lists values with "or" before the last.
func Or[T any](of []T) List { return List{Of: Anys(of), Last: "%s or %s"} }

// Row lists values with commas alone.
func Row[T any](of []T) List { return List{Of: Anys(of)} }

// Anys returns the values of a list of one type.
func Anys[T any](of []T) []any {
	all := make([]any, len(of))
	for i, v := range of {
		all[i] = v
	}
	return all
}

// String is the list in English.
func (l List) String() string {
	return l.Print(func(v any) string { return fmt.Sprint(v) }, func(sep string) string { return sep })
}

// Print writes the list with what prints a value, and what gives the language's
// sign for the one between two.
func (l List) Print(value func(any) string, sign func(string) string) string {
	sep := l.Sep
	if sep == "" {
		sep = ", "
	}
	texts := make([]string, len(l.Of))
	for i, v := range l.Of {
		texts[i] = value(v)
	}
	n := len(texts)
	if l.Last == "" || n < 2 {
		return strings.Join(texts, sign(sep))
	}
	return value(Say(l.Last, strings.Join(texts[:n-1], sign(sep)), texts[n-1]))
}

// Count is a number with its noun: "3 sittings". Nouns are among the counted
// words of a language, by their singular in English.
type Count struct {
	N    int
	Noun string
}

// String is the count in English.
func (c Count) String() string {
	switch {
	case c.N == 1:
		return "1 " + c.Noun
	case strings.HasSuffix(c.Noun, "ch"), strings.HasSuffix(c.Noun, "s"):
		return fmt.Sprintf("%d %ses", c.N, c.Noun)
	}
	return fmt.Sprintf("%d %ss", c.N, c.Noun)
}

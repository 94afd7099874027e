package svg

import "spruelight/gen/source"

// Printer prints a message in the language of a drawing's readers. The rooms
// that draw speak English; nil leaves it so.
type Printer func(source.Message) string

// Print returns the message as it is to be drawn.
func (p Printer) Print(m source.Message) string {
	if p == nil {
		return m.String()
	}
	return p(m)
}

// Teller says a text of a drawing in the language of its readers. It stands
// for Printer in the rooms that still say their texts in finished English.
type Teller func(text string) string

// Say returns the text as it is to be drawn.
func (t Teller) Say(text string) string {
	if t == nil {
		return text
	}
	return t(text)
}

// A Table is the text equivalent of a drawing: everything it shows, in full, in
// the language of its readers.
type Table struct {
	Head []string
	Rows [][]string
}

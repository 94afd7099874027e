package svg

// Teller says a text of a drawing in the language of its readers. The rooms
// that draw speak English; nil leaves it so.
type Teller func(text string) string

// Say returns the text as it is to be drawn.
func (t Teller) Say(text string) string {
	if t == nil {
		return text
	}
	return t(text)
}

// A Table is the text equivalent of a drawing: everything it shows, in full.
type Table struct {
	Head []string
	Rows [][]string
}

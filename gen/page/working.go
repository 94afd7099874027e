package page

import (
	"fmt"
	"html/template"
	"regexp"
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// A number that a formula made can show how: a mark beside it opens its
// working. Workings stand at the foot of their section, each a popover with an
// id; a browser that does not know popovers shows them there as a list.

// Worked returns the mark for figures, one for all of them, and keeps their
// workings for the foot of the section. Empty where none has a working.
func (v *View) Worked(figures ...quantity.Figure) template.HTML { return v.worked(figures) }

// WorkedRow is the same for the figures of a row.
func (v *View) WorkedRow(figures []quantity.Figure) template.HTML { return v.worked(figures) }

func (v *View) worked(figures []quantity.Figure) template.HTML {
	var lines []string
	for _, f := range figures {
		if !f.Working.Empty() {
			lines = append(lines, v.working(f))
		}
	}
	if len(lines) == 0 {
		return ""
	}
	v.marks++
	id := "w" + strconv.Itoa(v.marks)
	v.workings = append(v.workings, `<p popover id="`+id+`">`+strings.Join(lines, "<br>")+"</p>")
	return template.HTML(`<button type="button" class="how" popovertarget="` + id + `" aria-label="` +
		Escape(v.book.words.Say("How this was calculated")) + `"></button>`)
}

// working is a figure's name, its sum and where the sum comes from.
func (v *View) working(f quantity.Figure) string {
	w := v.book.words
	return "<b>" + Escape(w.marked(f.Name, w.Say(f.Name))) + "</b> " +
		indices.ReplaceAllString(Escape(Tied(w.sum(f.Working))), "$1<sub>$2</sub>") + " <small>" + Escape(Tied(w.marked(f.Source, w.Say(f.Source)))) + "</small>"
}

// sum prints a working. That of a formula is the same in every language but for
// its values; any other is a message.
func (w *Words) sum(m source.Message) string {
	if !strings.Contains(m.Form, " = ") {
		return w.Message(m)
	}
	args := make([]any, len(m.Args))
	for i, v := range m.Args {
		args[i] = w.value(v)
	}
	return fmt.Sprintf(m.Form, args...)
}

// indices are those of a formula's letters, "U_R".
var indices = regexp.MustCompile(`(\pL)_([\pL]+)`)

// Workings returns the workings of the marks since the last call, for the foot
// of a section.
func (v *View) Workings() template.HTML {
	if len(v.workings) == 0 {
		return ""
	}
	out := `<div class="workings">` + strings.Join(v.workings, "\n") + "</div>"
	v.workings = nil
	return template.HTML(out)
}

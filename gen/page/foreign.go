package page

import (
	"bytes"
	"regexp"
	"strings"
)

// What the language of a page has no words for stands in English, and says so to
// whoever reads it out: an element with lang="en" stands around it. Templates do
// not know where a phrase will stand, so it goes through them between two signs
// that nobody writes; once the page is printed they become the element, or
// nothing where no element may stand.
const (
	foreignFrom = "\ue000"
	foreignTo   = "\ue001"
)

// wordy matches a form that has a word of its own, besides verbs and names of
// standards.
var wordy = regexp.MustCompile(`(?:^|[^%\p{L}])\p{Ll}{3,}|\p{Lu}\p{Ll}{2,}`)

// marked puts the signs around what was said of a form that the language lacks.
func (w *Words) marked(form, said string) string {
	if w.Has(form) || !wordy.MatchString(form) {
		return said
	}
	return foreignFrom + said + foreignTo
}

// markForeign puts elements in the place of the signs. Within tags, titles,
// scripts and drawings no element may stand.
func markForeign(page []byte) []byte {
	if !bytes.Contains(page, []byte(foreignFrom)) {
		return page
	}
	plain := strings.NewReplacer(foreignFrom, "", foreignTo, "")
	element := strings.NewReplacer(foreignFrom, `<span lang="en">`, foreignTo, "</span>")
	var out strings.Builder
	rest := string(page)
	for rest != "" {
		text, tag := rest, ""
		if i := strings.IndexByte(rest, '<'); i >= 0 {
			text, tag = rest[:i], rest[i:]
		}
		element.WriteString(&out, text)
		if tag == "" {
			break
		}
		end := len(tag)
		if i := strings.IndexByte(tag, '>'); i >= 0 {
			end = i + 1
		}
		for _, name := range []string{"title", "script", "style", "svg", "option"} {
			if strings.HasPrefix(tag, "<"+name+">") || strings.HasPrefix(tag, "<"+name+" ") {
				if i := strings.Index(tag, "</"+name+">"); i >= 0 {
					end = i
				}
			}
		}
		plain.WriteString(&out, tag[:end])
		rest = tag[end:]
	}
	return []byte(out.String())
}

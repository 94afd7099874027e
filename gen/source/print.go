package source

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Style says how findings are printed for people.
type Style struct {
	Colour bool // ANSI colours; meaning never rests on them
}

// maxExcerpt is the longest source line shown, in characters: a line of a
// megabyte must not fill a terminal.
const maxExcerpt = 160

// Print writes a finding as text: its place, severity, message and rule, the
// source line with a caret under the offending text, and the remedy.
func (s Style) Print(w io.Writer, f Finding) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s: %s [%s]\n", place(f.At), s.paint(f), visible(f.Says.String()), f.Rule.Name)
	b.WriteString(excerpt(f.At))
	if f.Silenced != "" {
		fmt.Fprintf(&b, "  silenced: %s\n", visible(f.Silenced))
	}
	if !f.Do.Empty() {
		fmt.Fprintf(&b, "  do: %s\n", visible(f.Do.String()))
	}
	for _, r := range f.Related {
		fmt.Fprintf(&b, "  see %s%s\n", place(r.At), visible(r.Says.String()))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (s Style) paint(f Finding) string {
	word := f.Severity().String()
	if f.Silenced != "" {
		word = "silenced " + word
	}
	if !s.Colour {
		return word
	}
	code := [...]string{"36", "33", "31;1"}[f.Severity()]
	return "\x1b[" + code + "m" + word + "\x1b[0m"
}

func place(at Span) string {
	if !at.Known() {
		return ""
	}
	p := at.Position()
	return fmt.Sprintf("%s:%d:%d: ", visible(at.Name()), p.Line, p.Column)
}

// excerpt returns the line of a span with carets under it. A span of several
// lines is marked to the end of its first.
func excerpt(at Span) string {
	if !at.Known() || at.File.Text == "" {
		return ""
	}
	p := at.Position()
	line := []rune(at.File.Line(p.Line))
	from := min(p.Column-1, len(line))
	width := utf8.RuneCountInString(firstLine(at.Text()))
	width = min(max(width, 1), max(len(line)-from, 1))
	lead := ""
	if from+width > maxExcerpt { // keep the caret in sight on a very long line
		cut := max(from-maxExcerpt/2, 0)
		line, from, lead = line[cut:], from-cut, "… "
	}
	if len(line) > maxExcerpt {
		line = append(line[:maxExcerpt:maxExcerpt], '…')
	}
	width = min(width, max(len(line)-from, 1))
	gutter := fmt.Sprintf("%5d | ", p.Line)
	var marks strings.Builder
	for _, r := range line[:min(from, len(line))] {
		marks.WriteString(blank(r))
	}
	for i := 0; i < width; i++ {
		r := ' '
		if from+i < len(line) {
			r = line[from+i]
		}
		marks.WriteString(strings.Repeat("^", columns(r)))
	}
	return fmt.Sprintf("%s%s%s\n%s| %s%s\n", gutter, lead, visible(string(line)),
		strings.Repeat(" ", len(gutter)-2), strings.Repeat(" ", utf8.RuneCountInString(lead)), marks.String())
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return strings.TrimSuffix(line, "\r")
}

// blank returns what stands under a character before the caret: a tab stays a
// tab so that the caret lines up whatever the tab width.
func blank(r rune) string {
	if r == '\t' {
		return "\t"
	}
	return strings.Repeat(" ", columns(r))
}

// columns estimates how many terminal cells a character takes: none for
// combining marks, two for the wide East Asian blocks.
func columns(r rune) int {
	switch {
	case unicode.Is(unicode.Mn, r):
		return 0
	case r >= 0x1100 && (r <= 0x115f || r >= 0x2e80 && r <= 0xa4cf || r >= 0xac00 && r <= 0xd7a3 ||
		r >= 0xf900 && r <= 0xfaff || r >= 0xfe30 && r <= 0xfe6f || r >= 0xff00 && r <= 0xff60 || r >= 0x1f300 && r <= 0x1faff):
		return 2
	}
	return 1
}

// visible replaces control and direction-changing characters, so that a
// hostile file can neither steer a terminal nor disguise what it says.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return r
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == utf8.RuneError:
			return '\ufffd'
		}
		return r
	}, text)
}

// jsonFinding is the form of a finding for editors and scripts.
type jsonFinding struct {
	Rule     string        `json:"rule"`
	Severity Severity      `json:"severity"`
	File     string        `json:"file"`
	Line     int           `json:"line"`
	Column   int           `json:"column"`
	EndLine  int           `json:"endLine"`
	EndCol   int           `json:"endColumn"`
	Message  string        `json:"message"`
	Remedy   string        `json:"remedy"`
	Silenced string        `json:"silenced,omitempty"`
	Related  []jsonRelated `json:"related,omitempty"`
}

type jsonRelated struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Says   string `json:"says"`
}

// MarshalJSON writes rule, severity, file, line, column, message and remedy.
func (f Finding) MarshalJSON() ([]byte, error) {
	from := f.At.Position()
	to := Span{File: f.At.File, Start: f.At.End}.Position()
	out := jsonFinding{f.Rule.Name, f.Severity(), f.At.Name(), from.Line, from.Column, to.Line, to.Column, f.Says.String(), f.Do.String(),
		f.Silenced, nil}
	for _, r := range f.Related {
		if !r.At.Known() { // part of what is said
			r.At = f.At
		}
		p := r.At.Position()
		out.Related = append(out.Related, jsonRelated{r.At.Name(), p.Line, p.Column, r.Says.String()})
	}
	text, err := json.Marshal(out)
	return escaped(text), err
}

// escaped writes the characters that visible replaces as JSON escapes, which
// keep them: findings are also read on a terminal.
func escaped(text []byte) []byte {
	var out []byte
	for i, r := range string(text) {
		size := utf8.RuneLen(r)
		switch {
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
			out = fmt.Appendf(out, `\u%04x`, r)
		case size > 0:
			out = append(out, text[i:i+size]...)
		}
	}
	return out
}

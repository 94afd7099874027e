package journal

import (
	"regexp"
	"strings"

	"spruelight/gen/source"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// ruleCut is broken by a # that most likely belongs to a text, and ends it.
var ruleCut = &source.Rule{Name: "cut-by-hash", Severity: source.Warn, Source: "YAML 1.2.2, section 6.6",
	Reason: "A # after a blank begins a comment, so that the rest of a text without quotes is lost.",
	Keys:   source.EveryKey}

// cutting is a # that looks like a part of the text before it: one blank parts
// the two, and a letter or a figure follows, as in "Lamp #3" or "No. # 3". What
// stands two blanks away, or has a blank behind the # and then words, is a
// comment in its own right.
var cutting = regexp.MustCompile(`^[ \t](#[\pL\pN].*|#[ \t]\pN.*)`)

// cut reports a plain text that a # ends. Only free texts are looked at: a word
// that the program knows, a number or a name is right or wrong as it was read.
func (d *decoder) cut(node ast.Node, key string, at source.Span) {
	n, ok := node.(*ast.StringNode)
	if !ok || n.GetToken().Type != token.StringType {
		return
	}
	end := endOfPlain(d.file.Text, at.Start, n.Value)
	line, _, _ := strings.Cut(d.file.Text[end:], "\n")
	m := cutting.FindStringSubmatch(line)
	if m == nil {
		return
	}
	lost := strings.TrimRight(m[1], " \t\r")
	whole := strings.ReplaceAll(n.Value+" "+lost, `"`, `\"`)
	do := source.Say(`put the whole into quotes: "%s"; a comment stands two blanks away`, whole)
	if key != "" {
		do = source.Say(`put the whole into quotes: %s: "%s"; a comment stands two blanks away`, key, whole)
	}
	where := d.file.At(end+1, len(lost))
	d.add(ruleCut.At(where, do, "%q is read, and %q after it is taken for a comment", n.Value, lost))
}

// endOfPlain returns the offset behind a plain text that begins at another one:
// it may run over several lines, which are folded when it is read.
func endOfPlain(text string, start int, value string) int {
	at := start
	for i, word := range strings.Fields(value) {
		if i > 0 {
			at += len(text[at:]) - len(strings.TrimLeft(text[at:], " \t\r\n"))
		}
		if !strings.HasPrefix(text[at:], word) {
			return start + len(strings.TrimRight(text[start:], " \t\r\n"))
		}
		at += len(word)
	}
	return at
}

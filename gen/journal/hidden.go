package journal

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"spruelight/gen/source"

	"github.com/yuin/goldmark/ast"
)

// ruleHidden keeps out characters that do something and show nothing. Marks
// that only give a neighbour its direction (U+200E, U+200F, U+061C) may stand:
// words in Hebrew and Arabic need no more.
var ruleHidden = &source.Rule{Name: "hidden-character", Severity: source.Stop,
	Reason: "A character that cannot be seen can steer a terminal, turn the order of what is read around, or make the page invalid.",
	Source: "HTML Standard, 13.2.3.5 (controls, noncharacters); Unicode Technical Standard 55 (characters that change the direction)",
	Keys:   source.NoKey}

// hidden reports whether a character may not stand in a text: controls but
// tab and line ends, noncharacters, and those that open or close a stretch of
// another direction.
func hidden(r rune) bool {
	switch {
	case r == '\t' || r == '\n' || r == '\r':
		return false
	case r < ' ', r >= 0x7f && r <= 0x9f:
		return true
	case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return true
	case r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe:
		return true
	}
	return false
}

// hiddenKind says in words what a hidden character does.
func hiddenKind(r rune) string {
	switch {
	case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return "a character that turns the direction of the text"
	case r < ' ', r >= 0x7f && r <= 0x9f:
		return "a control character"
	}
	return "a character that means nothing"
}

func hiddenAt(at source.Span, r rune) source.Finding {
	return ruleHidden.At(at, "delete it and type the words anew", "%s, U+%04X, stands here and cannot be seen", hiddenKind(r), r)
}

// mostHidden is how many hidden characters of a file are listed.
const mostHidden = 10

// hiddenIn finds the hidden characters of a file, the first of each line.
func hiddenIn(file *source.File) (found source.Findings) {
	if strings.IndexFunc(file.Text, hidden) < 0 {
		return nil
	}
	at := 0
	for line := range strings.Lines(file.Text) {
		if i := strings.IndexFunc(line, hidden); i >= 0 && len(found) < mostHidden {
			r, size := utf8.DecodeRuneInString(line[i:])
			found.Add(hiddenAt(file.At(at+i, size), r))
		}
		at += len(line)
	}
	return found
}

// hiddenEscape finds a hidden character that a value in double quotes writes
// as an escape, such as "\u202e".
func hiddenEscape(value string, at source.Span) source.Findings {
	i := strings.IndexFunc(value, hidden)
	if i < 0 || strings.IndexFunc(at.Text(), hidden) >= 0 {
		return nil // none, or one that was found when the file was read
	}
	r, _ := utf8.DecodeRuneInString(value[i:])
	return source.Findings{hiddenAt(at, r)}
}

// reference is a character written by its number in Markdown (CommonMark 0.31,
// section 2.5).
var reference = regexp.MustCompile(`&#(?:[xX]([0-9a-fA-F]{1,6})|([0-9]{1,7}));`)

// hiddenReferences finds hidden characters that a body writes by number, such
// as &#x202e;. What is shown as it stands, code and HTML, holds none.
func (b *Body) hiddenReferences() (found source.Findings) {
	if !strings.Contains(string(b.text), "&#") {
		return nil
	}
	literal := make([]bool, len(b.text)+1)
	shownAsIs := func(start, stop int) {
		for i := start; i < min(stop, len(literal)); i++ {
			literal[i] = true
		}
	}
	ast.Walk(b.doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.Text:
			if p := n.Parent(); entering && p.Kind() == ast.KindCodeSpan {
				shownAsIs(n.Segment.Start, n.Segment.Stop)
			}
		case *ast.RawHTML:
			for i := 0; entering && i < n.Segments.Len(); i++ {
				shownAsIs(n.Segments.At(i).Start, n.Segments.At(i).Stop)
			}
		case *ast.CodeBlock, *ast.FencedCodeBlock, *ast.HTMLBlock:
			for i := 0; entering && i < n.Lines().Len(); i++ {
				shownAsIs(n.Lines().At(i).Start, n.Lines().At(i).Stop)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, m := range reference.FindAllSubmatchIndex(b.text, -1) {
		r := referenced(b.text, m)
		escaped := 0
		for i := m[0] - 1; i >= 0 && b.text[i] == '\\'; i-- {
			escaped++
		}
		if hidden(r) && r != 0 && !literal[m[0]] && escaped%2 == 0 && len(found) < mostHidden {
			found.Add(ruleHidden.At(b.file.At(b.start+m[0], m[1]-m[0]), "delete it", "%s, U+%04X, is written by its number and cannot be seen",
				hiddenKind(r), r))
		}
	}
	return found
}

func referenced(text []byte, m []int) rune {
	digits, base := m[2:4], 16
	if digits[0] < 0 {
		digits, base = m[4:6], 10
	}
	n, err := strconv.ParseInt(string(text[digits[0]:digits[1]]), base, 32)
	if err != nil {
		panic(fmt.Sprintf("journal: %v", err)) // the expression admits digits alone
	}
	return rune(n)
}

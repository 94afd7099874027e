package journal

import (
	"errors"
	"regexp"
	"strings"

	"spruelight/gen/source"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

var ruleSyntax = &source.Rule{Name: "syntax", Severity: source.Stop, Source: "YAML 1.2",
	Reason: "Front matter that is not valid YAML cannot be read at all.",
	Keys:   source.NoKey}

// blankEnds are blanks and carriage returns before the end of a line. The
// parser counts the former into the column of the value before them.
var blankEnds = regexp.MustCompile(`[ \t\r]+(\n|$)`)

// parse returns the syntax tree's body, nil for an empty text. Its lines and
// columns are those of the text.
func (d *decoder) parse(text string) (node ast.Node, ok bool) {
	defer func() {
		if r := recover(); r != nil { // the parser is not ours; its panic must not lose the run
			d.add(ruleSyntax.At(d.file.At(d.base, 0), "check quotes, brackets and indentation", "the front matter cannot be parsed"))
			node, ok = nil, false
		}
	}()
	if len(text) > maxFront {
		d.add(ruleLimit.At(d.file.At(d.base, 0), "move long text below the front matter",
			"the front matter is %d KiB long; at most %d KiB are read", len(text)>>10, maxFront>>10))
		return nil, false
	}
	tokens := lexer.Tokenize(blankEnds.ReplaceAllString(text, "$1"))
	if !d.bounded(tokens) {
		return nil, false
	}
	tree, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		d.syntax(err)
		return nil, false
	}
	if len(tree.Docs) == 0 {
		return nil, true
	}
	if len(tree.Docs) > 1 {
		d.add(ruleSyntax.At(d.file.At(d.base, 0), "keep one document, without further --- lines", "more than one YAML document"))
		return nil, false
	}
	return tree.Docs[0].Body, true
}

// bounded checks the limits that must hold before tokens become a tree: the
// lexer's work grows with the text, the parser's with the square of the keys
// and marks that stand side by side outside brackets.
func (d *decoder) bounded(tokens token.Tokens) bool {
	depth, keys, marks, line, onLine := 0, 0, 0, 0, 0
	over := func(t *token.Token, remedy, format string, args ...any) bool {
		at := d.offset(t.Position.Line, t.Position.Column)
		d.add(ruleLimit.At(d.file.At(d.base+at, 1), remedy, format, args...))
		return false
	}
	for _, t := range tokens {
		if t.Position.Line != line {
			line, onLine = t.Position.Line, 0
		}
		if depth <= 0 {
			onLine++
		}
		switch t.Type {
		case token.MappingStartType, token.SequenceStartType:
			depth++
		case token.MappingEndType, token.SequenceEndType:
			depth--
		case token.MappingValueType:
			if depth <= 0 {
				keys++
			}
		case token.AnchorType, token.AliasType, token.TagType, token.MergeKeyType, token.MappingKeyType, token.DocumentHeaderType,
			token.DocumentEndType:
			marks++
		}
		switch {
		case depth > maxDepth:
			return over(t, "flatten the list", "more than %d brackets inside one another", maxDepth)
		case keys > maxBlockKeys:
			return over(t, "split the file, or write entries on one line in braces", "more than %d keys on lines of their own", maxBlockKeys)
		case marks > maxMarks:
			return over(t, "write the values out", "more than %d anchors, aliases, tags and --- lines", maxMarks)
		case onLine > maxOnLine:
			return over(t, "break the line", "more than %d keys and marks on one line", maxOnLine)
		}
	}
	return true
}

func (d *decoder) syntax(err error) {
	at, says := d.file.At(d.base, 0), err.Error()
	var e yaml.Error
	if errors.As(err, &e) {
		says = e.GetMessage()
		if t := e.GetToken(); t != nil && t.Position != nil {
			at = d.file.At(d.base+d.offset(t.Position.Line, t.Position.Column), 1)
			if s, ok := slipOf(d.text.Line(t.Position.Line)); ok {
				start := d.text.Offset(t.Position.Line, 1) + s.from
				d.add(ruleSyntax.At(d.file.At(d.base+start, s.length), s.do, "this is not YAML: %s", source.Word(s.says)))
				return
			}
		}
	}
	says, _, _ = strings.Cut(says, "\n")
	for _, p := range parserWords {
		if strings.Contains(says, p.sign) {
			d.add(ruleSyntax.At(at, p.remedy, "this is not YAML: %s", source.Word(p.says)))
			return
		}
	}
	d.add(ruleSyntax.At(at, "check quotes, brackets and indentation; a value that holds \": \" or \" #\" needs quotes",
		"this is not YAML: %s", says))
}

// parserWords put what the parser says into the words of somebody who writes.
var parserWords = []struct{ sign, says, remedy string }{
	{"',' or ']'", "a list before this is not closed", "close it with ], or put a comma between its entries"},
	{"token ']'", "a list is not closed", "close it with ]"},
	{"',' or '}'", "a mapping before this is not closed", "close it with }, or put a comma between its entries"},
	{"token '}'", "a mapping is not closed", "close it with }"},
	{"corresponding to ']'", "this ] closes nothing", "delete it, or open the list with ["},
	{"corresponding to '}'", "this } closes nothing", "delete it, or open the mapping with {"},
	{"of double-quoted", "a text in quotes is not closed", `close it with "; inside it, a quote is written \"`},
	{"of single-quoted", "a text in quotes is not closed", "close it with '; inside it, an apostrophe is written twice"},
	{"mapping value is not allowed", "two values stand on one line", `put a value that holds ": " in quotes`},
	{"pre-defined", "a value stands before this that does not end, or is indented differently", "check the quotes of the line before, and indent both alike"},
	{"'\t'", "a tab stands where blanks are wanted", "indent with blanks"},
	{"tab character", "a tab stands where blanks are wanted", "indent with blanks"},
	{"reserved character", "a value begins with a character that YAML keeps for itself", "put it in quotes"},
	{"unexpected key name", "this line is neither key: value nor an entry of a list", "write key: value, indented like the lines beside it"},
	{"non-map value", "this line is neither key: value nor an entry of a list", "write key: value, indented like the lines beside it"},
}

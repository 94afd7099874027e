package journal

import (
	"regexp"
	"strings"

	"spruelight/gen/source"
)

// slip is what is most likely wrong where YAML cannot go on: a parser only
// says what it met, and a modeller is no programmer.
type slip struct {
	says         string
	do           source.Message
	from, length int // bytes in the line
}

var (
	tabbed      = regexp.MustCompile(`^ *(\t+)`)
	secondColon = regexp.MustCompile(`^\s*(?:- )?([^"':{\[#]+): +([^"'{\[|>&*!].*?:(?: .*|))$`)
	spacedRatio = regexp.MustCompile(`^(\d+) *: *(\d+)$`)
	wordQuotes  = regexp.MustCompile(`[“”„«»‘’‚]`)
)

// slipOf looks for the usual slips in a line: a tab that indents, a second
// colon in a value, a word processor's quotes.
func slipOf(line string) (slip, bool) {
	if m := tabbed.FindStringSubmatchIndex(line); m != nil {
		return slip{"a tab stands before the text", source.Word("put spaces in its place; YAML indents with spaces alone"), m[2], m[3] - m[2]},
			true
	}
	m := secondColon.FindStringSubmatchIndex(line)
	if m == nil {
		return hashSlip(line)
	}
	key, value := strings.TrimSpace(line[m[2]:m[3]]), strings.TrimSpace(line[m[4]:m[5]])
	s := slip{"the value holds a colon with a space after it, as if it were a key", source.Message{}, m[4], len(value)}
	bare := strings.TrimSpace(wordQuotes.ReplaceAllString(value, ""))
	switch {
	case spacedRatio.MatchString(value):
		s.do = source.Say("write it without spaces: %s: %s", key, spacedRatio.ReplaceAllString(value, "$1:$2"))
	case bare != value:
		s.do = source.Say(`use straight quotes, not a word processor's: %s: "%s"`, key, bare)
	default:
		s.do = source.Say(`put it into quotes: %s: "%s"`, key, strings.ReplaceAll(value, `"`, `\"`))
	}
	return s, true
}

// cutInside is a # within brackets that looks like a part of a text.
var cutInside = regexp.MustCompile(`[\[{][^"'\]}]*?([^\s"'\[{,:]+[ \t]#[\pL\pN][^\],}]*)`)

// hashSlip looks for a # within brackets that ends the line as a comment.
func hashSlip(line string) (slip, bool) {
	m := cutInside.FindStringSubmatchIndex(line)
	if m == nil {
		return slip{}, false
	}
	text := strings.TrimSpace(line[m[2]:m[3]])
	return slip{"a # after a blank begins a comment, and takes the bracket that closes with it",
		source.Say(`put the text with it into quotes, like "%s"`, text), m[2], len(text)}, true
}

// decimalComma is a number cut in two by a comma within { } or [ ].
var decimalComma = regexp.MustCompile(`^,\d`)

// cutByComma reports whether a value ends before a decimal comma.
func cutByComma(text string, end int) bool {
	return end > 0 && end < len(text) && text[end-1] >= '0' && text[end-1] <= '9' && decimalComma.MatchString(text[end:])
}

// restOfNumber reports whether a key is what a decimal comma cut off.
func restOfNumber(text string, start int) bool {
	return start > 1 && cutByComma(text, start-1)
}

// whole returns the number that a comma cut in two, with a point: "39.90 EUR".
func whole(text string, end int) string {
	from := end
	for from > 0 && text[from-1] >= '0' && text[from-1] <= '9' {
		from--
	}
	rest := text[end+1:]
	if i := strings.IndexAny(rest, ",}]\n"); i >= 0 {
		rest = rest[:i]
	}
	return text[from:end] + "." + strings.TrimSpace(rest)
}

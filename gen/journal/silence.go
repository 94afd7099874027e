package journal

import (
	"strings"

	"spruelight/gen/source"
)

// Silence keeps a rule quiet, with the reason that is printed in its place.
type Silence struct {
	At  source.Span
	Why Text   `key:"why,required,short" doc:"The reason, printed beside what the rule says" eg:"these lamps are meant to glow only"`
	On  []Text `key:"on" doc:"Only findings whose words name one of these, a branch, a lamp, an area or a part; all findings of the rule when not given" eg:"[saloon fore]"`
}

// Covers reports whether a silence is for a finding of its rule.
func (s *Silence) Covers(f *source.Finding) bool {
	if len(s.On) == 0 {
		return true
	}
	for _, on := range s.On {
		if on.V != "" && names(f.Says.String(), on.V) {
			return true
		}
	}
	return false
}

// names reports whether a name stands in a text by itself: D1 does not stand
// in "D12 is dark".
func names(text, name string) bool {
	for at := 0; ; {
		i := strings.Index(text[at:], name)
		if i < 0 {
			return false
		}
		from, to := at+i, at+i+len(name)
		if (from == 0 || !inWord(text[from-1])) && (to == len(text) || !inWord(text[to])) {
			return true
		}
		at = from + 1
	}
}

// inWord reports whether a byte belongs to a word; those of letters beyond
// ASCII do.
func inWord(c byte) bool {
	return c == '-' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80
}

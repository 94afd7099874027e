package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity says what a finding means for the run.
type Severity int

const (
	Note Severity = iota // worth knowing
	Warn                 // probably wrong; the run goes on
	Stop                 // prevents a correct result: nothing is written
)

// String returns the word printed for a severity: note, warn or stop.
func (s Severity) String() string { return [...]string{"note", "warn", "stop"}[s] }

// MarshalText writes the word, for JSON.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Rule is one thing that is checked. Rules are declared once, next to the code
// that checks them, and listed in the guide.
type Rule struct {
	Name     string // lower case with hyphens, such as "lamp-over-limit"
	Severity Severity
	Reason   string // why it matters, one or two sentences
	Source   string // standard, handbook or data sheet; else "common practice, no source"
	Keys     string // keys it looks at: "build circuits[]: supply, fuse; sitting: lit"; EveryKey or NoKey
}

// What a rule looks at where it is no key by name.
const (
	EveryKey = "every key"
	NoKey    = "no key" // whole files, text, pictures, the theme's files
)

// Key is a key of a kind of file, such as "circuits[].supply" of "build".
type Key struct{ Kind, Path string }

// LooksAt lists the keys that a rule names. They are written by kind of file and
// mapping, a colon, and the keys in it.
func (r *Rule) LooksAt() []Key {
	var keys []Key
	for group := range strings.SplitSeq(r.Keys, "; ") {
		at, list, ok := strings.Cut(group, ": ")
		if !ok {
			continue
		}
		kind, within, nested := strings.Cut(at, " ")
		if nested {
			within += "."
		}
		for key := range strings.SplitSeq(list, ", ") {
			keys = append(keys, Key{kind, within + key})
		}
	}
	return keys
}

// Why and From are the reason and the source as something to say.
func (r *Rule) Why() Message  { return Word(r.Reason) }
func (r *Rule) From() Message { return Word(r.Source) }

// At returns a finding of the rule at a place. The form says in lower case and
// without a full stop what was found, with its values as in a Message. What to
// do about it is a text without values or a Message.
func (r *Rule) At(at Span, do any, form string, args ...any) Finding {
	if false { // has go vet hold the values against the form
		return Finding{Silenced: fmt.Sprintf(form, args...)}
	}
	return Finding{Rule: r, At: at, Says: Say(form, args...), Do: MessageOf(do)}
}

// Finding is something a check has to say about a place.
type Finding struct {
	Rule      *Rule
	At        Span
	Says      Message   // what was found
	Do        Message   // what to do about it; empty where nothing is
	Related   []Related // other places that belong to it
	Silenced  string    // the reason the workshop gave for silencing it, else ""
	Withheld  bool      // it rests on what the site must not mention yet
	Overruled bool      // a stop that counts as a warning, since the workshop goes on all the same
}

// Related is a further place that helps to understand a finding.
type Related struct {
	At   Span
	Says Message
}

// Severity is that of the rule, unless it is overruled.
func (f Finding) Severity() Severity {
	if f.Overruled {
		return min(f.Rule.Severity, Warn)
	}
	return f.Rule.Severity
}

// With returns the finding with a related place added.
func (f Finding) With(at Span, form string, args ...any) Finding {
	if false { // has go vet hold the values against the form
		f.Silenced = fmt.Sprintf(form, args...)
	}
	f.Related = append(slices.Clip(f.Related), Related{At: at, Says: Say(form, args...)})
	return f
}

// Findings are the findings of a run.
type Findings []Finding

// Add appends findings.
func (f *Findings) Add(found ...Finding) { *f = append(*f, found...) }

// Key tells a finding from every other: two of one key say the same of one place.
func (f Finding) Key() string {
	return fmt.Sprintf("%s\x00%d\x00%s\x00%s", f.At.Name(), f.At.Start, f.Rule.Name, f.Says)
}

// Worst returns the highest severity among findings that are not silenced, and
// false where there are none.
func (f Findings) Worst() (Severity, bool) {
	worst, any := Note, false
	for _, x := range f {
		if x.Silenced == "" {
			worst, any = max(worst, x.Severity()), true
		}
	}
	return worst, any
}

// Veiled returns the findings as they may be published: of those that rest on
// what the site must not mention yet, only the rule and how bad it is.
func (f Findings) Veiled() Findings {
	out := slices.Clone(f)
	for i := range out {
		if x := &out[i]; x.Withheld {
			*x = Finding{Rule: x.Rule, Says: Word("this rests on something that is held back"), Withheld: true, Overruled: x.Overruled,
				Do: Word("run spruelight dryfit, which says what and where")}
			if f[i].Silenced != "" {
				x.Silenced = "a reason that is held back"
			}
		}
	}
	return out
}

// Stops reports whether a finding forbids writing a result.
func (f Findings) Stops() bool {
	worst, any := f.Worst()
	return any && worst == Stop
}

// Count returns how many unsilenced findings have the severity.
func (f Findings) Count(s Severity) int {
	n := 0
	for _, x := range f {
		if x.Silenced == "" && x.Severity() == s {
			n++
		}
	}
	return n
}

// Sort puts findings in a fixed order, so that parallel work prints the same
// every time, and drops exact repeats: by file and line, causes before what
// follows. What all builds share comes before the builds, a build before its
// sittings; in a line what stops comes first.
func (f *Findings) Sort() {
	list := make([]placed, len(*f))
	for i, x := range *f {
		list[i] = placed{x, rank(x.At.Name()), x.At.Position().Line}
	}
	slices.SortStableFunc(list, compare)
	list = slices.CompactFunc(list, func(a, b placed) bool { return compare(a, b) == 0 })
	*f = (*f)[:0]
	for _, x := range list {
		*f = append(*f, x.Finding)
	}
}

// placed is a finding with what it is sorted by.
type placed struct {
	Finding
	rank string // of its file
	line int
}

// rank sorts files: those without a name, the workshop's, the rack, the shelf,
// then each build with its own file first, the wall, and others such as a theme's.
func rank(name string) string {
	top, rest, _ := strings.Cut(name, "/")
	switch {
	case name == "":
		return "0"
	case name == "workshop.yaml":
		return "1"
	case top == "rack":
		return "2" + rest
	case name == "shelf.yaml":
		return "3"
	case top == "builds":
		slug, file, _ := strings.Cut(rest, "/")
		if file == "build.md" {
			file = ""
		}
		return "4" + slug + "\x00" + file
	case top == "wall":
		return "5" + rest
	}
	return "6" + name
}

func compare(a, b placed) int {
	return cmp.Or(
		cmp.Compare(a.rank, b.rank),
		cmp.Compare(a.line, b.line),
		cmp.Compare(b.Severity()/Stop, a.Severity()/Stop),
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.Rule.Name, b.Rule.Name),
		cmp.Compare(a.Says.String(), b.Says.String()),
	)
}

// Since returns the findings that were not among those before. Where a finding
// stands in its file does not count: a line more above it makes no news of it.
func (f Findings) Since(before Findings) Findings {
	type same struct {
		file, rule, message, silenced string
		severity                      Severity
	}
	key := func(x Finding) same { return same{x.At.Name(), x.Rule.Name, x.Says.String(), x.Silenced, x.Severity()} }
	known := map[same]int{}
	for _, x := range before {
		known[key(x)]++
	}
	var fresh Findings
	for _, x := range f {
		if known[key(x)]--; known[key(x)] < 0 {
			fresh = append(fresh, x)
		}
	}
	return fresh
}

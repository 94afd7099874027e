package source

import (
	"cmp"
	"fmt"
	"slices"
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
}

// At returns a finding of the rule at a place. The message says in lower case
// and without a full stop what was found, the remedy what to do about it.
func (r Rule) At(at Span, remedy, format string, args ...any) Finding {
	return Finding{Rule: r.Name, Severity: r.Severity, At: at, Remedy: remedy, Message: fmt.Sprintf(format, args...)}
}

// Finding is something a check has to say about a place.
type Finding struct {
	Rule     string
	Severity Severity
	At       Span
	Message  string
	Remedy   string
	Related  []Related // other places that belong to it
	Silenced string    // the reason the workshop gave for silencing it, else ""
}

// Related is a further place that helps to understand a finding.
type Related struct {
	At   Span
	Says string
}

// With returns the finding with a related place added.
func (f Finding) With(at Span, says string) Finding {
	f.Related = append(slices.Clip(f.Related), Related{At: at, Says: says})
	return f
}

// Findings are the findings of a run.
type Findings []Finding

// Add appends findings.
func (f *Findings) Add(found ...Finding) { *f = append(*f, found...) }

// Worst returns the highest severity among findings that are not silenced, and
// false where there are none.
func (f Findings) Worst() (Severity, bool) {
	worst, any := Note, false
	for _, x := range f {
		if x.Silenced == "" {
			worst, any = max(worst, x.Severity), true
		}
	}
	return worst, any
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
		if x.Silenced == "" && x.Severity == s {
			n++
		}
	}
	return n
}

// Sort puts findings in a fixed order (file, place, rule, message) and drops
// exact repeats, so that parallel work prints the same every time.
func (f *Findings) Sort() {
	slices.SortStableFunc(*f, compare)
	*f = slices.CompactFunc(*f, func(a, b Finding) bool { return compare(a, b) == 0 })
}

func compare(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(a.At.Name(), b.At.Name()),
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Message, b.Message),
	)
}

// Since returns the findings that were not among those before. Where a finding
// stands in its file does not count: a line more above it makes no news of it.
func (f Findings) Since(before Findings) Findings {
	type same struct {
		file, rule, message, silenced string
		severity                      Severity
	}
	key := func(x Finding) same { return same{x.At.Name(), x.Rule, x.Message, x.Silenced, x.Severity} }
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

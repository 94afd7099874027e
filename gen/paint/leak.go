package paint

import (
	"strings"
	"time"

	"spruelight/gen/source"
)

// Leak is light seen where none is wanted.
type Leak struct {
	Where  source.Value[string]
	Cause  source.Value[string] // seam, thin plastic, pinhole …
	Action source.Value[string] // "sealed", "accepted", or nothing yet
	Why    source.Value[string] // the reason where it was accepted
	Found  time.Time
	Check  LeakCheck // the check that found it
}

// LeakCheck says at which point the dark-room check was made.
type LeakCheck int

// The leak checks.
const (
	AnyCheck LeakCheck = iota
	BeforePrimer
	AfterPrimer
)

var checks = []choice[LeakCheck]{{AnyCheck, []string{"leak check"}}, {BeforePrimer, []string{"before primer"}}, {AfterPrimer, []string{"after primer"}}}

// String names the check.
func (c LeakCheck) String() string { return spell(checks, c) }

// ReadLeakCheck reads "before primer" or "after primer".
func ReadLeakCheck(v source.Value[string]) (source.Value[LeakCheck], []source.Finding) {
	return readWord(v, checks[1:], "a leak check")
}

var (
	ruleLeakOpen = &source.Rule{Name: "leak-open", Severity: source.Warn, Source: practice,
		Reason: "A leak is sealed easily while the shell is open and hardly at all afterwards.",
		Keys:   "sitting leaks[]: where, action"}
	ruleLeakReason = &source.Rule{Name: "leak-accepted-without-reason", Severity: source.Note, Source: practice,
		Reason: "Whoever opens the model later wants to know why a leak was left.",
		Keys:   "sitting leaks[]: action, why"}
)

// Sealed reports whether the leak was sealed.
func (l *Leak) Sealed() bool { return strings.EqualFold(strings.TrimSpace(l.Action.V), "sealed") }

// Accepted reports whether the leak was left on purpose.
func (l *Leak) Accepted() bool { return strings.EqualFold(strings.TrimSpace(l.Action.V), "accepted") }

// Open reports whether nothing was decided about the leak.
func (l *Leak) Open() bool { return !l.Sealed() && !l.Accepted() }

// check reports a leak that was not dealt with.
func (l *Leak) check(area string) []source.Finding {
	switch {
	case l.Open() && l.Action.Set:
		return []source.Finding{ruleLeakOpen.At(l.Action.At, "write action: sealed, or action: accepted with why",
			"%s: %q does not say whether the leak at %s was sealed or accepted", area, l.Action.V, l.Where.V)}
	case l.Open():
		return []source.Finding{ruleLeakOpen.At(l.Where.At, "seal it and write action: sealed, or accept it and say why",
			"%s: the leak at %s is neither sealed nor accepted", area, l.Where.V)}
	case l.Accepted() && strings.TrimSpace(l.Why.V) == "":
		return []source.Finding{ruleLeakReason.At(l.Action.At, "add why", "%s: the leak at %s was accepted without a reason", area, l.Where.V)}
	}
	return nil
}

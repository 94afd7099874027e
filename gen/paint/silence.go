package paint

import (
	"strings"

	"spruelight/gen/source"
)

// Rules of silencing, which hold for areas, builds and the workshop.
var (
	// RuleSilenceReason is broken by a silence that does not say why.
	RuleSilenceReason = &source.Rule{Name: "silence-without-reason", Severity: source.Warn, Source: "house rule",
		Reason: "A silenced rule is printed with its reason, so that a reader can judge it; without one it stays in force.",
		Keys: "build: silence; build silence.<name>: why; build areas.<name>: silence; workshop: silence; " +
			"workshop silence.<name>: why"}
	// RuleSilenceStop is broken by a silence for what forbids a result.
	RuleSilenceStop = &source.Rule{Name: "silence-of-stop", Severity: source.Warn, Source: "house rule",
		Reason: "What stops a run would give a wrong result or none; it is mended, not silenced.",
		Keys:   "build: silence; build areas.<name>: silence; workshop: silence"}
	// RuleSilenceRule is broken by a silence for a rule that does not exist.
	RuleSilenceRule = &source.Rule{Name: "silence-unknown-rule", Severity: source.Warn, Source: "house rule",
		Reason: "A misspelt rule silences nothing.",
		Keys:   "build: silence; build areas.<name>: silence; workshop: silence"}
	// RuleSilenceIdle is broken by a silence for which there is nothing.
	RuleSilenceIdle = &source.Rule{Name: "silence-idle", Severity: source.Note, Source: "house rule",
		Reason: "A silence that no longer silences anything may hide the next real finding.",
		Keys: "build: silence; build silence.<name>: on; build areas.<name>: silence; workshop: silence; " +
			"workshop silence.<name>: on"}
)

// SilenceRules are the rules of silencing, in the order of the guide.
var SilenceRules = []*source.Rule{RuleSilenceReason, RuleSilenceRule, RuleSilenceStop, RuleSilenceIdle}

// silence marks the findings of an area that it silences with its reason, and
// reports silences that are wrong or idle.
func (a *Area) silence(found []source.Finding) []source.Finding {
	var extra []source.Finding
	for _, s := range a.Silence {
		reason := strings.TrimSpace(s.Value.V)
		rule := ruleNamed(s.Name.V)
		switch {
		case rule == nil:
			extra = append(extra, RuleSilenceRule.At(s.Name.At, "take the name from between the brackets of the finding",
				"%s: %q is no rule of the finish", a.Name.V, s.Name.V))
			continue
		case rule.Severity == source.Stop:
			extra = append(extra, RuleSilenceStop.At(s.Name.At, "mend what it reports; only warnings and notes can be silenced",
				"%s: %s forbids a result and cannot be silenced", a.Name.V, s.Name.V))
			continue
		case reason == "":
			extra = append(extra, RuleSilenceReason.At(s.Name.At, "add why",
				"%s: %s is silenced without a reason, so it stays in force", a.Name.V, s.Name.V))
			continue
		}
		idle := true
		for i := range found {
			if found[i].Rule == rule && found[i].Severity() != source.Stop {
				found[i].Silenced, idle = reason, false
			}
		}
		if idle {
			extra = append(extra, RuleSilenceIdle.At(s.Name.At, "remove it, or keep it for what is still to come",
				"%s: %s is silenced but nothing speaks", a.Name.V, s.Name.V))
		}
	}
	return append(found, extra...)
}

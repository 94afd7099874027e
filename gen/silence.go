package gen

import (
	"slices"
	"strings"

	"spruelight/gen/guide"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/source"
)

// silences are what a build or the workshop says of rules that shall not speak.
type silences = source.Entries[journal.Silence]

// quiet marks findings that a build, or else the workshop, silences. What stops
// a run stays in force.
func quiet(found []source.Finding, by ...silences) {
	for i := range found {
		f := &found[i]
		if f.Silenced != "" || f.Rule.Severity == source.Stop {
			continue
		}
		covers := func(e source.Entry[journal.Silence]) bool { return e.Name.V == f.Rule.Name && e.Value.Covers(f) }
		for _, s := range by {
			if k := slices.IndexFunc(s, covers); k >= 0 {
				f.Silenced = strings.TrimSpace(s[k].Value.Why.V)
				break
			}
		}
	}
}

// settle puts the findings of a pass in order: those that are silenced are
// marked, what one closing left open is one finding, and silences that are wrong
// or idle are reported.
func settle(found *source.Findings, shop *journal.Workshop) {
	of := shop.Settings.Silence
	found.Sort()
	quietIn(*found, shop)
	each := slices.Clone(*found)
	*found = paint.FoldClosings(withoutEchoes(*found))
	quietIn(*found, shop)
	each.Add(*found...)
	found.Add(checkSilences(each, "the workshop", of)...)
	for _, b := range shop.Builds {
		found.Add(checkSilences(each, b.Front.Name.Or(b.Slug), b.Front.Silence)...)
	}
	found.Sort()
}

// quietIn marks the findings that a workshop or the builds they stand in silence.
func quietIn(found source.Findings, shop *journal.Workshop) {
	for i := range found {
		var own silences
		if rest, ok := strings.CutPrefix(found[i].At.Name(), "builds/"); ok {
			slug, _, _ := strings.Cut(rest, "/")
			if b, ok := shop.Build(slug); ok {
				own = b.Front.Silence
			}
		}
		quiet(found[i:i+1], own, shop.Settings.Silence)
	}
}

// withoutEchoes leaves out what other rooms say of a value that could not be
// read, or of a name that is not on the rack, at its very place: one slip is
// one finding.
func withoutEchoes(found source.Findings) source.Findings {
	type place struct {
		file  string
		start int
	}
	unread := map[place]*source.Rule{}
	at := func(f source.Finding) place { return place{f.At.Name(), f.At.Start} }
	for _, f := range found {
		if f.At.Known() && (f.Rule.Name == "value" || f.Rule.Name == "unknown-name") {
			unread[at(f)] = f.Rule
		}
	}
	return slices.DeleteFunc(found, func(f source.Finding) bool {
		rule, echoed := unread[at(f)]
		return echoed && f.Rule != rule
	})
}

// checkSilences reports silences of rules that there are not or that stop a
// run, without a reason, and for nothing.
func checkSilences(spoken source.Findings, of string, list silences) source.Findings {
	var found source.Findings
	for i := range list {
		name, s := list[i].Name, &list[i].Value
		rule := guide.RuleOf(name.V)
		switch {
		case rule == nil:
			found.Add(paint.RuleSilenceRule.At(name.At, nearestRule(name.V), "%s: %q is no rule", of, name.V))
		case rule.Severity == source.Stop:
			found.Add(paint.RuleSilenceStop.At(name.At, "mend what it reports; only warnings and notes can be silenced",
				"%s: %s forbids a result and cannot be silenced", of, name.V))
		case !s.Why.Set: // the missing key has been reported
		case strings.TrimSpace(s.Why.V) == "":
			found.Add(paint.RuleSilenceReason.At(name.At, "add why", "%s: %s is silenced without a reason, so it stays in force", of, name.V))
		case spoken.Stops(): // what it silences may rest on what could not be read
		case !slices.ContainsFunc(spoken, func(f source.Finding) bool {
			return f.Rule.Name == name.V && f.Silenced == strings.TrimSpace(s.Why.V)
		}):
			found.Add(paint.RuleSilenceIdle.At(name.At, "remove it, or keep it for what is still to come", "%s: %s is silenced but nothing speaks", of, name.V))
		}
	}
	return found
}

// nearestRule is the way out of a rule's misspelt name.
func nearestRule(name string) source.Message {
	var names []string
	for _, set := range guide.RuleSets() {
		for _, r := range set.Rules {
			names = append(names, r.Name)
		}
	}
	if near, ok := journal.Nearest(name, names); ok {
		return source.Say("write %s", near)
	}
	return source.Word("take the name from between the brackets of the finding")
}

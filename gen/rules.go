package gen

import (
	"slices"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/photo"
	"spruelight/gen/scale"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// RuleSet is the rules of one subject.
type RuleSet struct {
	Name  string // "lighting": a fragment of the guide
	Title string
	Rules []source.Rule
}

// RuleSets lists every rule of the program by subject, in the order of the
// guide, each rule once.
func RuleSets() []RuleSet {
	return []RuleSet{
		{"reading", "Reading the workshop", slices.Concat(journal.Rules, elsewhereRules)},
		{"lighting", "Lighting", slices.Concat(lightRules, circuit.Rules)},
		{"finish", "Finish", paint.Rules},
		{"scale", "Scale and line-up", scale.Rules},
		{"record", "Parts, choices, cost, problems, review and film", slices.Concat(tally.Rules, []source.Rule{tally.RuleChapterTime, ruleAhead, ruleNoChapters})},
		{"photos", "Photos", slices.Concat(photosOwn(), []source.Rule{ruleCache, site.RuleUndated})},
		{"theme", "Theme and words", page.Rules},
		{"silence", "Silencing rules", silenceRules},
	}
}

// photosOwn are the rules of the photo room without the one that reading has
// reported already.
func photosOwn() []source.Rule {
	return slices.DeleteFunc(slices.Clone(photo.Rules), func(r source.Rule) bool { return r.Name == photo.RuleMissing.Name })
}

// ruleOf finds a rule by its name.
func ruleOf(name string) (source.Rule, bool) {
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			if r.Name == name {
				return r, true
			}
		}
	}
	return source.Rule{}, false
}

// ruled joins a finding with the rule behind it.
func ruled(f source.Finding) topic.RuleFinding {
	r, _ := ruleOf(f.Rule)
	return topic.RuleFinding{Finding: f, Reason: r.Reason, Source: r.Source}
}

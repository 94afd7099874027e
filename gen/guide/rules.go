package guide

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
	"spruelight/gen/topic/lighting"
)

// RuleSet is the rules of one subject.
type RuleSet struct {
	Name  string // "lighting": a fragment of the guide
	Title string
	Rules []*source.Rule
}

// RuleSets lists every rule of the program by subject, in the order of the
// guide, each rule once.
func RuleSets() []RuleSet {
	return []RuleSet{
		{"reading", "Reading the workshop", journal.Rules},
		{"lighting", "Lighting", slices.Concat(lighting.Rules, circuit.Rules)},
		{"finish", "Finish", paint.Rules},
		{"scale", "Scale and line-up", scale.Rules},
		{"record", "Parts, choices, cost, problems, review and film",
			append(slices.Clone(tally.Rules), tally.RuleChapterTime, tally.RuleAhead, tally.RulePublished, tally.RuleNoChapters)},
		{"photos", "Photos", append(photosOwn(), photo.RuleCache, site.RuleUndated)},
		{"theme", "Theme and words", page.Rules},
		{"silence", "Silencing rules", paint.SilenceRules},
	}
}

// photosOwn are the rules of the photo room without the one that reading has
// reported already.
func photosOwn() []*source.Rule {
	return slices.DeleteFunc(slices.Clone(photo.Rules), func(r *source.Rule) bool { return r.Name == photo.RuleMissing.Name })
}

// RuleOf finds a rule by its name; nil where there is none.
func RuleOf(name string) *source.Rule {
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			if r.Name == name {
				return r
			}
		}
	}
	return nil
}

// rulesOfEveryKey names the rules that reading holds every key to.
func rulesOfEveryKey() []string {
	var names []string
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			if r.Keys == source.EveryKey {
				names = append(names, r.Name)
			}
		}
	}
	return names
}

// rulesOfKeys lists for every key the rules that look at it, in their order.
func rulesOfKeys() map[source.Key][]string {
	of := map[source.Key][]string{}
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			for _, k := range r.LooksAt() {
				of[k] = append(of[k], r.Name)
			}
		}
	}
	return of
}

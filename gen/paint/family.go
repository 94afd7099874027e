package paint

import (
	"slices"
	"strings"

	"spruelight/gen/source"
)

// Family is the solvent family of a paint: what may go over what depends on it.
type Family int

// The families, the mildest solvent first.
const (
	UnknownFamily Family = iota
	Waterborne           // water, at most a little alcohol
	Oil                  // artist's oil in white spirit
	Enamel               // alkyd in white spirit
	Lacquer              // acrylic or cellulose in ketones, esters or strong alcohols
	TwoPack              // cured by a hardener
)

// families are the spellings of each; the first is the printed one.
var families = [][]string{
	UnknownFamily: {""},
	Waterborne:    {"waterborne", "waterborne acrylic", "water-based acrylic", "water-based", "vinyl", "acrylic, waterborne"},
	Oil:           {"oil", "artist's oil", "oil paint", "oil wash"},
	Enamel:        {"enamel", "alkyd", "alkyd enamel", "enamel wash"},
	Lacquer:       {"lacquer", "acrylic lacquer", "lacquer-acrylic", "lacquer acrylic", "cellulose lacquer", "acrylic, lacquer"},
	TwoPack:       {"two-pack", "two-part", "2K", "urethane"},
}

var ruleWord = &source.Rule{
	Name: "finish-word", Severity: source.Stop,
	Reason: "A word that the finish rules do not know would leave a check out without a sign.",
	Source: "the vocabulary of the build file",
	Keys: "paints <name>: kind, finish; build areas.<name>: material, side, treatments; build paint.<name>[]: for; " +
		"sitting coats[]: for; sitting leaks[]: check; sitting before closing[]: leak check",
}

var ruleAmbiguous = &source.Rule{
	Name: "acrylic-ambiguous", Severity: source.Stop,
	Reason: "Some acrylics are thinned with water and some with lacquer thinner; what may go over them differs.",
	Source: practice,
	Keys:   "paints <name>: kind",
}

// String prints the family's first spelling.
func (f Family) String() string { return families[f][0] }

// FamilyWords lists what may be written for a paint's kind.
func FamilyWords() []string {
	return []string{"waterborne acrylic", "acrylic lacquer", "lacquer", "enamel", "oil", "two-pack"}
}

// ReadFamily reads a paint's kind. "acrylic" alone may be a waterborne paint
// or a lacquer and is refused.
func ReadFamily(v source.Value[string]) (source.Value[Family], []source.Finding) {
	kind := strings.Join(strings.Fields(v.V), " ")
	switch {
	case !v.Set:
		return source.Value[Family]{}, nil
	case strings.EqualFold(kind, "acrylic"):
		return source.Value[Family]{}, []source.Finding{ruleAmbiguous.At(v.At,
			"write waterborne acrylic, or acrylic lacquer where the maker thins it with lacquer thinner",
			`"acrylic" alone may be waterborne or a lacquer`)}
	}
	for f, spellings := range families[1:] {
		if slices.ContainsFunc(spellings, func(s string) bool { return strings.EqualFold(s, kind) }) {
			return source.Written(Family(f+1), v.At), nil
		}
	}
	return source.Value[Family]{}, []source.Finding{ruleWord.At(v.At, source.Say("write one of %s", source.Row(FamilyWords())),
		"%q is not %s", v.V, source.Word("a kind of paint"))}
}

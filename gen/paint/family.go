package paint

import (
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

var families = []choice[Family]{
	{Waterborne, []string{"waterborne", "waterborne acrylic", "water-based acrylic", "water-based", "vinyl", "acrylic, waterborne"}},
	{Oil, []string{"oil", "artist's oil", "oil paint", "oil wash"}},
	{Enamel, []string{"enamel", "alkyd", "alkyd enamel", "enamel wash"}},
	{Lacquer, []string{"lacquer", "acrylic lacquer", "lacquer-acrylic", "lacquer acrylic", "cellulose lacquer", "acrylic, lacquer"}},
	{TwoPack, []string{"two-pack", "two-part", "2K", "urethane"}},
}

var ruleAmbiguous = &source.Rule{
	Name: "acrylic-ambiguous", Severity: source.Stop,
	Reason: "Some acrylics are thinned with water and some with lacquer thinner; what may go over them differs.",
	Source: practice,
	Keys:   "paints <name>: kind",
}

// String prints the family's first spelling.
func (f Family) String() string { return spell(families, f) }

// FamilyWords lists what may be written for a paint's kind.
func FamilyWords() []string {
	return []string{"waterborne acrylic", "acrylic lacquer", "lacquer", "enamel", "oil", "two-pack"}
}

// ReadFamily reads a paint's kind. "acrylic" alone may be a waterborne paint
// or a lacquer and is refused.
func ReadFamily(v source.Value[string]) (source.Value[Family], []source.Finding) {
	if strings.EqualFold(strings.TrimSpace(v.V), "acrylic") {
		return source.Value[Family]{}, []source.Finding{ruleAmbiguous.At(v.At,
			"write waterborne acrylic, or acrylic lacquer where the maker thins it with lacquer thinner", `"acrylic" alone may be waterborne or a lacquer`)}
	}
	read, found := readWord(v, families, "a kind of paint")
	for i := range found {
		found[i].Do = source.Say("write one of %s", source.Row(FamilyWords()))
	}
	return read, found
}

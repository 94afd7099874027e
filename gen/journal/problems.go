package journal

import (
	"io/fs"
	"slices"
	"strings"

	"spruelight/gen/source"
)

// Problem is something that went wrong.
type Problem struct {
	At         source.Span
	Name       Text                      `key:"name" doc:"What it is called on the site; the symptom when not given" eg:"crazing on the deck houses"`
	Kind       Text                      `key:"kind" doc:"What it concerns, so that the review can point to it" eg:"paint" one:"fit|detail|moulding|instructions|decals|engineering|breakage|lighting|leak|accuracy|paint|other"`
	Symptom    Text                      `key:"symptom,required" doc:"What the affected parts did" eg:"lifted under tape"`
	Noun       Text                      `key:"of" doc:"What is compared; parts when not given" eg:"part" one:"part|area|decal|lamp"`
	Seen       Val[Day]                  `key:"seen" doc:"When it was first seen" eg:"2026-02-21"`
	Affected   []Text                    `key:"affected" doc:"Parts or areas that show it" eg:"[B2, B5]"`
	Sound      []Text                    `key:"sound" doc:"Parts or areas that do not, though they might" eg:"[B1, B3, B4]"`
	Treatments source.Entries[Treatment] `key:"treatments" doc:"What was done to which of them; what areas and sittings say is added"`
	Tests      []Trial                   `key:"tests" doc:"Trials made to find the cause"`
	Outcome    Text                      `key:"outcome" doc:"What it turned out to be, and what became of it" eg:"the new can; stripped and primed again"`
}

// Treatment is something done to parts, or true of them.
type Treatment struct {
	At      source.Span
	On      []Text `key:"on,required,short" doc:"The parts or areas it was done to" eg:"[B2, B5]"`
	Instead Text   `key:"instead" doc:"What the others had" eg:"primed from the old can"`
}

// Trial is a test made to find a cause.
type Trial struct {
	At         source.Span
	Piece      Text      `key:"piece,required" doc:"The test piece" eg:"sprue end 1"`
	Treatments []Text    `key:"treatments" doc:"What it was given, by the names of the treatments" eg:"[cast in resin]"`
	Affected   Val[bool] `key:"affected" doc:"Whether it showed the symptom; left out until it is known" eg:"no"`
	Note       Text      `key:"note" doc:"What else was seen" eg:"held under tape for a day"`
}

// Choice is an either/or that the kit offers.
type Choice struct {
	At       source.Span
	Question Text     `key:"question,required" doc:"What is to be decided" eg:"crane jib"`
	Options  []Option `key:"options,required" doc:"What the kit offers"`
	Chosen   Text     `key:"chosen" doc:"What was chosen" eg:"swung out"`
	Why      Text     `key:"why" doc:"The reason" eg:"it carries the work lamp"`
	Areas    []Text   `key:"areas" doc:"Once these are closed it cannot be changed" eg:"[deck]"`
}

// Option is one of the ways to build.
type Option struct {
	At    source.Span
	Name  Text `key:"name,required,short" doc:"What it is called" eg:"swung out"`
	Photo Text `key:"photo" doc:"A picture of it, inside the build's folder" eg:"photos/jib-out.jpg"`
	Alt   Text `key:"alt" doc:"What is to be seen, for readers who cannot see it" eg:"The jib swung out over the side"`
}

// checkRecord holds the names in parts, choices, problems and stages done
// against the build's own areas and the workshop's stages.
func (w *Workshop) checkRecord(fsys fs.FS, b *Build) source.Findings {
	var found source.Findings
	known := func(name Text, names []string, kind, remedy string) {
		if name.Set && !slices.Contains(names, name.V) {
			found.Add(ruleName.At(name.At, remedy, "%q is no %s%s", name.V, kind, meant(name.V, names)))
		}
	}
	areas, stages := b.Front.Areas.Names(), w.Settings.StageNames()
	const addArea = "add it under areas in build.md, or write one that is there"
	for _, p := range b.Front.Parts {
		known(p.Area, areas, "area of this build", addArea)
	}
	for _, c := range b.Front.Choices {
		for _, a := range c.Areas {
			known(a, areas, "area of this build", addArea)
		}
		for _, o := range c.Options {
			found.Add(checkPhoto(fsys, b, o.Photo)...)
			if o.Photo.Set && !o.Alt.Set {
				found.Add(ruleAlt.At(o.Photo.At, "add alt: and say what is to be seen", "%s has no alt text", o.Photo.V))
			}
		}
	}
	for _, stage := range b.Front.Over {
		known(stage, stages, "stage of this workshop", "write one of: "+strings.Join(stages, ", "))
	}
	return found
}

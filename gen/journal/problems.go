package journal

import (
	"io/fs"
	"slices"

	"spruelight/gen/source"
)

// checkRecord holds the names in parts, choices, problems and stages done
// against the build's own areas and the workshop's stages.
func (w *Workshop) checkRecord(fsys fs.FS, b *Build) source.Findings {
	var found source.Findings
	known := func(name Text, names []string, kind string, do any) {
		if name.Set && !slices.Contains(names, name.V) {
			found.Add(noSuch(name, names, kind, do))
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
		known(stage, stages, "stage of this workshop", source.Say("write one of: %s", source.Row(stages)))
	}
	return found
}

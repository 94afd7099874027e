package gen

import (
	"fmt"
	"path"
	"strings"
	"time"

	"spruelight/gen/bag"
	"spruelight/gen/quantity"
	"spruelight/gen/topic"
	"spruelight/gen/topic/care"
)

// Labels of bag-info.txt that are ours, beside those of RFC 8493, 2.2.2.
const (
	tagSoftware = "Bag-Software-Agent"
	tagSlug     = "Internal-Sender-Identifier" // the standard's, for the sender's own name of it
	tagModel    = "Model-Name"
	tagKit      = "Model-Kit"
	tagScale    = "Model-Scale"
	tagFinished = "Model-Finished"
	tagPicture  = "Model-Picture" // path in the bag
	tagPage     = "Model-Page"    // path in the bag
	tagSheet    = "Model-Repair-Sheet"
	tagPhotos   = "Photos"
	tagLacks    = "Never-Written-Down"
	tagAnyway   = "Shelved-Anyway"
)

// info is what bag-info.txt says.
func (s *shelving) info() []bag.Tag {
	var tags []bag.Tag
	add := func(label, value string) {
		if value = strings.Join(strings.Fields(value), " "); value != "" {
			tags = append(tags, bag.Tag{Label: label, Value: value})
		}
	}
	f, settings := &s.work.build.Front, &s.run.shop.Settings
	add("Source-Organization", settings.Name.V)
	add("Contact-Name", settings.Keeper.V)
	add("External-Description", f.Summary.Or(f.Name.V))
	if a := settings.Address; a.Set {
		add("External-Identifier", strings.TrimSuffix(a.V, "/")+"/"+s.bundle.slug+"/")
	}
	if !s.opts.Undated {
		add("Bagging-Date", s.run.now().Format(time.DateOnly))
	}
	add("Bag-Size", sizeText(s.bytes))
	add(tagSlug, s.bundle.slug)
	add("Internal-Sender-Description", "A scale model: its pages to be read from disk, the journals they were made from, pictures, netlists and a repair sheet")
	add(tagSoftware, "spruelight "+s.env.Version)
	add(tagModel, f.Name.V)
	add(tagKit, strings.Join([]string{f.Kit.Maker.V, f.Kit.Title.V, f.Kit.Number.V}, " "))
	if f.Scale.Set {
		add(tagScale, f.Scale.V.String())
	}
	if f.Finished.Set {
		add(tagFinished, f.Finished.V.String())
	}
	if lead := s.run.buildCard(s.work).Lead; lead != nil {
		add(tagPicture, path.Join("data/site", lead.Near(800).Path))
	}
	add(tagPage, path.Join("data/site", s.work.place("index.html")))
	if care.Wanted(s.work.facts(), s.work.cared()) {
		add(tagSheet, path.Join("data/site", s.work.place(care.File)))
	}
	add(tagPhotos, s.photoTerms())
	for _, l := range s.archive.Lacks {
		add(tagLacks, l)
	}
	for _, r := range s.reasons {
		add(tagAnyway, r)
	}
	return tags
}

func (s *shelving) photoTerms() string {
	switch {
	case len(s.bundle.photos) == 0:
		return "none"
	case s.opts.Renditions:
		return "renditions as the pages show them; the originals are left out"
	case s.opts.KeepLocation:
		return "originals as they were"
	}
	return "originals, without what they said of where they were taken"
}

// lacking is what was never written down, and what the archive leaves out.
func (s *shelving) lacking() []string {
	list := care.Lacks(s.work.facts(), s.work.cared())
	if s.opts.Renditions && len(s.bundle.photos) > 0 {
		list = append(list, "the original photos")
	}
	return list
}

// sizeText writes a size in decimal units (SI), as the standard's examples do.
func sizeText(n int64) string {
	v, unit := quantity.Prefixed(float64(n), "B")
	return quantity.Round(v, 3) + " " + unit
}

// readme says to a reader without this program what lies where.
func (s *shelving) readme() string {
	var b strings.Builder
	f := &s.work.build.Front
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s", f.Name.V)
	line("%s\n", strings.Repeat("=", len([]rune(f.Name.V))))
	line("This folder is the archive of a scale model. Any web browser shows it; no\nprogram and no network are needed.\n")
	line("site/%s", s.work.place("index.html"))
	line("    The pages: open this one first.")
	if care.Wanted(s.work.facts(), s.work.cared()) {
		line("site/%s", s.work.place(care.File))
		line("    The repair sheet: print it on one page and keep it with the model.")
	}
	line("site/%s/drawings/", s.bundle.slug)
	line("    The drawings as SVG files.")
	line("sources/")
	line("    The journals as they were written (Markdown and YAML, plain text), with\n    the stock they name. They are a workshop that spruelight reads, and hold\n    all that was written, also what pages do not show.")
	line("photos/, photos.csv")
	line("    The pictures, and a table of what each shows and where it is told of.\n    %s.", topic.Heading(s.photoTerms()))
	if len(s.work.light.circuits) > 0 {
		line("netlists/")
		line("    Each circuit for a SPICE simulator.")
	}
	if lacks := s.archive.Lacks; len(lacks) > 0 {
		line("\nNever written down, and so not to be found here:")
		for _, l := range lacks {
			line("  - %s", l)
		}
	}
	if len(s.reasons) > 0 {
		line("\nShelved although:")
		for _, r := range s.reasons {
			line("  - %s", r)
		}
	}
	line("\nWhether every file is still as it was put in can be seen from\nmanifest-sha512.txt in the folder above: there, run\n\n    sha512sum --check manifest-sha512.txt\n\nor   spruelight shelve --check FOLDER (BagIt, RFC 8493).")
	return b.String()
}

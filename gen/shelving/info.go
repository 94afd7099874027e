package shelving

import (
	"fmt"
	"path"
	"strings"
	"time"

	"spruelight/gen/bag"
	"spruelight/gen/photo"
	"spruelight/gen/quantity"
	"spruelight/gen/topic"
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
	tagHeld     = "Under-Embargo"
)

// info is what bag-info.txt says.
func (p *packing) info() []bag.Tag {
	var tags []bag.Tag
	add := func(label, value string) {
		if value = strings.Join(strings.Fields(value), " "); value != "" {
			tags = append(tags, bag.Tag{Label: label, Value: value})
		}
	}
	f, settings := &p.site.Build.Front, &p.site.Shop.Settings
	add("Source-Organization", settings.Name.V)
	add("Contact-Name", settings.Keeper.V)
	add("External-Description", f.Summary.Or(f.Name.V))
	if a := settings.Address; a.Set {
		add("External-Identifier", strings.TrimSuffix(a.V, "/")+"/"+p.bundle.slug+"/")
	}
	if !p.opts.Undated {
		add("Bagging-Date", p.site.Now.Format(time.DateOnly))
	}
	add("Bag-Size", sizeText(p.bytes))
	add(tagSlug, p.bundle.slug)
	add("Internal-Sender-Description", "A scale model: its pages to be read from disk, the journals they were made from, pictures, "+
		"netlists and a repair sheet")
	add(tagSoftware, "spruelight "+p.env.Version)
	add(tagModel, f.Name.V)
	add(tagKit, strings.Join([]string{f.Kit.Maker.V, f.Kit.Title.V, f.Kit.Number.V}, " "))
	if f.Scale.Set {
		add(tagScale, f.Scale.V.String())
	}
	if f.Finished.Set {
		add(tagFinished, f.Finished.V.String())
	}
	if p.site.Lead != "" {
		add(tagPicture, path.Join("data/site", p.site.Lead))
	}
	add(tagPage, path.Join("data/site", p.front()))
	if p.site.Repair != "" {
		add(tagSheet, path.Join("data/site", p.site.Repair))
	}
	add(tagPhotos, p.photoTerms())
	for _, l := range p.archive.Lacks {
		add(tagLacks, l)
	}
	for _, r := range p.reasons {
		add(tagAnyway, r)
	}
	for _, h := range p.archive.Held {
		add(tagHeld, h)
	}
	return tags
}

// front is the build's first page in the site.
func (p *packing) front() string { return p.bundle.slug + "/index.html" }

// photoTerms says what the pictures are and what was taken out of them, in
// numbers; the table of pictures says it of each.
func (p *packing) photoTerms() string {
	switch {
	case len(p.bundle.photos) == 0:
		return "none"
	case p.opts.Renditions:
		return "renditions as the pages show them; the originals are left out"
	case p.opts.keepsAll():
		return "originals as they were"
	}
	var places, cameras, notes, rest, whole int
	for _, g := range p.gone {
		places += min(g.Places, 1)
		cameras += min(g.Serials, 1)
		notes += g.Notes
		rest += min(g.Behind+g.Unknown, 1)
		if g == (photo.Removed{}) {
			whole++
		}
	}
	parts := []string{fmt.Sprintf("places removed from %d", places), fmt.Sprintf("serial numbers and owners removed from %d", cameras)}
	if p.opts.KeepLocation {
		parts[0] = "places kept"
	}
	if p.opts.KeepCamera {
		parts[1] = "serial numbers and owners kept"
	}
	return fmt.Sprintf("%d originals: %s, %d maker's notes dropped, other blocks dropped from %d, nothing to remove in %d; %s says it of each",
		len(p.gone), strings.Join(parts, ", "), notes, rest, whole, picturesFile)
}

// lacking is what was never written down, and what the archive leaves out.
func (p *packing) lacking() []string {
	var list []string
	for _, l := range p.site.Lacks {
		list = append(list, l.String())
	}
	if p.opts.Renditions && len(p.bundle.photos) > 0 {
		list = append(list, "the original photos")
	}
	return list
}

// sizeText writes a size in decimal units (SI), as the standard's examples do.
func sizeText(n int64) string {
	return quantity.Amount{Value: float64(n), Unit: "B"}.String()
}

// readme says to a reader without this program what lies where.
func (p *packing) readme() string {
	var b strings.Builder
	f := &p.site.Build.Front
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s", f.Name.V)
	line("%s\n", strings.Repeat("=", len([]rune(f.Name.V))))
	line("This folder is the archive of a scale model. Any web browser shows it; no\nprogram and no network are needed.\n")
	line("site/%s", p.front())
	line("    The pages: open this one first.")
	if p.site.Repair != "" {
		line("site/%s", p.site.Repair)
		line("    The repair sheet: print it on one page and keep it with the model.")
	}
	line("site/%s/drawings/", p.bundle.slug)
	line("    The drawings as SVG files.")
	line("sources/")
	line("    The journals as they were written (Markdown and YAML, plain text), with\n" +
		"    the stock they name. They are a workshop that spruelight reads, and hold\n" +
		"    all that was written, also what pages do not show.")
	line("photos/, photos.csv")
	line("    The pictures, and a table of what each shows, where it is\n    shown and what was taken out of it. %s.",
		topic.Heading(p.photoTerms()))
	if len(p.site.Circuits) > 0 {
		line("netlists/")
		line("    Each circuit for a SPICE simulator.")
	}
	if lacks := p.archive.Lacks; len(lacks) > 0 {
		line("\nNever written down, and so not to be found here:")
		for _, l := range lacks {
			line("  - %s", l)
		}
	}
	if held := p.archive.Held; len(held) > 0 {
		line("\nNot to be shown to anybody yet: under embargo when this was archived")
		for _, h := range held {
			line("  - %s", h)
		}
	}
	if len(p.reasons) > 0 {
		line("\nShelved although:")
		for _, r := range p.reasons {
			line("  - %s", r)
		}
	}
	line("\nWhether every file is still as it was put in can be seen from\nmanifest-sha512.txt in the folder above: there, run\n\n" +
		"    sha512sum --check manifest-sha512.txt\n\nor   spruelight shelve --check FOLDER (BagIt, RFC 8493).")
	return b.String()
}

package guide

import (
	"cmp"
	"io/fs"
	"path"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/topic"
)

// NewFile is a text to be written where none may be yet.
type NewFile struct {
	Name string // in the workshop
	Text string
}

// UnboxBuild returns the journal that starts a build in a workshop, nil where
// there is none yet.
func UnboxBuild(content fs.FS, slug string) ([]NewFile, error) {
	if err := journal.CheckSlug(slug); err != nil {
		return nil, err
	}
	text := strings.Replace(newBuild, "{name}", yamlText(nameOf(slug)), 1)
	if content != nil {
		text = asWritten(content, "workshop.yaml", text)
	}
	return []NewFile{{path.Join("builds", slug, "build.md"), text}}, nil
}

// Foreign returns a file of a folder that is none of those to be written, as a
// run that was cut off may have left them; "" where there is none. Names that
// begin with a dot do not count.
func Foreign(folder fs.FS, files []NewFile) (string, error) {
	foreign := ""
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && strings.HasPrefix(path.Base(name), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir():
			return nil
		}
		there, err := fs.ReadFile(folder, name)
		if err != nil || !slices.Contains(files, NewFile{name, string(there)}) {
			foreign = name
			return fs.SkipAll
		}
		return nil
	})
	return foreign, err
}

// NewShop says how a new workshop is set up; what is empty stays as it is
// usual.
type NewShop struct{ Language, Theme string }

// UnboxWorkshop returns a whole small workshop with one build, which assembles
// as it stands. Its first sitting is for Sit to begin.
func UnboxWorkshop(slug string, opts NewShop) ([]NewFile, error) {
	build, err := UnboxBuild(nil, slug)
	if err != nil {
		return nil, err
	}
	files := []NewFile{
		{"rack/lamps.yaml", newLamps},
		{"rack/supplies.yaml", newSupplies},
		{"rack/paints.yaml", newPaints},
		{"rack/wire.yaml", newWire},
		{"wall/about.md", strings.Replace(newAbout, "About", cmp.Or(aboutIn[opts.Language], "About"), 1)},
		{"workshop.yaml", opts.settings()}, // after what it is to find, so that a run that was cut off can be made again
	}
	return append(files, build...), nil
}

// settings returns the workshop.yaml.
func (o NewShop) settings() string {
	text := newWorkshop
	if o.Language != "" {
		text = strings.Replace(text, "\nlanguage: en", "\nlanguage: "+o.Language, 1)
	}
	if o.Theme != "" {
		text = strings.Replace(text, "\ntheme: sheet", "\ntheme: "+o.Theme, 1)
	}
	return text
}

// Languages returns those that the pages of a new workshop can speak.
func Languages(themes fs.FS) []string {
	found, _ := fs.Glob(themes, "words/*.yaml")
	for i, name := range found {
		found[i] = strings.TrimSuffix(path.Base(name), ".yaml")
	}
	return found
}

// Looks returns the built-in themes.
func Looks(themes fs.FS) []string {
	found, _ := fs.Glob(themes, "*/look.yaml")
	for i, name := range found {
		found[i] = path.Dir(name)
	}
	return found
}

// nameOf makes a name of a slug: "survey-skiff" is Survey skiff.
func nameOf(slug string) string { return topic.Heading(strings.ReplaceAll(slug, "-", " ")) }

// The texts below are what a beginner reads first: every key with an example
// behind a # to take away. A test takes all of them away and reads the result.

const newBuild = `---
# What you know of the build. Take the # and one space away from a line, and from
# those indented below it, and write what is so. Lengths, currents and times want
# their units; a text with a colon wants "quotes". spruelight dryfit checks it all.
name: {name}
state: bench # or shelf (finished), stash (not begun), set aside
# summary: One or two sentences for the front page
# kit:
#   maker: Halden Model Works
#   title: Coastal Survey Skiff
#   number: HM-3204
#   released: "2025"
#   parts: 186
#   price: 92 EUR
#   obtained: bought # or review sample, gift, commission, loan, discounted
# scale: 1/48
# subject: # the real thing; also width, height, diameter
#   length: 9.4 m
#   beam: 3.1 m
#   source: designer's sheet
# measured: # the model, by your own ruler
#   length: 204 mm ± 0.5 mm
#   beam: 67 mm ± 0.5 mm

# Regions of the model, under names of your own. Lamps that an area encloses
# cannot be reached once it is closed.
# areas:
#   hull inside:
#     material: styrene # or resin, photo-etch, clear, printed
#     encloses: [D1, D2]
#   hull outside:
#     material: styrene

# Lamps are numbered D1, D2 and so on, in the order they stand here. A branch is
# one lamp, or several in series, with a resistor; auto has it chosen.
# circuits:
#   - name: main harness
#     supply: block-9v # as rack/supplies.yaml names it
#     switch: slide switch in the base
#     entry: mounting rod in the keel
#     feed: {wire: 28 AWG, length: 350 mm}
#     branches:
#       - name: saloon
#         lamps: # as rack/lamps.yaml names them
#           - {lamp: warm-white-3mm, at: saloon ceiling fore}
#           - {lamp: warm-white-3mm, at: saloon ceiling aft}
#         current: 4 mA
#         resistor: auto
#         lead: {wire: 34 AWG, length: 180 mm}

# Coats by area, from the plastic outward, as rack/paints.yaml names them.
# paint:
#   hull inside:
#     - {coat: black, for: light blocking}
#     - {coat: silver, for: light blocking}
#     - {coat: white, for: light blocking}
#   hull outside:
#     - {coat: primer-grey, for: primer}

# What else may be worth writing down, now or later.
# decals: 34
# parts: [{part: C14, what: bollard, have: 5, need: 4}]
# choices: [{question: crane jib, options: [stowed, swung out], chosen: swung out, why: it carries the work lamp}]
# problems: [{symptom: lifted under tape, affected: [B2], sound: [B1, B3], treatments: {washed: [B1, B3]}}]
# extras: [{what: turned brass mast, kind: aftermarket}]
# budget: 150 EUR
# techniques: [light blocking]
# finished: 2026-05-30 # with state: shelf, once it is done

# Below the next line comes your text: what this kit is and why it is on the bench.
---

`

const newWorkshop = `# The workshop: what holds for every build.
name: My bench
about: Scale models, lit from within
# keeper: who keeps the bench
# address: https://bench.example/ # where the pages will be published
language: en # of the pages: en, de, fr, es or ja
# time zone: Europe/Berlin
lengths: metric # or inches
currency: EUR
theme: sheet # or lamplight: dark, photographs first
# stages: [assembly, lighting, masking, painting, weathering, decals, finishing, photography]
# review: {criteria: {fit: 3, detail: 2, value: 1}, overall: no}
`

const newLamps = `# Lamps in stock. These values are typical of the kind: put those of your
# maker's data sheet in their place.
warm-white-3mm:
  colour: warm white
  size: 3 mm
  forward: [2.75 V @ 2 mA, 3.0 V @ 10 mA, 3.2 V @ 20 mA]
  spread: 0.2 V
  rated: 20 mA
  limit: 30 mA
  reverse: 5 V
  intensity: 1200 mcd @ 20 mA
  source: typical values, to be replaced by the data sheet's
`

const newSupplies = `# What feeds the lamps.
usb-5v: {kind: usb, volts: 5 V, tolerance: 5 %, limit: 500 mA}
block-9v: {kind: battery, cells: 6LR61, volts: 9 V}
`

const newPaints = `# Paints in stock, with their waiting times; the pot's label or a test piece
# of your own says how long.
primer-grey: {kind: waterborne acrylic, colour: "#8d8f90", finish: matt}
black: {kind: waterborne acrylic, colour: "#101010", finish: matt}
silver: {kind: waterborne acrylic, colour: "#b8bcc0", finish: satin}
white: {kind: waterborne acrylic, colour: "#f4f4f0", finish: matt}
`

const newWire = `# Wire in stock. AWG sizes are known; this is for what is not.
magnet-0.2: {copper: 0.2 mm, coating: enamel}
`

// aboutIn is the title of the page about the keeper, by language.
var aboutIn = map[string]string{"de": "Über mich", "fr": "À propos", "es": "Acerca de", "ja": "このサイトについて"}

const newAbout = `---
title: About
---

Who builds here, and how to get in touch.
`

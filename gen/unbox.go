package gen

import (
	"path"
	"strings"
	"time"

	"spruelight/gen/journal"
)

// NewFile is a text to be written where none may be yet.
type NewFile struct {
	Name string // in the workshop
	Text string
}

// UnboxBuild returns the journal that starts a build.
func UnboxBuild(slug string) ([]NewFile, error) {
	if err := journal.CheckSlug(slug); err != nil {
		return nil, err
	}
	return []NewFile{{path.Join("builds", slug, "build.md"), strings.Replace(newBuild, "{name}", yamlText(nameOf(slug)), 1)}}, nil
}

// UnboxWorkshop returns a whole small workshop with one build and its first
// sitting, which assembles as it stands.
func UnboxWorkshop(slug string, today time.Time) ([]NewFile, error) {
	build, err := UnboxBuild(slug)
	if err != nil {
		return nil, err
	}
	day := today.Format(time.DateOnly)
	files := []NewFile{
		{"workshop.yaml", newWorkshop},
		{"rack/lamps.yaml", newLamps},
		{"rack/supplies.yaml", newSupplies},
		{"rack/paints.yaml", newPaints},
		{"rack/wire.yaml", newWire},
		{"wall/about.md", newAbout},
	}
	files = append(files, build...)
	return append(files, NewFile{path.Join("builds", slug, day+".md"), newSitting}), nil
}

// nameOf makes a name of a slug: "survey-skiff" is Survey skiff.
func nameOf(slug string) string { return heading(readable(slug)) }

// The texts below are what a beginner reads first: every key with an example
// behind a # to take away. A test takes all of them away and reads the result.

const newBuild = `---
# What you know of the build. Take the # away from a line and write what is so;
# lengths, currents and times want their units. spruelight dryfit checks it all.
name: {name}
state: bench # or shelf (finished), stash (not begun), set aside
# summary: One or two sentences for the front page
# kit: {maker: Halden Model Works, title: Coastal Survey Skiff, number: HM-3204, released: "2025", parts: 186, price: 92 EUR, obtained: bought}
# scale: 1/48
# subject: {length: 9.4 m, beam: 3.1 m, source: designer's sheet}
# measured: {length: 204 mm ± 0.5 mm, beam: 67 mm ± 0.5 mm}
# decals: 34
# areas:
#   hull inside: {material: styrene, encloses: [D1]}
#   hull outside: {material: styrene}
# circuits:
#   - name: main harness
#     supply: usb-5v
#     entry: mounting rod in the keel
#     feed: {wire: 28 AWG, length: 350 mm}
#     branches:
#       - {name: saloon, lamps: [{lamp: warm-white-3mm, at: saloon ceiling}], current: 4 mA, resistor: auto, lead: {wire: 34 AWG, length: 180 mm}}
# paint:
#   hull inside: [{coat: black, for: light blocking}, {coat: silver, for: light blocking}, {coat: white, for: light blocking}]
#   hull outside: [{coat: primer-grey, for: primer}]
# parts: [{part: C14, what: bollard, have: 5, need: 4}]
# choices: [{question: crane jib, options: [stowed, swung out], chosen: swung out, why: it carries the work lamp}]
# problems: [{symptom: lifted under tape, affected: [B2], sound: [B1, B3], treatments: {washed: [B1, B3]}}]
# extras: [{what: turned brass mast, kind: aftermarket}]
# budget: 150 EUR
# techniques: [light blocking]
---

What this kit is and why it is on the bench.
`

const newSitting = `---
title: What is in the box
stage: assembly
# hours: 1 h 30 min
# photos: [{file: photos/sprues.jpg, alt: "What is to be seen, for readers who cannot see it"}]
# next: dry-fit the hull halves
---

What was done, what went wrong, and what the meter said.
`

const newWorkshop = `# The workshop: what holds for every build.
name: My bench
about: Scale models, lit from within
# keeper: who keeps the bench
# address: https://bench.example/
language: en
# time zone: Europe/Berlin
lengths: metric
currency: EUR
theme: sheet
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
`

const newPaints = `# Paints in stock, with their waiting times; the pot's label or a test piece
# of your own says how long.
primer-grey: {kind: waterborne acrylic, colour: "#8d8f90", finish: matt}
`

const newWire = `# Wire in stock. AWG sizes are known; this is for what is not.
magnet-0.2: {copper: 0.2 mm, coating: enamel}
`

const newAbout = `---
title: About
---

Who builds here, and how to get in touch.
`

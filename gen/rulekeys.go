package gen

import "strings"

// RuleKey is a key of a kind of file that a rule looks at or points to.
type RuleKey struct{ Kind, Path string }

// anyKey are the rules that reading holds every key to.
var anyKey = []string{"unknown-key", "key-twice", "wrong-shape", "value", "missing-key"}

// beyondKeys are the rules about whole files, text, pictures and the theme's
// files: no key is to blame.
var beyondKeys = []string{"syntax", "not-utf-8", "hidden-character", "name-elsewhere", "limit", "date", "raw-html", "broken-link", "link-scheme", "stray-file", "unreadable", "photo-cache", "theme",
	"outline-form", "outline-refused", "outline-path", "show-notes-shortened", "show-notes-too-long"}

// ruleKeys says for every other rule which keys it looks at, and where it
// points: kind of file and mapping, a colon, and the keys in it.
var ruleKeys = map[string]string{
	"unknown-name":   "build circuits[]: supply; build circuits[].branches[].lamps[]: lamp; build parts[]: area; build areas.<name>: encloses, other face, meets; build paint.<name>[]: coat; build choices[]: areas; build repair: day one; build: stages done, paint; sitting: stage; sitting coats[]: area, coat; sitting masked[]: area; sitting handled[]: area; sitting leaks[]: area; sitting light tests[]: area; sitting light tests[].readings[]: after; sitting before closing[]: area; sitting closed[]: area; sitting markings[]: area; workshop: line-up",
	"after-finish":   "build: finished",
	"photo-missing":  "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo",
	"name-spelling":  "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo",
	"photo-entry":    "sitting photos[]: file, pair, names, marks",
	"outside-folder": "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; sitting photos[]: file, pair; sitting before closing[]: photo",
	"alt-missing":    "sitting photos[]: file, pair, alt; build choices[].options[]: photo, alt",

	"wire-name":            "build circuits[].feed: wire; build circuits[].junctions[]: wire; build circuits[].branches[].lead: wire",
	"lamp-reference":       "build areas.<name>: encloses; build circuits[].fibres[]: from; sitting: lit",
	"connector-value":      "build circuits[].feed: connector; build circuits[].feed.connector: kind, after, resistance; build circuits[].junctions[]: connector; build circuits[].junctions[].connector: kind, after, resistance; build circuits[].branches[].lead: connector; build circuits[].branches[].lead.connector: kind, after, resistance",
	"two-limiters":         "build circuits[].branches[]: resistor, driver",
	"supply-volts":         "build circuits[]: supply; supplies <name>: volts",
	"supply-value":         "supplies <name>: volts, fresh, measured, inside, capacity, ends, tolerance, limit, discharge",
	"junction-name":        "build circuits[]: junction; build circuits[].junctions[]: name, from; build circuits[].branches[]: junction",
	"junction-loop":        "build circuits[].junctions[]: name, from",
	"circuit-size":         "build circuits[]: branches, junctions",
	"branch-empty":         "build circuits[].branches[]: name, lamps",
	"branch-value":         "build circuits[].branches[]: name, current, resistor, driver, control; build circuits[].feed: length; build circuits[].branches[].lead: length",
	"lamp-curve":           "lamps <name>: forward",
	"lamp-unknown":         "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour, forward",
	"circuit-unsolved":     "build circuits[]: name, branches",
	"circuit-empty":        "build circuits[]: name, branches",
	"run-incomplete":       "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; build circuits[].branches[].lead: wire, length",
	"string-cannot-light":  "build circuits[].branches[]: name, lamps; build circuits[]: supply; lamps <name>: forward; supplies <name>: volts",
	"headroom-small":       "build circuits[].branches[]: name, lamps, resistor; supplies <name>: volts",
	"driver-dropout":       "build circuits[].branches[]: name, driver; build circuits[].branches[].driver: dropout",
	"lamps-share-resistor": "build circuits[].branches[]: name, parallel; lamps <name>: spread",
	"no-limiter":           "build circuits[].branches[]: name, resistor",
	"lamp-over-limit":      "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; lamps <name>: limit, spread; supplies <name>: fresh, tolerance, regulated, measured",
	"lamp-over-rated":      "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; lamps <name>: rated",
	"fault-over-limit":     "build circuits[].branches[]: name, lamps, resistor; lamps <name>: limit",
	"supply-over-limit":    "supplies <name>: limit; build circuits[]: supply, branches",
	"supply-margin":        "supplies <name>: limit; build circuits[]: supply, branches",
	"fuse-small":           "build circuits[]: fuse; build circuits[].fuse: rated",
	"resistor-hot":         "build circuits[].branches[]: resistor",
	"wire-drop":            "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; build circuits[].branches[].lead: wire, length",
	"matched-differ":       "build circuits[].branches[]: matched, current, lamps; lamps <name>: intensity",
	"navigation-colour":    "build circuits[].branches[].lamps[]: shows; lamps <name>: colour",
	"flash-rate":           "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows",
	"power-bank-off":       "build circuits[]: supply; supplies <name>: switches off below",
	"area-heat":            "build areas.<name>: volume, encloses",
	"pwm-banding":          "build circuits[].branches[]: control; workshop: camera",
	"fibre-count":          "build circuits[].fibres[]: from, count, size; lamps <name>: size",
	"reading-off":          "sitting readings[]: current, volts",
	"reading-place":        "sitting readings[]: at, current, volts",
	"reverse-voltage":      "build circuits[]: supply; lamps <name>: reverse",
	"adapter-unmeasured":   "supplies <name>: regulated, measured",
	"lamp-infrared":        "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour",
	"navigation-steady":    "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows",

	"finish-word":                  "paints <name>: kind, finish; build areas.<name>: material, side, treatments; build paint.<name>[]: for; sitting coats[]: for; sitting leaks[]: check; sitting before closing[]: leak check",
	"acrylic-ambiguous":            "paints <name>: kind",
	"times-out-of-order":           "paints <name>: touch dry, handle, recoat, recoat within, recoat again, mask after, cured; paints <name>.measured: touch dry, handle, recoat, recoat within, recoat again, mask after, cured",
	"lacquer-over-enamel":          "sitting coats[]: coat; build paint.<name>[]: coat; paints <name>: kind",
	"family-over-uncured":          "sitting coats[]: at; paints <name>: kind, other paint after, cured",
	"lacquer-over-waterborne":      "sitting coats[]: coat; build paint.<name>[]: coat; paints <name>: kind",
	"recoat-too-soon":              "sitting coats[]: at; paints <name>: recoat",
	"recoat-in-gap":                "sitting coats[]: at; paints <name>: recoat within, recoat again",
	"recoat-too-late":              "sitting coats[]: at; paints <name>: recoat within",
	"wash-over-bare-enamel":        "sitting coats[]: coat, for; build paint.<name>[]: coat, for; paints <name>: kind",
	"wash-too-soon":                "sitting coats[]: at; paints <name>: wash after",
	"too-cold-to-cure":             "sitting: temperature, coats; workshop: temperature; sitting coats[]: at",
	"primer-missing":               "build areas.<name>: material, treatments; build paint.<name>[]: coat, for; sitting coats[]: coat, for",
	"painted-unwashed":             "build areas.<name>: treatments; sitting: treated; sitting coats[]: coat; build paint.<name>[]: coat",
	"release-agent":                "build areas.<name>: material, treatments; sitting: treated; sitting coats[]: coat; build paint.<name>[]: coat",
	"decals-over-matt":             "build paint.<name>[]: coat; sitting coats[]: coat; paints <name>: finish",
	"decals-too-soon":              "sitting coats[]: at; sitting markings[]: marking; paints <name>: decals after",
	"sealed-too-soon":              "sitting coats[]: at",
	"matt-before-seal":             "build paint.<name>[]: coat, for; sitting coats[]: coat, for",
	"decals-unsealed":              "build paint.<name>[]: coat, for; sitting coats[]: coat; sitting markings[]: marking",
	"decal-unknown":                "sitting markings[]: marking, sheet; build: decal sheets",
	"decal-overdrawn":              "sitting markings[]: marking, count; build decal sheets.<name>[]: count",
	"light-blocking-order":         "build paint.<name>[]: coat, for; sitting coats[]: coat, for",
	"light-blocking-late":          "build paint.<name>[]: coat, for; sitting coats[]: coat, for",
	"lit-without-blocking":         "build areas.<name>: encloses; build paint.<name>[]: for",
	"clear-painted-inside":         "build areas.<name>: material, side; build paint.<name>[]: coat; sitting coats[]: coat",
	"masked-too-soon":              "sitting masked[]: area, at; paints <name>: mask after",
	"handled-too-soon":             "sitting handled[]: area, at; paints <name>: handle",
	"coat-skipped":                 "build paint.<name>[]: coat; sitting: coats; sitting coats[]: coat",
	"coat-unplanned":               "build: paint; sitting: coats; sitting coats[]: coat, at",
	"coat-out-of-order":            "build: paint; sitting: coats; sitting coats[]: coat",
	"coat-after-the-moment":        "sitting: coats; sitting coats[]: at",
	"coat-without-hour":            "sitting coats[]: at",
	"coat-after-closing":           "sitting: coats; sitting closed[]: area, at",
	"light-reading":                "sitting light tests[]: bare, dark, step; sitting light tests[].readings[]: lux",
	"light-below-meter":            "sitting light tests[]: step; sitting light tests[].readings[]: lux",
	"light-blocking-thin":          "sitting light tests[]: wanted, area, where; sitting light tests[].readings[]: lux, after",
	"leak-open":                    "sitting leaks[]: where, action",
	"leak-accepted-without-reason": "sitting leaks[]: action, why",
	"closed-lamp-unlit":            "sitting closed[]: area; sitting: lit",
	"closed-without-reading":       "sitting closed[]: area; sitting: readings",
	"closed-blocking-incomplete":   "sitting closed[]: area; sitting: coats; build: paint",
	"closed-uncured":               "sitting closed[]: area, at; paints <name>: cured",
	"closed-leak-open":             "sitting closed[]: area; sitting: leaks",
	"closed-leak-check-missing":    "sitting closed[]: area; sitting before closing[]: leak check",
	"closed-without-soak":          "sitting closed[]: area; sitting before closing[]: soak",
	"closed-without-wiggle":        "sitting closed[]: area; sitting before closing[]: wiggle",
	"closed-wires-not-out":         "sitting closed[]: area; sitting before closing[]: wires out; build circuits[]: entry",
	"closed-without-photo":         "sitting closed[]: area; sitting before closing[]: photo",
	"mix-of-families":              "build mixes.<name>: parts",
	"mix-of-measures":              "build mixes.<name>: parts",
	"mix-small-drop-count":         "build mixes.<name>: parts",

	"scale-off-box":          "build: scale, subject, measured; shelf <name>: scale, subject, measured",
	"scale-far-off":          "build: scale, subject, measured; shelf <name>: scale, subject, measured",
	"scale-lengths-disagree": "build: subject, measured; shelf <name>: subject, measured",
	"scale-disputed":         "build: subject; build subject[]: source; shelf <name>: subject; shelf <name>.subject[]: source",
	"scale-length-unpaired":  "build: subject, measured; shelf <name>: subject, measured",
	"scale-length-zero":      "build: subject, measured; shelf <name>: subject, measured",
	"scale-figure":           "build: scale, measured; shelf <name>: scale, measured",
	"outline-proportions":    "build: outline, measured; shelf <name>: outline, measured",
	"lineup-no-size":         "build: name, subject, measured, scale; shelf <name>: name, subject, measured, scale; workshop: line-up",
	"cabinet-too-small":      "build: name, display; shelf <name>: name, display; workshop cabinets[]: width, depth, height; workshop: clearance",
	"cabinet-full":           "build: name, display; shelf <name>: name, display; workshop cabinets[]: shelves, width",
	"cabinet-weight-unknown": "build display: weight; shelf <name>.display: weight; workshop cabinets[]: holds",

	"part-event":            "sitting parts[]: part, event",
	"part-count":            "build parts[]: have, need; sitting parts[]: count",
	"part-twice":            "build parts[]: part",
	"part-unlisted":         "sitting parts[]: part; build: parts",
	"part-overdrawn":        "build parts[]: part, have; sitting parts[]: part, event, count",
	"part-short-packed":     "build parts[]: part, have, need",
	"part-short":            "build parts[]: part, have, need; sitting parts[]: event",
	"part-no-spare":         "build parts[]: part, have, need",
	"problem-both":          "build problems[]: affected, sound",
	"problem-stranger":      "build problems[]: treatments, affected, sound",
	"problem-no-comparison": "build problems[]: affected, sound",
	"problem-test":          "build problems[].tests[]: treatments",
	"problem-many":          "build problems[]: affected, sound, treatments",
	"review-undisclosed":    "build kit: obtained; review: date",
	"review-sender":         "build kit: obtained, from",
	"mark-without-reason":   "review marks.<name>: mark, why",
	"mark-range":            "review marks.<name>: mark; workshop review: best",
	"mark-criterion":        "review: marks; workshop review: criteria",
	"mark-twice":            "review: marks",
	"mark-in-first-look":    "review marks.<name>: mark",
	"criterion-weight":      "workshop review: criteria; workshop review.criteria.<name>: weight",
	"review-verdict":        "review: verdict, marks",
	"fault-kind":            "review faults[]: kind",
	"fault-shows":           "review faults[]: kind, shows",
	"empty-phrase":          "review: verdict, buy it if, leave it if; review marks.<name>: why; workshop review: empty phrases",
	"held-back":             "sitting: embargo; review: embargo",
	"choice-option":         "build choices[]: options, chosen",
	"choice-why":            "build choices[]: chosen, why",
	"choice-undecided":      "build choices[]: question, chosen, areas",
	"choice-options":        "build choices[]: question, options",
	"over-budget":           "build: budget, spent; build kit: price, obtained; sitting: spent",
	"commission-currency":   "build commission: rate, materials, quoted, deposit",
	"commission-below-rate": "build commission: rate, quoted",
	"commission-deposit":    "build commission: deposit, quoted",
	"commission-incomplete": "build: commission; build commission: rate, hours, quoted",
	"extra-kind":            "build extras[]: kind",
	"chapter-first":         "sitting video: chapters",
	"chapter-order":         "sitting video: chapters",
	"chapter-too-close":     "sitting video: chapters",
	"chapter-too-few":       "sitting video: chapters",
	"chapter-after-end":     "sitting video: chapters, length",
	"chapter-title":         "sitting video: chapters",
	"chapter-time":          "sitting video: chapters",
	"video-length":          "sitting video: length",
	"under-embargo":         "sitting: embargo",
	"no-chapters":           "sitting video: chapters",

	"photo-unreadable":  "sitting photos[]: file, pair",
	"photo-format":      "sitting photos[]: file, pair",
	"photo-heic":        "sitting photos[]: file, pair",
	"photo-too-large":   "sitting photos[]: file, pair; workshop photos: limit",
	"photo-truncated":   "sitting photos[]: file, pair",
	"photo-damaged":     "sitting photos[]: file, pair",
	"photo-profile":     "sitting photos[]: file, pair",
	"photo-transparent": "sitting photos[]: file, pair",

	"photo-undated": "sitting: photo dates; sitting photos[]: file, pair",
	"theme-missing": "workshop: theme",
	"words-missing": "workshop: language",

	"silence-without-reason": "build: silence; build silence.<name>: why; build areas.<name>: silence; workshop: silence; workshop silence.<name>: why",
	"silence-unknown-rule":   "build: silence; build areas.<name>: silence; workshop: silence",
	"silence-of-stop":        "build: silence; build areas.<name>: silence; workshop: silence",
	"silence-idle":           "build: silence; build silence.<name>: on; build areas.<name>: silence; workshop: silence; workshop silence.<name>: on",
}

// KeysOfRule lists the keys that a rule looks at; none for the rules that hold
// for every key and for those of whole files.
func KeysOfRule(name string) []RuleKey {
	var keys []RuleKey
	for group := range strings.SplitSeq(ruleKeys[name], "; ") {
		at, list, ok := strings.Cut(group, ": ")
		if !ok {
			continue
		}
		kind, within, nested := strings.Cut(at, " ")
		if nested {
			within += "."
		}
		for key := range strings.SplitSeq(list, ", ") {
			keys = append(keys, RuleKey{kind, within + key})
		}
	}
	return keys
}

// rulesOfKeys lists for every key the rules that look at it, in their order.
func rulesOfKeys() map[RuleKey][]string {
	of := map[RuleKey][]string{}
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			for _, k := range KeysOfRule(r.Name) {
				of[k] = append(of[k], r.Name)
			}
		}
	}
	return of
}

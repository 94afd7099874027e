// Package journal reads a workshop folder into a typed model in which every
// value knows where it stands, and turns the journals' Markdown into HTML.
//
// It is the one place where the words of the input are defined: the Go types
// of this package, with their `key`, `doc`, `eg` and `one` tags, decide what is
// read, and the JSON Schemas and the reference are generated from them.
//
// Reading reports every mistake of a run as a finding with its place; it stops
// at none. What does not depend on other packages' sums is checked here:
// syntax, keys, units, dates, names on the rack, photos and links.
package journal

import "spruelight/gen/source"

// The rules of reading. Their reasons are printed in the guide.
var (
	ruleSyntax = &source.Rule{Name: "syntax", Severity: source.Stop, Source: "YAML 1.2",
		Reason: "Front matter that is not valid YAML cannot be read at all.",
		Keys:   source.NoKey}
	ruleEncoding = &source.Rule{Name: "not-utf-8", Severity: source.Stop, Source: "The Unicode Standard",
		Reason: "Text in another encoding would show wrong characters.",
		Keys:   source.NoKey}
	ruleLimit = &source.Rule{Name: "limit", Severity: source.Stop, Source: "common practice, no source",
		Reason: "Limits keep a damaged or hostile file from using up the machine.",
		Keys:   source.NoKey}
	ruleKey = &source.Rule{Name: "unknown-key", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A misspelt key would silently lose what stands under it.",
		Keys:   source.EveryKey}
	ruleTwice = &source.Rule{Name: "key-twice", Severity: source.Stop, Source: "YAML 1.2, section 3.2.1.3",
		Reason: "Of two values under one key, only one can be meant.",
		Keys:   source.EveryKey}
	ruleShape = &source.Rule{Name: "wrong-shape", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A list, a mapping or a single value stands where another is wanted.",
		Keys:   source.EveryKey}
	ruleValue = &source.Rule{Name: "value", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A value without its unit, or in the wrong one, makes every sum after it wrong.",
		Keys:   source.EveryKey}
	ruleMissing = &source.Rule{Name: "missing-key", Severity: source.Stop, Source: "common practice, no source",
		Reason: "Without this value the page or the sum cannot be made.",
		Keys:   source.EveryKey}
	ruleName = &source.Rule{Name: "unknown-name", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A name that is not declared anywhere stands for nothing.",
		Keys: "build circuits[]: supply; build circuits[].branches[].lamps[]: lamp; build parts[]: area; " +
			"build areas.<name>: encloses, other face, meets; build paint.<name>[]: coat; build choices[]: areas; " +
			"build repair: day one; build: stages done, paint; sitting: stage; sitting coats[]: area, coat; " +
			"sitting masked[]: area; sitting handled[]: area; sitting leaks[]: area; sitting light tests[]: area; " +
			"sitting light tests[].readings[]: after; sitting before closing[]: area; sitting closed[]: area; " +
			"sitting markings[]: area; workshop: line-up"}
	ruleDate = &source.Rule{Name: "date", Severity: source.Stop, Source: "ISO 8601",
		Reason: "The order of the sittings and every clock go by the dates.",
		Keys:   source.NoKey}
	ruleOrder = &source.Rule{Name: "after-finish", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A sitting after the day the build was finished points to a wrong date.",
		Keys:   "build: finished"}
	rulePhoto = &source.Rule{Name: "photo-missing", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A page would show a hole where the picture belongs.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo"}
	ruleOutside = &source.Rule{Name: "outside-folder", Severity: source.Stop, Source: "common practice, no source",
		Reason: "Files outside the build's own folder are not part of its record, and may be private.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"sitting photos[]: file, pair; sitting before closing[]: photo"}
	ruleAlt = &source.Rule{Name: "alt-missing", Severity: source.Warn, Source: "WCAG 2.2, success criterion 1.1.1",
		Reason: "Readers who cannot see the picture need its content in words.",
		Keys:   "sitting photos[]: file, pair, alt; build choices[].options[]: photo, alt"}
	ruleHTML = &source.Rule{Name: "raw-html", Severity: source.Warn, Source: "common practice, no source",
		Reason: "HTML in a journal is not passed through, so that no text can run as code.",
		Keys:   source.NoKey}
	ruleLink = &source.Rule{Name: "broken-link", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A reader who follows the link would find nothing.",
		Keys:   source.NoKey}
	ruleScheme = &source.Rule{Name: "link-scheme", Severity: source.Stop, Source: "RFC 3986",
		Reason: "Only web, mail and relative links are safe to publish.",
		Keys:   source.NoKey}
	ruleFile = &source.Rule{Name: "stray-file", Severity: source.Note, Source: "common practice, no source",
		Reason: "A file that is not part of the workshop's layout is left out.",
		Keys:   source.NoKey}
	ruleUnreadable = &source.Rule{Name: "unreadable", Severity: source.Stop, Source: "common practice, no source",
		Reason: "What cannot be read cannot be published.",
		Keys:   source.NoKey}
)

// Rules lists the rules of this package for the guide.
var Rules = []*source.Rule{ruleSyntax, ruleEncoding, ruleHidden, ruleLimit, ruleKey, ruleTwice, ruleShape, ruleValue, ruleMissing, ruleName, ruleDate,
	ruleOrder, rulePhoto, rulePair, ruleOutside, ruleAlt, ruleHTML, ruleLink, ruleScheme, ruleFile, ruleUnreadable, ruleNoBuild, ruleUnshown}

// Short names for values with a place, since nearly every field is one.
type (
	Val[T any] = source.Value[T]
	Text       = source.Value[string]
)

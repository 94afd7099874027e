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
	ruleSyntax     = source.Rule{Name: "syntax", Severity: source.Stop, Reason: "Front matter that is not valid YAML cannot be read at all.", Source: "YAML 1.2"}
	ruleEncoding   = source.Rule{Name: "not-utf-8", Severity: source.Stop, Reason: "Text in another encoding would show wrong characters.", Source: "The Unicode Standard"}
	ruleLimit      = source.Rule{Name: "limit", Severity: source.Stop, Reason: "Limits keep a damaged or hostile file from using up the machine.", Source: "common practice, no source"}
	ruleKey        = source.Rule{Name: "unknown-key", Severity: source.Stop, Reason: "A misspelt key would silently lose what stands under it.", Source: "common practice, no source"}
	ruleTwice      = source.Rule{Name: "key-twice", Severity: source.Stop, Reason: "Of two values under one key, only one can be meant.", Source: "YAML 1.2, section 3.2.1.3"}
	ruleShape      = source.Rule{Name: "wrong-shape", Severity: source.Stop, Reason: "A list, a mapping or a single value stands where another is wanted.", Source: "common practice, no source"}
	ruleValue      = source.Rule{Name: "value", Severity: source.Stop, Reason: "A value without its unit, or in the wrong one, makes every sum after it wrong.", Source: "common practice, no source"}
	ruleMissing    = source.Rule{Name: "missing-key", Severity: source.Stop, Reason: "Without this value the page or the sum cannot be made.", Source: "common practice, no source"}
	ruleName       = source.Rule{Name: "unknown-name", Severity: source.Stop, Reason: "A name that is not declared anywhere stands for nothing.", Source: "common practice, no source"}
	ruleDate       = source.Rule{Name: "date", Severity: source.Stop, Reason: "The order of the sittings and every clock go by the dates.", Source: "ISO 8601"}
	ruleOrder      = source.Rule{Name: "after-finish", Severity: source.Warn, Reason: "A sitting after the day the build was finished points to a wrong date.", Source: "common practice, no source"}
	rulePhoto      = source.Rule{Name: "photo-missing", Severity: source.Stop, Reason: "A page would show a hole where the picture belongs.", Source: "common practice, no source"}
	ruleOutside    = source.Rule{Name: "outside-folder", Severity: source.Stop, Reason: "Files outside the build's own folder are not part of its record, and may be private.", Source: "common practice, no source"}
	ruleAlt        = source.Rule{Name: "alt-missing", Severity: source.Warn, Reason: "Readers who cannot see the picture need its content in words.", Source: "WCAG 2.2, success criterion 1.1.1"}
	ruleHTML       = source.Rule{Name: "raw-html", Severity: source.Warn, Reason: "HTML in a journal is not passed through, so that no text can run as code.", Source: "common practice, no source"}
	ruleLink       = source.Rule{Name: "broken-link", Severity: source.Warn, Reason: "A reader who follows the link would find nothing.", Source: "common practice, no source"}
	ruleScheme     = source.Rule{Name: "link-scheme", Severity: source.Stop, Reason: "Only web, mail and relative links are safe to publish.", Source: "RFC 3986"}
	ruleFile       = source.Rule{Name: "stray-file", Severity: source.Note, Reason: "A file that is not part of the workshop's layout is left out.", Source: "common practice, no source"}
	ruleUnreadable = source.Rule{Name: "unreadable", Severity: source.Stop, Reason: "What cannot be read cannot be published.", Source: "common practice, no source"}
)

// Rules lists the rules of this package for the guide.
var Rules = []source.Rule{ruleSyntax, ruleEncoding, ruleHidden, ruleLimit, ruleKey, ruleTwice, ruleShape, ruleValue, ruleMissing, ruleName, ruleDate,
	ruleOrder, rulePhoto, rulePair, ruleOutside, ruleAlt, ruleHTML, ruleLink, ruleScheme, ruleFile, ruleUnreadable}

// Short names for values with a place, since nearly every field is one.
type (
	Val[T any] = source.Value[T]
	Text       = source.Value[string]
)

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

// Rules lists the rules of this package for the guide.
var Rules = []*source.Rule{
	ruleSyntax, ruleEncoding, ruleHidden, ruleCut, ruleLimit, ruleKey, ruleTwice, ruleShape, ruleValue, ruleMissing, ruleName, ruleDate,
	ruleOrder, rulePhoto, rulePair, ruleOutside, ruleAlt, ruleHTML, ruleLink, ruleScheme, ruleFile, ruleUnread, ruleUnreadable,
	ruleElsewhere, ruleSpelling, ruleNoBuild, ruleUnshown,
}

// Short names for values with a place, since nearly every field is one.
type (
	Val[T any] = source.Value[T]
	Text       = source.Value[string]
)

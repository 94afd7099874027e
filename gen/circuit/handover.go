package circuit

import (
	"spruelight/gen/source"
)

// Rules of handing circuits over: what must be so before one can be solved.
var (
	RuleWireName = &source.Rule{Name: "wire-name", Severity: source.Stop, Source: "IEC 60028, ASTM B258",
		Reason: "Without the copper's size a wire has no resistance.",
		Keys:   "build circuits[].feed: wire; build circuits[].junctions[]: wire; build circuits[].branches[].lead: wire"}
	RuleLampName = &source.Rule{Name: "lamp-reference", Severity: source.Stop, Source: "IEC 81346-2 letter codes, common practice",
		Reason: "Lamps are known by one reference through the whole build: D1, D2 … in the order in which they are written.",
		Keys:   "build areas.<name>: encloses; build circuits[].fibres[]: from; sitting: lit"}
	RuleTwoLimiters = &source.Rule{Name: "two-limiters", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A branch has either a resistor or a driver.",
		Keys:   "build circuits[].branches[]: resistor, driver"}
)

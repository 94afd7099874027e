package journal

import "spruelight/gen/source"

// Rules of names that another system cannot store, or takes for another file.
var (
	RuleElsewhere = &source.Rule{Name: "name-elsewhere", Severity: source.Warn, Source: `Microsoft, "Naming Files, Paths, and Namespaces"`,
		Reason: "A workshop is copied to other systems sooner or later; a file whose name one of them cannot store is lost there.",
		Keys:   source.NoKey}
	RuleSpelling = &source.Rule{Name: "name-spelling", Severity: source.Warn,
		Source: "Unicode Standard Annex #15; Unicode 3.13 (case folding)",
		Reason: "Some systems take names that differ in case or in the form of accents for one file, others do not; the same " +
			"text then finds another file, or none.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo"}
)

package photo

import "spruelight/gen/source"

// RuleCache is broken when renditions cannot be kept.
var RuleCache = &source.Rule{Name: "photo-cache", Severity: source.Warn, Source: "common practice, no source",
	Reason: "Without its cache every run makes every photo anew.",
	Keys:   source.NoKey}

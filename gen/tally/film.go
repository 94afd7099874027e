package tally

import "spruelight/gen/source"

// RuleChapterTime is broken by a chapter whose time cannot be read.
var RuleChapterTime = &source.Rule{Name: "chapter-time", Severity: source.Stop,
	Reason: "A chapter without its time cannot be found in the film.",
	Source: "common practice, no source",
	Keys:   "sitting video: chapters"}

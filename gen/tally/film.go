package tally

import "spruelight/gen/source"

// RuleChapterTime is broken by a chapter whose time cannot be read.
var RuleChapterTime = &source.Rule{Name: "chapter-time", Severity: source.Stop,
	Reason: "A chapter without its time cannot be found in the film.",
	Source: "common practice, no source",
	Keys:   "sitting video: chapters"}

// RuleAhead is broken by show notes written before their day.
var RuleAhead = &source.Rule{Name: "under-embargo", Severity: source.Warn,
	Source: "the workshop's own agreement with the sender",
	Reason: "A description posted early breaks the embargo, or shows the draft, as surely as the film would.",
	Keys:   "build: embargo; sitting: embargo, draft"}

// RuleNoChapters is broken when chapters are asked for and there are none.
var RuleNoChapters = &source.Rule{Name: "no-chapters", Severity: source.Stop, Source: "WebVTT",
	Reason: "Without chapters there is no chapter file.",
	Keys:   "sitting video: chapters"}

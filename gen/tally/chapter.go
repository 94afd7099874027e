package tally

import (
	"fmt"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Video is a film of a sitting.
type Video struct {
	Address  string
	Length   source.Value[quantity.Stamp] // seconds
	Chapters []Chapter
}

// Chapter is a place in a video with its title.
type Chapter struct {
	Start source.Value[quantity.Stamp]
	Title string
}

// What video sites ask of chapters in a description (common practice of the
// sites, no standard).
const (
	leastChapters = 3
	leastSeconds  = 10
)

var (
	ruleChapterFirst = &source.Rule{Name: "chapter-first", Severity: source.Warn,
		Reason: "Video sites read a description's times as chapters only if the first is 0:00.", Source: "common practice, no source",
		Keys: "sitting video: chapters"}
	ruleChapterOrder = &source.Rule{Name: "chapter-order", Severity: source.Warn,
		Reason: "Chapters are read in order; one out of order spoils all of them.", Source: "common practice, no source",
		Keys: "sitting video: chapters"}
	ruleChapterClose = &source.Rule{Name: "chapter-too-close", Severity: source.Warn,
		Reason: "A chapter shorter than ten seconds makes video sites ignore them all.", Source: "common practice, no source",
		Keys: "sitting video: chapters"}
	ruleChapterFew = &source.Rule{Name: "chapter-too-few", Severity: source.Warn,
		Reason: "With fewer than three, video sites show no chapters.", Source: "common practice, no source",
		Keys: "sitting video: chapters"}
	ruleChapterEnd = &source.Rule{Name: "chapter-after-end", Severity: source.Warn,
		Reason: "A chapter must begin before the video ends.", Source: "logic",
		Keys: "sitting video: chapters, length"}
	ruleChapterTitle = &source.Rule{Name: "chapter-title", Severity: source.Warn,
		Reason: "A chapter without a title cannot be chosen.", Source: "WebVTT: chapter title text",
		Keys: "sitting video: chapters"}
	ruleVideoLength = &source.Rule{Name: "video-length", Severity: source.Warn,
		Reason: "The last chapter of a WebVTT file ends where the video does.", Source: "WebVTT: a cue has a start and an end",
		Keys: "sitting video: length"}
)

// CheckChapters checks a video's chapters. A video without any is fine.
func CheckChapters(v Video) source.Findings {
	var findings source.Findings
	if len(v.Chapters) == 0 {
		return nil
	}
	first := v.Chapters[0].Start
	if first.V != 0 {
		findings.Add(ruleChapterFirst.At(first.At, `let the first chapter begin at "0:00"`, "the first chapter begins at %s", first.V))
	}
	if n := len(v.Chapters); n < leastChapters {
		findings.Add(ruleChapterFew.At(first.At, "add chapters, or leave them all out",
			"%s: at least %d are needed", counted(n, "chapter"), leastChapters))
	}
	for i, c := range v.Chapters {
		findings.Add(checkChapter(v, i, c)...)
	}
	return findings
}

func checkChapter(v Video, i int, c Chapter) source.Findings {
	var findings source.Findings
	if strings.TrimSpace(c.Title) == "" {
		findings.Add(ruleChapterTitle.At(c.Start.At, "write what happens there", "the chapter at %s has no title", c.Start.V))
	}
	if i > 0 {
		before := v.Chapters[i-1].Start
		switch gap := int(c.Start.V) - int(before.V); {
		case gap <= 0:
			findings.Add(ruleChapterOrder.At(c.Start.At, "put the chapters in ascending order",
				"%s does not come after %s", c.Start.V, before.V).With(before.At, "the chapter before"))
		case gap < leastSeconds:
			findings.Add(ruleChapterClose.At(c.Start.At, "join the two, or move one",
				"%s is only %d s after %s", c.Start.V, gap, before.V).With(before.At, "the chapter before"))
		}
	}
	if v.Length.Set && c.Start.V >= v.Length.V {
		findings.Add(ruleChapterEnd.At(c.Start.At, "correct the time or the video's length",
			"%s is not before the end at %s", c.Start.V, v.Length.V).With(v.Length.At, "the length"))
	}
	return findings
}

// WebVTT writes a video's chapters as a WebVTT file. It returns "" with
// findings where they do not make one: a chapter out of order, or no length.
func WebVTT(v Video) (string, source.Findings) {
	var findings source.Findings
	if len(v.Chapters) == 0 {
		return "", nil
	}
	if !v.Length.Set {
		findings.Add(ruleVideoLength.At(v.Chapters[0].Start.At, `add length to the video, like "14:32"`,
			"the video's length is not written down"))
		return "", findings
	}
	for i, c := range v.Chapters {
		for _, f := range checkChapter(v, i, c) {
			if f.Rule.Name != ruleChapterClose.Name {
				findings.Add(f)
			}
		}
	}
	if len(findings) > 0 {
		return "", findings
	}
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for i, c := range v.Chapters {
		end := v.Length.V
		if i+1 < len(v.Chapters) {
			end = v.Chapters[i+1].Start.V
		}
		fmt.Fprintf(&b, "\n%d\n%s --> %s\n%s\n", i+1, vttTime(c.Start.V), vttTime(end), vttText(c.Title))
	}
	return b.String(), nil
}

// vttTime writes seconds as WebVTT does: hours of two digits or more, then
// minutes, seconds and milliseconds.
func vttTime(s quantity.Stamp) string {
	return fmt.Sprintf("%02d:%02d:%02d.000", int(s)/3600, int(s)/60%60, int(s)%60)
}

// vttText makes a title fit to be a cue's text: one line, its markup escaped
// (which also takes the arrow out), no NUL.
func vttText(title string) string {
	line := strings.Join(strings.Fields(strings.ReplaceAll(title, "\x00", " ")), " ")
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(line)
}

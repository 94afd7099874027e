package tally

import (
	"strings"
	"unicode/utf8"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Notes are what a video's description is made of.
type Notes struct {
	At         source.Span
	Title      string // of the sitting
	What       string // one or two sentences: what it is
	Disclosure Disclosure
	Video      Video
	Lists      []NoteList // paints, lamps, tools, kit: in order of importance
	Links      []Link
}

// NoteList is a headed list of the description.
type NoteList struct {
	Head  string
	Lines []string
}

// Link is a named address.
type Link struct{ Name, Address string }

var (
	ruleNotesShortened = &source.Rule{Name: "show-notes-shortened", Severity: source.Warn, Source: "common practice, no source",
		Reason: "Video sites cut a description at their limit; better to leave out a whole list than half a line.",
		Keys:   source.NoKey}
	ruleNotesLong = &source.Rule{Name: "show-notes-too-long", Severity: source.Stop,
		Reason: "Disclosure and chapters may not fall victim to a limit.", Source: "16 CFR 255.5; common practice",
		Keys: source.NoKey}
)

// ShowNotes writes a video's description as plain text: a due disclosure
// first, since sites fold all but the opening lines away; then what it is, the
// chapters, the lists and the links. With a limit in characters (zero: none)
// it leaves out whole lists, the last first, and says so.
func ShowNotes(n Notes, limit int) (string, source.Findings) {
	findings := CheckChapters(n.Video)
	head := n.head()
	tail := n.links()
	lists := n.lists()
	var dropped []string
	text := join(head, lists, tail)
	for limit > 0 && utf8.RuneCountInString(text) > limit && len(lists) > 0 {
		last := len(lists) - 1
		dropped = append([]string{lists[last].Head}, dropped...)
		lists = lists[:last]
		text = join(head, lists, tail)
	}
	if len(dropped) > 0 {
		findings.Add(ruleNotesShortened.At(n.At, "raise --limit, or put them into a comment below the video",
			"left out to keep to %d characters: %s", limit, source.And(dropped)))
	}
	if size := utf8.RuneCountInString(text); limit > 0 && size > limit {
		findings.Add(ruleNotesLong.At(n.At, "raise --limit, or shorten chapter titles",
			"disclosure, chapters and links alone take %d of %d characters", size, limit))
	}
	return text, findings
}

// head is what is never left out.
func (n Notes) head() []string {
	var blocks []string
	if n.Disclosure.Due {
		blocks = append(blocks, n.Disclosure.Sentence.String())
	}
	blocks = append(blocks, strings.TrimSpace(oneLine(n.Title)+"\n"+oneLine(n.What)))
	if len(n.Video.Chapters) > 0 {
		lines := []string{"Chapters"}
		for _, c := range n.Video.Chapters {
			lines = append(lines, n.stamp(c.Start.V)+" "+oneLine(c.Title))
		}
		blocks = append(blocks, strings.Join(lines, "\n"))
	}
	return blocks
}

// stamp writes all times of one description alike: with hours if any has them.
func (n Notes) stamp(at quantity.Stamp) string {
	last := n.Video.Chapters[len(n.Video.Chapters)-1].Start.V
	text := at.String()
	if last >= 3600 && at < 3600 {
		if at < 600 {
			return "0:0" + text
		}
		return "0:" + text
	}
	return text
}

func (n Notes) lists() []NoteList {
	var lists []NoteList
	for _, l := range n.Lists {
		if len(l.Lines) > 0 {
			lists = append(lists, l)
		}
	}
	return lists
}

func (n Notes) links() string {
	if len(n.Links) == 0 {
		return ""
	}
	lines := []string{"Links"}
	for _, l := range n.Links {
		lines = append(lines, oneLine(l.Name)+": "+l.Address)
	}
	return strings.Join(lines, "\n")
}

// join puts the blocks below each other with a line between them.
func join(head []string, lists []NoteList, tail string) string {
	blocks := append([]string{}, head...)
	for _, l := range lists {
		lines := []string{l.Head}
		for _, line := range l.Lines {
			lines = append(lines, "- "+oneLine(line))
		}
		blocks = append(blocks, strings.Join(lines, "\n"))
	}
	if tail != "" {
		blocks = append(blocks, tail)
	}
	return strings.Join(blocks, "\n\n") + "\n"
}

// oneLine folds white space, so that no value can break the text's lines.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

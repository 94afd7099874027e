package journal

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
	"time"

	"spruelight/gen/source"
)

// ruleUnread is broken by a file that was most likely meant to be read.
var ruleUnread = &source.Rule{Name: "unread-journal", Severity: source.Warn, Source: "common practice, no source",
	Reason: "A journal whose name is not quite right is left out, with all that was written in it.",
	Keys:   source.NoKey}

// Why a journal is not read.
const (
	noDate   = "its name is no date"
	noEnding = "its name does not end in .md"
	noSlug   = "its name cannot be part of an address"
	noName   = "its name is not quite that of a file that is read"
)

// unread says of a file why it is not read, and what name would have it read.
func unread(file, why string, names ...string) source.Finding {
	return ruleUnread.At(source.NewFile(file, "").Whole(), source.Say("rename it to %s", source.Or(names)), "%s is left out: %s", file, why)
}

// textEndings are what editors and systems put behind the name of a Markdown file.
var textEndings = regexp.MustCompile(`(?i)(\.(md|markdown|mdown|mkd|mdtext|txt|text))+$`)

// yamlEndings are what they put behind that of a YAML file.
var yamlEndings = regexp.MustCompile(`(?i)(\.(ya?ml|txt|text))+$`)

// written are the ways in which a day stands at the head of a file's name: the
// year first, with or without signs between, or last.
var written = []struct {
	form  *regexp.Regexp
	order []string // of what the groups are: layouts of a day
}{
	{regexp.MustCompile(`^(\d{4})[-_. ]?(\d{2})[-_. ]?(\d{2})(?:\D|$)`), []string{"2006-01-02"}},
	{regexp.MustCompile(`^(\d{4})[-_. ](\d{1,2})[-_. ](\d{1,2})(?:\D|$)`), []string{"2006-1-2"}},
	{regexp.MustCompile(`^(\d{1,2})[-_. ](\d{1,2})[-_. ](\d{4})(?:\D|$)`), []string{"2-1-2006", "1-2-2006"}},
}

// likelySittings returns the names that a sitting's file should bear whose stem
// begins with a day in some other form, or has words that cannot stand there; none
// where no day is in it. A day that can be read in two ways gives two.
func likelySittings(stem string) []string {
	var names []string
	for _, w := range written {
		m := w.form.FindStringSubmatchIndex(stem)
		if m == nil {
			continue
		}
		digits := stem[m[2]:m[3]] + "-" + stem[m[4]:m[5]] + "-" + stem[m[6]:m[7]]
		words := strings.Trim(unslug.ReplaceAllString(source.Stem(stem[m[7]:]), "-"), "-")
		if strings.Trim(stem[m[7]:], " -_.") == "" {
			words = ""
		}
		for _, layout := range w.order {
			day, err := time.Parse(layout, digits)
			if err != nil {
				continue
			}
			name := day.Format(time.DateOnly)
			if words != "" {
				name += "-" + words
			}
			if CheckSittingName(name) == nil && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		if len(names) > 0 {
			break
		}
	}
	return names
}

// unreadInBuild finds the name that would have a file of a build's folder read as
// a journal; ok is false where it is read as it is, or looks like none.
func unreadInBuild(dir, name string, taken []string) (source.Finding, bool) {
	ending := textEndings.FindString(name)
	stem := strings.TrimSuffix(name, ending)
	plain := ending == ".md"
	if ending == "" || plain && (stem == "build" || stem == "review" || sittingName.MatchString(stem)) {
		return source.Finding{}, false
	}
	var names []string
	if low := strings.ToLower(stem); low == "build" || low == "review" {
		names = []string{low + ".md"}
	}
	for _, likely := range likelySittings(stem) {
		names = append(names, free(likely+".md", taken))
	}
	why := noDate
	if !plain {
		why = noEnding
	}
	switch {
	case len(names) > 0:
	case plain, !markdownEnding.MatchString(name):
		return source.Finding{}, false // notes of some kind
	default:
		names = []string{"one like 2026-02-14.md"}
	}
	return unread(path.Join(dir, name), why, names...), true
}

// markdownEnding ends the names of Markdown files, or of what became of them.
var markdownEnding = regexp.MustCompile(`(?i)\.(md|markdown|mdown|mkd|mdtext)(\.(txt|text))?$`)

// free returns a name, with a number behind it where it is taken.
func free(name string, taken []string) string {
	out := name
	for n := 2; slices.Contains(taken, out); n++ {
		out = fmt.Sprintf("%s-%d.md", strings.TrimSuffix(name, ".md"), n)
	}
	return out
}

// unreadOnWall finds the name that would have a file of the wall read as a page.
func unreadOnWall(name string, taken []string) (source.Finding, bool) {
	ending := textEndings.FindString(name)
	stem := strings.TrimSuffix(name, ending)
	likely := likeSlug(stem, nil)
	if !markdownEnding.MatchString(name) || likely == "" || likely+".md" == name {
		return source.Finding{}, false
	}
	why := noSlug
	if ending != ".md" {
		why = noEnding
	}
	return unread(path.Join("wall", name), why, free(likely+".md", taken)), true
}

// likeSlug returns the name that an address may have of one that it may not
// have, "" where nothing is left of it.
func likeSlug(name string, taken []string) string {
	like := strings.Trim(unslug.ReplaceAllString(source.Stem(name), "-"), "-")
	if !slugFault(like, taken).Empty() {
		return ""
	}
	return like
}

// unreadYAML finds the name that would have a file of stock or settings read;
// is reports whether a name is that of such a file.
func unreadYAML(dir, name string, is func(string) bool) (source.Finding, bool) {
	ending := yamlEndings.FindString(name)
	to := strings.ToLower(strings.TrimSuffix(name, ending)) + ".yaml"
	if ending == "" || to == name || !is(to) {
		return source.Finding{}, false
	}
	return unread(path.Join(dir, name), noName, to), true
}

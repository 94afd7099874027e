package bag

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Tag is one element of bag-info.txt. Lines of a value are separated by "\n".
type Tag struct {
	Label string `json:"label"`
	Value string `json:"value"`
}

const (
	infoFile  = "bag-info.txt"
	oxumLabel = "Payload-Oxum"
)

// formatInfo writes the elements in their order. Each line of a value after the
// first is a continuation, indented; the indent is not part of the value
// (section 2.2.2).
func formatInfo(tags []Tag) ([]byte, error) {
	var b strings.Builder
	for _, t := range tags {
		if why := labelFault(t.Label); why != "" {
			return nil, fmt.Errorf("%s: the label %q %s", infoFile, t.Label, why)
		}
		lines, err := valueLines(t.Value)
		if err != nil {
			return nil, fmt.Errorf("%s: the value of %s %w", infoFile, t.Label, err)
		}
		b.WriteString(t.Label + ": " + strings.Join(lines, "\n  ") + "\n")
	}
	return []byte(b.String()), nil
}

func labelFault(label string) string {
	switch {
	case label == "":
		return "is empty"
	case strings.ContainsAny(label, ":\r\n"):
		return "has a colon or line break in it"
	case strings.TrimSpace(label) != label:
		return "begins or ends with white space"
	case strings.ContainsFunc(label, unicode.IsControl):
		return "has a control character in it"
	}
	return ""
}

// valueLines splits a value. White space around lines and empty lines cannot be
// told from padding, so they are left out.
func valueLines(value string) ([]string, error) {
	var lines []string
	for _, line := range eachLine(value) {
		line = strings.TrimSpace(line)
		if strings.ContainsFunc(line, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }) {
			return nil, fmt.Errorf("has a control character in it")
		}
		if line != "" {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return nil, fmt.Errorf("is empty")
	}
	return lines, nil
}

// parseInfo reads the elements. strict asks for the single space or tab after
// the colon that version 1.0 demands; earlier ones allow any around it.
func parseInfo(text string, strict bool) ([]Tag, []Fault) {
	var tags []Tag
	var values [][]string // the lines of each element's value
	faults := lineFaults{file: infoFile}
	for n, line := range eachLine(text) {
		says := ""
		if line != "" && (line[0] == ' ' || line[0] == '\t') {
			if last := len(values) - 1; last >= 0 {
				values[last] = append(values[last], strings.TrimLeft(line, " \t"))
			} else {
				says = "continues an element, but there is none before it"
			}
		} else {
			var tag Tag
			if tag, says = parseElement(line, strict); says == "" {
				tags, values = append(tags, tag), append(values, []string{tag.Value})
			}
		}
		if says != "" && !faults.add(Metadata, n, says) {
			break
		}
	}
	for i := range tags {
		tags[i].Value = strings.Join(values[i], "\n")
	}
	return tags, faults.all
}

func parseElement(line string, strict bool) (Tag, string) {
	label, value, found := strings.Cut(line, ":")
	if !found {
		return Tag{}, "is not of the form \"label: value\""
	}
	if !strict {
		label = strings.TrimRight(label, " \t")
	}
	if why := labelFault(label); why != "" {
		return Tag{}, "the label " + why
	}
	if value == "" || value[0] != ' ' && value[0] != '\t' {
		return Tag{}, "needs a space or tab after the colon"
	}
	value = value[1:]
	if trimmed := strings.TrimLeft(value, " \t"); trimmed != value {
		if strict {
			return Tag{}, "has more than one space or tab after the colon"
		}
		value = trimmed
	}
	return Tag{label, value}, ""
}

var (
	oxumForm  = regexp.MustCompile(`^([0-9]+)\.([0-9]+)$`)
	countForm = regexp.MustCompile(`^[0-9]+ of ([0-9]+|\?)$`)
)

// onceAtMost are the reserved elements that should not be repeated.
var onceAtMost = []string{"Bagging-Date", "Bag-Size", "Bag-Group-Identifier", "Bag-Count"}

// checkInfo compares the reserved elements with the payload that is there.
// Their labels are the same in any case.
func checkInfo(tags []Tag, octets int64, streams int) []Fault {
	var faults []Fault
	say := func(kind Kind, format string, args ...any) {
		faults = append(faults, Fault{Kind: kind, File: infoFile, Says: fmt.Sprintf(format, args...)})
	}
	seen := map[string]int{}
	for _, t := range tags {
		label := strings.ToLower(t.Label)
		seen[label]++
		switch label {
		case "payload-oxum":
			m := oxumForm.FindStringSubmatch(t.Value)
			if m == nil {
				say(Oxum, "%s %q is not two numbers with a dot between", oxumLabel, t.Value)
			} else if want := formatOxum(octets, streams); !sameOxum(m, octets, streams) {
				say(Oxum, "%s says %s, but the payload has %s (bytes.files)", oxumLabel, t.Value, want)
			}
		case "bagging-date":
			if _, err := time.Parse(time.DateOnly, t.Value); err != nil {
				say(Advice, "Bagging-Date %q is not a date of the form 2026-02-14", t.Value)
			}
		case "bag-count":
			if !countForm.MatchString(t.Value) {
				say(Advice, "Bag-Count %q is not of the form \"1 of 2\"", t.Value)
			}
		}
	}
	if seen["payload-oxum"] > 1 {
		say(Oxum, "%s occurs %d times", oxumLabel, seen["payload-oxum"])
	}
	for _, label := range onceAtMost {
		if n := seen[strings.ToLower(label)]; n > 1 {
			say(Advice, "%s occurs %d times", label, n)
		}
	}
	return faults
}

func formatOxum(octets int64, streams int) string {
	return strconv.FormatInt(octets, 10) + "." + strconv.Itoa(streams)
}

func sameOxum(m []string, octets int64, streams int) bool {
	o, errO := strconv.ParseInt(m[1], 10, 64)
	s, errS := strconv.ParseInt(m[2], 10, 64)
	return errO == nil && errS == nil && o == octets && s == int64(streams)
}

package bag

import (
	"fmt"
	"regexp"
	"strings"
)

// entry is one line of a manifest.
type entry struct {
	line int
	sum  string // lower case
	path string
	raw  string // the path as it is written
	note string // what the standard would rather have, "" where nothing
}

// manifestName splits the name of a manifest; ok is false for other files.
func manifestName(name string) (algorithm string, tag, ok bool) {
	m := manifestForm.FindStringSubmatch(name)
	if m == nil {
		return "", false, false
	}
	return m[2], m[1] != "", true
}

var (
	manifestForm = regexp.MustCompile(`^(tag)?manifest-([a-z0-9]+)\.txt$`)
	nearManifest = regexp.MustCompile(`(?i)^(tag)?manifest-.*\.txt$`)
)

// formatManifest writes lines of checksum and path, with the two spaces that
// coreutils' own checkers ask for.
func formatManifest(entries []entry) []byte {
	var b strings.Builder
	for _, e := range entries {
		b.WriteString(e.sum + "  " + encodePath(e.path) + "\n")
	}
	return []byte(b.String())
}

// parseManifest reads the lines of a manifest (section 2.1.3). digits is the
// length of the algorithm's checksum, or 0 where that is not known. Lines with
// a fault are left out.
func parseManifest(file, text string, digits int, strict bool) ([]entry, []Fault) {
	var entries []entry
	faults := lineFaults{file: file}
	seen := map[string]int{}
	for n, line := range eachLine(text) {
		e, kind, says := parseManifestLine(line, digits, strict)
		e.line = n
		if first := seen[e.path]; says == "" && first > 0 {
			kind, says = Duplicate, fmt.Sprintf("lists %s again, after line %d", show(e.path), first)
		}
		if says == "" {
			seen[e.path] = n
			entries = append(entries, e)
			if e.note != "" && !faults.add(Advice, n, e.note) {
				break
			}
		} else if !faults.add(kind, n, says) {
			break
		}
	}
	return entries, faults.all
}

func parseManifestLine(line string, digits int, strict bool) (entry, Kind, string) {
	end := strings.IndexAny(line, " \t")
	if end <= 0 {
		return entry{}, Manifest, "is not of the form \"checksum path\""
	}
	sum, coded := strings.ToLower(line[:end]), strings.TrimLeft(line[end:], " \t")
	switch {
	case strings.Trim(sum, "0123456789abcdef") != "":
		return entry{}, Manifest, fmt.Sprintf("the checksum %q is not hexadecimal", shorten(line[:end]))
	case digits > 0 && len(sum) != digits:
		return entry{}, Manifest, fmt.Sprintf("the checksum has %d digits, not the %d of its algorithm", len(sum), digits)
	case strings.HasPrefix(coded, "*") && strict:
		return entry{}, Manifest, fmt.Sprintf("the asterisk before %s is a checksum tool's own mark and not allowed in a manifest",
			show(coded[1:]))
	}
	e := entry{sum: sum, raw: coded}
	if bare, marked := strings.CutPrefix(coded, "*"); marked {
		coded, e.note = bare, fmt.Sprintf("the asterisk before %s is a checksum tool's own mark", show(bare))
	}
	p, err := decodePath(coded, strict)
	if err != nil {
		return entry{}, Manifest, fmt.Sprintf("the path %s %v", show(coded), err)
	}
	if plain := withoutDot(p); plain != p {
		p, e.note = plain, fmt.Sprintf("the path %s begins with ./, which says nothing", show(p))
	}
	if why := leadsOut(p); why != "" {
		return entry{}, Outside, fmt.Sprintf("the path %s %s", show(p), why)
	}
	e.path = p
	return e, "", ""
}

// withoutDot takes the ./ off that some checksum tools begin a path with.
func withoutDot(p string) string {
	for strings.HasPrefix(p, "./") {
		p = p[2:]
	}
	return p
}

// show quotes a path for a message, shortened.
func show(p string) string { return fmt.Sprintf("%q", shorten(p)) }

func shorten(s string) string {
	const most = 120
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

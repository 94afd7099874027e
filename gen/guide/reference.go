package guide

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// The reference is written as free pages, in Markdown, from the declarations
// that the program itself goes by: keys from the Go types that read them, rules
// and formulas from the rooms' lists. Any workshop may pin them to its wall.

// referencePage is one page of the reference.
type referencePage struct {
	name, title, summary string
	kinds                []string // of files
	body                 func(referencePage) string
}

func referencePages() []referencePage {
	return []referencePage{
		{"reference", "Reference", "What may be written in a workshop's files, what is checked, and how the sums are done.",
			nil, referenceIndex},
		{"reference-workshop", "Keys of workshop.yaml", "Every key of workshop.yaml: its value, unit, example, and what is checked.",
			[]string{"workshop"}, keysPage},
		{"reference-build", "Keys of build.md", "Every key of a build's front matter: its value, unit, example, and what is checked.",
			[]string{"build"}, keysPage},
		{"reference-sitting", "Keys of a sitting", "Every key of a sitting's front matter: its value, unit, example, and what is checked.",
			[]string{"sitting"}, keysPage},
		{"reference-review", "Keys of review.md", "Every key of a review's front matter: its value, example, and what is checked.",
			[]string{"review"}, keysPage},
		{"reference-rack", "Keys of the rack", "Every key of lamps, supplies, paints and wire: its value, unit, example, and what is checked.",
			[]string{"lamps", "supplies", "paints", "wire"}, keysPage},
		{"reference-wall-shelf", "Keys of the wall and the shelf", "Every key of free pages and of models that are no builds.",
			[]string{"wall", "shelf"}, keysPage},
		{"reference-rules", "Rules", "Everything that is checked: how grave it is, why, by which source, and how to silence it.",
			nil, rulesPage},
		{"reference-formulas", "Formulas", "Every sum, with its letters, units and source.", nil, formulasPage},
		{"reference-limits", "Limits", "How much is read, why there is a bound, and which finding says that it was passed.", nil, limitsPage},
	}
}

// Reference writes the pages of the reference, one Markdown file each, for the
// wall of a workshop.
func Reference() []output.File {
	var files []output.File
	for i, p := range referencePages() {
		text := fmt.Sprintf("---\ntitle: %s\nsummary: %q\ngroup: Reference\norder: %d\n---\n%s", p.title, p.summary, 200+i, p.body(p))
		files = append(files, output.File{Path: p.name + ".md", Bytes: []byte(strings.TrimRight(text, "\n") + "\n")})
	}
	return files
}

func referenceIndex(referencePage) string {
	var b strings.Builder
	b.WriteString("These pages are written by the program itself, from the very declarations it reads and checks by, with " +
		"`spruelight reckon reference --out wall`.\n\n## What may be written\n\n")
	for _, p := range referencePages() {
		for _, kind := range p.kinds {
			k := fileKind(kind)
			fmt.Fprintf(&b, "- [%s](%s.md#%s): `%s`, %s\n", k.Title, p.name, anchor(k.Title), k.Where, plural(len(k.Keys()), "key"))
		}
	}
	rules, formulas := 0, 0
	b.WriteString("\n## What is checked\n\n")
	for _, set := range RuleSets() {
		rules += len(set.Rules)
		fmt.Fprintf(&b, "- [%s](reference-rules.md#%s): %s\n", set.Title, anchor(set.Title), plural(len(set.Rules), "rule"))
	}
	b.WriteString("\n## How the sums are done\n\n")
	for _, set := range FormulaSets() {
		formulas += len(set.Formulas)
		fmt.Fprintf(&b, "- [%s](reference-formulas.md#%s): %s\n", set.Title, anchor(set.Title), plural(len(set.Formulas), "formula"))
	}
	fmt.Fprintf(&b, "\n%d rules and %d formulas in all. Sums are aids, not approvals: the maker's data sheet and safety data sheet "+
		"win.\n", rules, formulas)
	return b.String()
}

func fileKind(name string) journal.FileKind {
	kinds := journal.FileKinds()
	return kinds[slices.IndexFunc(kinds, func(k journal.FileKind) bool { return k.Name == name })]
}

func plural(n int, word string) string {
	if n == 1 {
		return "one " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// keysPage lists the keys of some kinds of file.
func keysPage(p referencePage) string {
	var b strings.Builder
	b.WriteString("A key in front of another with a full stop holds it: `kit.maker` is `maker` inside `kit`. After `[]` each entry " +
		"of a list has the key, after `<name>` each entry that you name yourself. Where a list is wanted, a single value stands for a " +
		"list of one. A key marked *short form* may be written alone in place of its mapping.\n\n")
	fmt.Fprintf(&b, "Every key is held to %s; they are not repeated below.\n", ruleLinks(rulesOfEveryKey()))
	of := rulesOfKeys()
	for _, name := range p.kinds {
		k := fileKind(name)
		fmt.Fprintf(&b, "\n## %s\n\n`%s`\n\n", k.Title, k.Where)
		keys := k.Keys()
		b.WriteString(topKeys(name, keys))
		for _, key := range keys {
			b.WriteString(keyEntry(source.Key{Kind: name, Path: key.Path}, key, of[source.Key{Kind: name, Path: key.Path}]))
		}
	}
	return b.String()
}

// topKeys is the list of contents: the keys that no other holds.
func topKeys(kind string, keys []journal.Key) string {
	var links []string
	for _, k := range keys {
		if rest := strings.TrimPrefix(k.Path, "<name>."); !strings.ContainsAny(rest, ".<") {
			links = append(links, fmt.Sprintf("[%s](#%s)", rest, anchor(keyHeading(source.Key{Kind: kind, Path: k.Path}))))
		}
	}
	return strings.Join(links, " · ") + "\n\n"
}

// keyEntry writes one key: its meaning, its value, what is checked.
func keyEntry(at source.Key, k journal.Key, rules []string) string {
	var b strings.Builder
	meaning, otherwise := splitDefault(k.Doc)
	fmt.Fprintf(&b, "### %s\n\n%s.\n\n", keyHeading(at), marked(meaning))
	value := topic.Heading(k.Value)
	if k.Units != "" {
		value += ", in " + k.Units
	}
	fmt.Fprintf(&b, "- Value: %s\n", marked(value))
	if k.Example != "" {
		fmt.Fprintf(&b, "- Example: `%s: %s`\n", lastKey(k.Path), k.Example)
	}
	switch {
	case k.Required:
		b.WriteString("- Must be given\n")
	case otherwise != "":
		fmt.Fprintf(&b, "- When not given: %s\n", marked(otherwise))
	}
	if k.Short {
		b.WriteString("- Short form: its value may stand alone in place of the mapping\n")
	}
	if len(rules) > 0 {
		fmt.Fprintf(&b, "- Findings it can raise: %s\n", ruleLinks(rules))
	}
	b.WriteString("\n")
	return b.String()
}

// splitDefault parts "Wanted current; 5 mA when not given" in two.
func splitDefault(doc string) (meaning, otherwise string) {
	at := strings.LastIndex(doc, "; ")
	if rest, ok := strings.CutSuffix(doc, " when not given"); ok && at >= 0 {
		return doc[:at], rest[at+2:]
	}
	return doc, ""
}

func lastKey(path string) string {
	last := path[strings.LastIndexByte(path, '.')+1:]
	return strings.TrimSuffix(last, "[]")
}

func ruleLinks(names []string) string {
	links := make([]string, len(names))
	for i, name := range names {
		links[i] = fmt.Sprintf("[%s](reference-rules.md#%s)", name, anchor(name))
	}
	return strings.Join(links, ", ")
}

// rulesPage lists every rule.
func rulesPage(referencePage) string {
	var b strings.Builder
	b.WriteString(silenceText)
	b.WriteString("## Subjects\n\n")
	for _, set := range RuleSets() {
		fmt.Fprintf(&b, "- [%s](#%s)\n", set.Title, anchor(set.Title))
	}
	for _, set := range RuleSets() {
		fmt.Fprintf(&b, "\n## %s\n\n", set.Title)
		for _, r := range set.Rules {
			b.WriteString(ruleEntry(r))
		}
	}
	return b.String()
}

// silenceText says how a rule is silenced. The example is read by a test.
const silenceText = "A *stop* forbids a result: nothing is written until it is mended. A *warn* is probably a mistake. " +
	"A *note* is worth knowing. Each finding names its rule between brackets.\n\n## Silencing a rule\n\n" +
	"Warnings and notes can be silenced where you know better, always with the reason. In `build.md` the silence holds for the build, " +
	"in `workshop.yaml` for all builds; `on` narrows it to findings whose words name a branch, a lamp, an area or a part.\n\n" +
	"```yaml build" + `
name: Survey skiff "Marram"
state: bench
silence:
  headroom-small: these lamps are meant to glow only
  reverse-voltage:
    why: the holder takes the cells one way round only
    on: [D1]
areas:
  railings:
    material: photo-etch
    silence: {primer-missing: the fret came primed}
` + "```\n\nThe page then shows the finding with the words \"accepted by the builder, because\", and `dryfit` prints it as silenced. " +
	"What stops a run cannot be silenced. A misspelt rule, a silence without a reason and one for which there is nothing " +
	"are findings themselves.\n\n"

func ruleEntry(r *source.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "### %s\n\n**%s**: %s\n\n- Source: %s\n", r.Name, r.Severity, marked(r.Reason), marked(r.Source))
	if r.Severity == source.Stop {
		b.WriteString("- Cannot be silenced\n")
	} else {
		fmt.Fprintf(&b, "- Silenced by: `silence: {%s: why}`\n", r.Name)
	}
	if keys := r.LooksAt(); len(keys) > 0 {
		fmt.Fprintf(&b, "- Looks at: %s\n", keyLinks(keys))
	}
	b.WriteString("\n")
	return b.String()
}

// keyLinks links to keys, each with its kind of file where that changes.
func keyLinks(keys []source.Key) string {
	var out []string
	last := ""
	for _, k := range keys {
		link := fmt.Sprintf("[%s](%s.md#%s)", marked(k.Path), pageOfKind(k.Kind).name, anchor(keyHeading(k)))
		if k.Kind != last {
			link = k.Kind + " " + link
			last = k.Kind
		}
		out = append(out, link)
	}
	return strings.Join(out, ", ")
}

func pageOfKind(kind string) referencePage {
	pages := referencePages()
	return pages[slices.IndexFunc(pages, func(p referencePage) bool { return slices.Contains(p.kinds, kind) })]
}

// keyHeading is a key's heading: with its kind of file where a page has several.
func keyHeading(k source.Key) string {
	if len(pageOfKind(k.Kind).kinds) > 1 {
		return k.Kind + " `" + k.Path + "`"
	}
	return "`" + k.Path + "`"
}

// formulasPage lists every formula.
func formulasPage(referencePage) string {
	var b strings.Builder
	b.WriteString("Each sum as it could be done by hand. A test of the program works every one of them out from these words and " +
		"compares it with what the program prints.\n")
	for _, set := range FormulaSets() {
		fmt.Fprintf(&b, "\n## %s\n\n", set.Title)
		for _, f := range set.Formulas {
			b.WriteString(formulaEntry(f))
		}
	}
	return b.String()
}

func formulaEntry(f *quantity.Formula) string {
	var b strings.Builder
	fmt.Fprintf(&b, "### %s\n\n`%s`\n\n", topic.Heading(f.Name), f.Sum)
	for _, w := range f.Where {
		fmt.Fprintf(&b, "- %s\n", marked(w))
	}
	fmt.Fprintf(&b, "- Source: %s\n\n", marked(f.Source))
	if f.Note != "" {
		fmt.Fprintf(&b, "%s\n\n", marked(f.Note))
	}
	return b.String()
}

// limitsPage lists every bound on what is read.
func limitsPage(referencePage) string {
	var b strings.Builder
	b.WriteString("All of these lie far above what a person writes. They keep a damaged or hostile file from using up the machine, " +
		"and what passes one is named with its place.\n\n")
	for _, l := range Limits() {
		fmt.Fprintf(&b, "## %s\n\n%s\n\n- At most: %s\n- Said by: %s\n\n",
			marked(topic.Heading(l.Of)), marked(l.Why), marked(l.Most), ruleLinks([]string{l.Rule}))
	}
	return b.String()
}

// marked escapes what Markdown would take for marks.
func marked(text string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "<", `\<`, "[", `\[`, "]", `\]`, "~", `\~`).Replace(text)
}

// anchor is the fragment that a heading gets: its letters and digits in small,
// blanks as hyphens.
func anchor(heading string) string {
	return strings.Map(func(c rune) rune {
		switch {
		case c < 0x80 && (unicode.IsLetter(c) || unicode.IsDigit(c)), c == '-', c == '_':
			return unicode.ToLower(c)
		case c == ' ':
			return '-'
		}
		return -1
	}, heading)
}

package journal

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/source"
	"spruelight/testdata/effort"
)

// limitFinding returns what reading says about a limit, "" where it says nothing.
func limitFinding(found source.Findings) string {
	for _, f := range found {
		if f.Rule.Name == ruleLimit.Name {
			return f.Says.String() + "; " + f.Do.String()
		}
	}
	return ""
}

// Each limit, just kept and just passed. The words are those of the finding.
func TestLimits(t *testing.T) {
	front := func(text string) source.Findings {
		var into BuildFront
		return decode(source.NewFile("build.md", text), 0, len(text), &into)
	}
	body := func(text string) source.Findings {
		_, found := parseBody(source.NewFile("a.md", text), 0)
		return found
	}
	files := func(dir string, n int, name string) source.Findings {
		fsys := shop()
		for i := range n {
			fsys[dir+fmt.Sprintf(name, i)] = plain("---\nstage: lighting\n---\n")
		}
		_, found := readAll(fsys)
		return found
	}
	pad := func(text string, n int) string { return text + strings.Repeat("\n", max(n-len(text), 0)) }
	table := func(columns, rows int) string {
		return strings.Repeat("|a", columns-1) + "\n" + strings.Repeat("|-", columns-1) + "\n" + strings.Repeat("|\n", rows-1)
	}
	numbered := func(form string, n int) string {
		var out strings.Builder
		for i := range n {
			fmt.Fprintf(&out, form, i)
		}
		return out.String()
	}
	for _, c := range []struct {
		of   string
		most int
		read func(n int) source.Findings
		says string // of one more than the most
	}{
		{"bytes of front matter", maxFront, func(n int) source.Findings { return front(pad("name: x\n", n)) }, "the front matter is 256 KiB long; at most 256 KiB are read; move long text below the front matter"},
		{"brackets", maxDepth, func(n int) source.Findings {
			return front("name: " + strings.Repeat("[", n) + strings.Repeat("]", n) + "\n")
		}, "more than 24 brackets inside one another; flatten the list"},
		{"brackets behind a quote that opens nothing", maxDepth, func(n int) source.Findings {
			return front("name: [a:\"" + strings.Repeat("[", n-1) + strings.Repeat("]", n) + "\n")
		}, "more than 24 brackets inside one another; flatten the list"},
		{"keys on lines of their own", maxBlockKeys, func(n int) source.Findings { return front(numbered("k%d: 1\n", n)) },
			"more than 4000 keys on lines of their own; split the file, or write entries on one line in braces"},
		{"entries of a list", maxKeys, func(n int) source.Findings {
			return front("choices: [{question: x, areas: [" + strings.Repeat("a, ", n-6) + "a]}]\n") // with the file, two lists, a mapping and a word
		}, "more than 20000 entries, or more than 24 levels; split the file"},
		{"anchors", maxMarks, func(n int) source.Findings { return front(numbered("k%d: &a b\n", n)) },
			"more than 64 anchors, aliases, tags and --- lines; write the values out"},
		{"dashes on one line", maxOnLine, func(n int) source.Findings { return front(strings.Repeat("- ", n-1) + "a\n") },
			"more than 64 keys and marks on one line; break the line"},
		{"bytes of a text", maxBody, func(n int) source.Findings { return body(pad("a\n", n)) },
			"the text is 256 KiB long; at most 256 KiB are read; split the text into several sittings or pages"},
		{"bytes of a line", maxLine, func(n int) source.Findings { return body(strings.Repeat("a", n-1) + "\n") },
			"a line of 16 KiB; at most 16 KiB are read; break the line"},
		{"quotes in one another", maxQuotes, func(n int) source.Findings { return body(strings.Repeat("> ", n) + "a") },
			"17 quotes or lists inside one another; at most 16 are read; flatten the text"},
		{"columns", maxColumns, func(n int) source.Findings { return body(strings.Repeat("|a", n) + "\n") },
			"a table row of more than 64 columns; split the table"},
		{"cells", maxCells / 50, func(n int) source.Findings { return body(table(50, n)) },
			"a table of more than 20000 cells, those counted that its rows leave out; split the table"},
		{"stars in a paragraph", maxParagraphMarks, func(n int) source.Findings { return body(strings.Repeat("*a\n", n)) },
			"more than 4000 quotes, brackets, stars and backquotes without an empty line in between; put an empty line in between"},
		{"addresses given apart", maxDefined, func(n int) source.Findings { return body(numbered("[k%d]: u\n", n)) },
			"more than 1000 addresses and footnotes given apart from the text; write the addresses where they are used, or split the text"},
		{"addresses behind links", maxReach / (8 << 10), func(n int) source.Findings {
			return body("[a]: " + strings.Repeat("u", 8<<10) + "\n\n" + strings.Repeat("[a]\n\n", n))
		}, "1032 KiB of addresses behind the links of one text; at most 1024 KiB are read; name each address once, or shorten them"},
		{"sittings", maxEntries - 1, func(n int) source.Findings { return files("builds/skiff/", n, "2026-03-01-n%d.md") },
			"2001 sittings; at most 2000 are read; split the build in two"},
		{"files of a folder", maxNames - 1, func(n int) source.Findings { return files("wall/", n, "n%d.txt") },
			"wall holds 5001 files; at most 5000 are read; move what is no journal to another folder"},
		{"builds", maxBuilds - 1, func(n int) source.Findings {
			fsys := shop()
			for i := range n {
				fsys[fmt.Sprintf("builds/b%d/build.md", i)] = plain("")
			}
			_, found := Open(fsys)
			return found
		}, "builds holds 2001 folders; at most 2000 are read; keep finished builds in a workshop of their own"},
		{"pictures of a build", maxEntries - 1, func(n int) source.Findings {
			fsys := shop()
			fsys["builds/skiff/2026-02-15.md"] = plain("---\nstage: lighting\nphotos: [" + strings.Repeat("{file: photos/a.jpg, alt: a}, ", n-1) + "{file: photos/a.jpg, alt: a}]\n---\n")
			_, found := readAll(fsys)
			return found
		}, "2001 pictures named by the build and its sittings; at most 2000 are read; split the build in two"},
		{"bytes of a file", maxFile, func(n int) source.Findings {
			fsys := shop()
			fsys["wall/about.md"] = &fstest.MapFile{Data: slices.Repeat([]byte("\n"), n)}
			_, found := readAll(fsys)
			return found
		}, "4096 KiB long; at most 4096 KiB are read; split the file"},
	} {
		t.Run(c.of, func(t *testing.T) {
			for _, n := range []int{c.most / 2, c.most} {
				if says := limitFinding(c.read(n)); says != "" {
					t.Errorf("%d: %s", n, says)
				}
			}
			if says := limitFinding(c.read(c.most + 1)); says != c.says {
				t.Errorf("%d: %q, want %q", c.most+1, says, c.says)
			}
		})
	}
}

func TestLimitsAreListed(t *testing.T) {
	for _, l := range Limits {
		if l.Of == "" || l.Most == "" || l.Why == "" || !slices.ContainsFunc(Rules, func(r *source.Rule) bool { return r.Name == l.Rule }) {
			t.Errorf("%+v", l)
		}
	}
}

// wicked are texts made to cost more than their length.
var wicked = map[string]string{
	"brackets": "[", "pictures": "![", "links that do not end": "[a](", "links that do not end, in angles": "[a](<b ", "stars": "*a **b ", "stars and lines": "*a_ ", "references": "[a][b", "titles": `[a](b "c`,
	"strikes": "~~a ", "tags": "<a ", "comments": "<!--", "sections": "<![CDATA[", "entities": "&a", "quotes": "\"a '", "quoted lines": "> a\n", "lists": "- a\n", "numbers": "1. a\n", "headings": "# a\n", "underlined headings": "a\n=\n",
	"fences": "```\n", "tables": "|a|b|\n|-|-|\n|c|d|\n\n", "short rows": "|a|a|a|a|a|a|a|a|a|a|\n|-|-|-|-|-|-|-|-|-|-|\n|\n|\n|\n\n", "addresses": "[a]: b\n", "footnotes": "[^a]: b\n\n", "footnotes used": "x[^a] ", "blanks": " ", "tabs": "\t", "lines": "\n", "HTML": "<div>\n", "scripts": "<script>\n", "tasks": "- [ ] a\n",
	"keys": "a: ", "key lines": "a: 1\n", "dashes": "- ", "questions": "? ", "anchors": "&a ", "aliases": "*a ", "YAML tags": "!!a ", "literals": "|\n", "quoted": `""`, "merges": "<<: *a\n", "documents": "---\n", "directives": "%a\n", "flow": "[a, ", "entries": "{a: 1}, ",
}

// However a text is made, it costs at most some hundred times what a plain one
// of its length does, as front matter and as a body: a quarter of a megabyte of
// a cost that grows with the square would cost many thousand times as much. In
// short it is every other kind.
func TestWickedTextsCostLittle(t *testing.T) {
	const size = 240 << 10
	cost := func(text string) time.Duration {
		start := time.Now()
		b, _ := parseBody(source.NewFile("a.md", text), 0)
		b.HTML(Into{})
		var front BuildFront
		decode(source.NewFile("a.yaml", text), 0, len(text), &front)
		return time.Since(start)
	}
	broken := func(unit string) string { // no line over its limit
		var out strings.Builder
		line := strings.Repeat(unit, 8000/len(unit)) + "\n"
		for out.Len() < size-len(line) {
			out.WriteString(line)
		}
		return out.String()
	}
	plain := min(cost(broken("word and word ")), cost(broken("word and word ")))
	for _, name := range effort.Share(slices.Sorted(maps.Keys(wicked)), 0, 2) {
		unit := wicked[name]
		for _, text := range []string{broken(unit), strings.Repeat(unit, 12<<10/len(unit))} {
			c := cost(text)
			if c > 400*plain { // perhaps by what else the machine does
				c = min(c, cost(text))
			}
			if c > 400*plain {
				t.Errorf("%s, %d bytes: %d times a plain text", name, len(text), c/plain)
			}
		}
	}
}

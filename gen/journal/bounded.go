package journal

import (
	"bytes"
	"regexp"
	"strings"

	"spruelight/gen/source"
)

// measure holds a body against its limits before it is parsed, line by line.
type measure struct {
	body    *Body
	marks   int // of the lines since the last empty one
	defined int // addresses and footnotes given apart from the text
	columns int // of the table at hand, 0 outside
	cells   int
}

var (
	// definition is the beginning of an address or a footnote given apart.
	definition = regexp.MustCompile(`^[ \t>*+-]*\[[^\]]*\]:`)
	// ruled is the line under the head of a table.
	ruled = regexp.MustCompile(`^[ \t>*+-]*\|?[ \t]*:?-+:?[ \t]*(\|[ \t]*:?-*:?[ \t]*)+$`)
)

// bounded checks the limits that must hold before the text is parsed: some
// constructs cost the square of their number, or print far more than was
// written.
func (b *Body) bounded() source.Findings {
	if len(b.text) > maxBody {
		return source.Findings{b.over(0, 0, "split the text into several sittings or pages", "the text is %d KiB long; at most %d KiB are read",
			len(b.text)>>10, maxBody>>10)}
	}
	m := measure{body: b}
	at := 0
	for line := range bytes.Lines(b.text) {
		if found := m.line(at, string(line)); found != nil {
			return found
		}
		at += len(line)
	}
	return nil
}

// over is the finding for a limit of a body that was passed at an offset.
func (b *Body) over(at, length int, remedy, format string, args ...any) source.Finding {
	return ruleLimit.At(b.file.At(b.start+at, length), remedy, format, args...)
}

func (m *measure) line(at int, line string) source.Findings {
	b := m.body
	if len(line) > maxLine {
		return source.Findings{b.over(at, 1, "break the line", "a line of %d KiB; at most %d KiB are read", len(line)>>10, maxLine>>10)}
	}
	if n := nesting(line); n > maxQuotes {
		return source.Findings{b.over(at, n, "flatten the text", "%d quotes or lists inside one another; at most %d are read", n, maxQuotes)}
	}
	if n := strings.Count(line, "|"); n > maxColumns {
		return source.Findings{b.over(at, 1, "split the table", "a table row of more than %d columns", maxColumns)}
	}
	if strings.TrimSpace(line) == "" {
		m.marks, m.columns, m.cells = 0, 0, 0
		return nil
	}
	for i := range len(line) {
		if strings.IndexByte("*_~[<`\"'", line[i]) >= 0 {
			m.marks++
		}
	}
	if m.marks > maxParagraphMarks {
		return source.Findings{b.over(at, 1, "put an empty line in between",
			"more than %d quotes, brackets, stars and backquotes without an empty line in between", maxParagraphMarks)}
	}
	return m.apart(at, line)
}

// apart counts what is given apart from the text, and the cells of tables.
func (m *measure) apart(at int, line string) source.Findings {
	if strings.Contains(line, "]:") && definition.MatchString(line) {
		m.defined++
	}
	if m.defined > maxDefined {
		return source.Findings{m.body.over(at, 1, "write the addresses where they are used, or split the text",
			"more than %d addresses and footnotes given apart from the text", maxDefined)}
	}
	if m.columns == 0 && ruled.MatchString(strings.TrimRight(line, " \t\r\n")) {
		m.columns = strings.Count(line, "|") + 1
	}
	if m.cells += m.columns; m.cells > maxCells {
		return source.Findings{m.body.over(at, 1, "split the table", "a table of more than %d cells, those counted that its rows leave out",
			maxCells)}
	}
	return nil
}

// nesting counts the quote and list marks at the front of a line; each eight
// columns of indentation beyond the blank after a mark count as one.
func nesting(line string) int {
	n, blanks := 0, 0
	for _, c := range line {
		switch c {
		case ' ':
			blanks++
		case '\t':
			blanks += 4
		case '>', '-', '*', '+':
			n++
		default:
			return n + max(blanks-n, 0)/8
		}
	}
	return 0 // a rule or an empty line
}

// reach is how many bytes of addresses and titles stand behind the links: one
// address given apart may be named a thousand times.
func (b *Body) reach() int {
	n := 0
	for _, l := range b.links {
		n += len(l.Dest) + len(l.Title)
	}
	return n
}

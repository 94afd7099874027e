package journal

import (
	"bytes"
	"strings"

	"spruelight/gen/source"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

var ruleHTML = &source.Rule{Name: "raw-html", Severity: source.Warn, Source: "common practice, no source",
	Reason: "HTML in a journal is not passed through, so that no text can run as code.",
	Keys:   source.NoKey}

// Body is the Markdown of a journal.
type Body struct {
	file    *source.File
	start   int // byte offset of the body in file
	text    []byte
	doc     ast.Node
	links   []Link
	anchors []string
	shift   int // added to heading levels, so that the page's title stays the only first level
}

// Link is a link or a picture in a body.
type Link struct {
	At      source.Span
	Dest    string // as written
	Picture bool
	Alt     string
	Title   string
}

// Picture is a picture placed between the words of a body.
type Picture struct {
	File       Text
	Alt, Title string
	Inline     bool // it stands among words, where only phrasing content may
}

var markdown = goldmark.New(
	goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, extension.Footnote, extension.Typographer),
	goldmark.WithParserOptions(parser.WithAutoHeadingID()),
)

// parseBody parses the Markdown from a byte offset of a file.
func parseBody(file *source.File, start int) (*Body, source.Findings) {
	b := &Body{file: file, start: start, text: []byte(file.Text[start:])}
	if found := b.bounded(); found != nil {
		b.text = nil
		b.doc = ast.NewDocument()
		return b, found
	}
	b.doc = markdown.Parser().Parse(text.NewReader(b.text))
	found := b.survey()
	if reach := b.reach(); reach > maxReach {
		b.doc, b.links, b.anchors = ast.NewDocument(), nil, nil
		found.Add(b.over(0, 1, "name each address once, or shorten them",
			"%d KiB of addresses behind the links of one text; at most %d KiB are read", reach>>10, maxReach>>10))
	}
	return b, found
}

// survey walks the tree once: raw HTML, links, pictures, headings.
func (b *Body) survey() source.Findings {
	var found source.Findings
	lowest := 6
	ast.Walk(b.doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if id, ok := n.AttributeString("id"); ok {
			if text, ok := id.([]byte); ok {
				b.anchors = append(b.anchors, string(text))
			}
		}
		switch n := n.(type) {
		case *ast.Heading:
			lowest = min(lowest, n.Level)
		case *ast.RawHTML:
			if n.Segments.Len() > 0 {
				seg := n.Segments.At(0)
				found.Add(b.rawHTML(seg.Start, seg.Len()))
			}
		case *ast.HTMLBlock:
			if n.Lines().Len() > 0 {
				seg := n.Lines().At(0)
				found.Add(b.rawHTML(seg.Start, len(strings.TrimRight(string(seg.Value(b.text)), "\r\n"))))
			}
		case *ast.Link:
			b.links = append(b.links, Link{At: b.at(n.Pos()), Dest: string(n.Destination), Title: string(n.Title)})
		case *ast.AutoLink:
			b.links = append(b.links, Link{At: b.at(n.Pos()), Dest: string(n.URL(b.text))})
		case *ast.Image:
			b.links = append(b.links, Link{At: b.at(n.Pos()), Dest: string(n.Destination), Picture: true, Alt: plainText(n, b.text),
				Title: string(n.Title)})
		}
		return ast.WalkContinue, nil
	})
	b.shift = max(2-lowest, 0)
	for i := range b.links {
		found.Add(b.checkLink(&b.links[i])...)
	}
	found.Add(b.hiddenReferences()...)
	return found
}

func (b *Body) rawHTML(offset, length int) source.Finding {
	return ruleHTML.At(b.file.At(b.start+offset, length), "say it in Markdown, or put it in `backquotes` to show it", "HTML is shown as text, not passed through")
}

// at returns the span of the construct at a byte offset of the body, to the end
// of its brackets where they stand on one line.
func (b *Body) at(pos int) source.Span {
	length := 1
	if line, _, _ := bytes.Cut(b.text[min(max(pos, 0), len(b.text)):], []byte("\n")); len(line) > 0 {
		length = len(line)
		if close := bytes.IndexByte(line, ')'); close >= 0 {
			length = close + 1
		}
	}
	return b.file.At(b.start+max(pos, 0), length)
}

// checkLink refuses what is not safe to publish.
func (b *Body) checkLink(l *Link) source.Findings {
	if scheme, ok := Scheme(l.Dest); ok && (l.Picture || !published(scheme)) {
		if l.Picture {
			return source.Findings{ruleOutside.At(l.At, "copy the picture into the build's photos folder",
				"a picture from another address; pages load nothing from elsewhere")}
		}
		return source.Findings{ruleScheme.At(l.At, "link to http, https, mailto or a relative path", "links of scheme %q are not published",
			scheme)}
	}
	if l.Picture && strings.TrimSpace(l.Alt) == "" {
		return source.Findings{ruleAlt.At(l.At, "write what is to be seen between the brackets", "%s has no alt text", l.Dest)}
	}
	return nil
}

// Scheme returns an address's scheme in lower case. Blanks and control
// characters that browsers skip are skipped, and "//host" counts as one.
func Scheme(address string) (string, bool) {
	clean := strings.Map(func(r rune) rune {
		if r <= ' ' || r == 0x7f {
			return -1
		}
		return r
	}, address)
	if strings.HasPrefix(clean, "//") || strings.HasPrefix(clean, `\\`) || strings.HasPrefix(clean, `/\`) {
		return "//", true
	}
	for i, r := range clean {
		switch {
		case r == ':' && i > 0:
			scheme := strings.ToLower(clean[:i])
			if written, _, _ := strings.Cut(strings.ToLower(address), ":"); published(scheme) && written != scheme {
				return written, true // with what a browser does not skip there it is none that is published
			}
			return scheme, true
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || i > 0 && (r >= '0' && r <= '9' || r == '+' || r == '-' || r == '.'):
		default:
			return "", false
		}
	}
	return "", false
}

// published reports whether links of a scheme are.
func published(scheme string) bool {
	return scheme == "http" || scheme == "https" || scheme == "mailto"
}

// Links returns the links of the body, pictures left out.
func (b *Body) Links() []Link {
	var links []Link
	for _, l := range b.links {
		if !l.Picture {
			links = append(links, l)
		}
	}
	return links
}

// Pictures returns the pictures placed between the words.
func (b *Body) Pictures() []Picture {
	var pictures []Picture
	if b == nil {
		return nil
	}
	for _, l := range b.links {
		if _, absolute := Scheme(l.Dest); l.Picture && !absolute {
			pictures = append(pictures, Picture{File: source.Written(l.Dest, l.At), Alt: l.Alt, Title: l.Title})
		}
	}
	return pictures
}

// Anchors returns the ids of the body's headings and footnotes.
func (b *Body) Anchors() []string {
	if b == nil {
		return nil
	}
	return b.anchors
}

// Text returns the body's words without marks, for searches and summaries.
func (b *Body) Text() string {
	if b == nil {
		return ""
	}
	return plainText(b.doc, b.text)
}

// Headings returns the words of the headings, a line each.
func (b *Body) Headings() string {
	if b == nil {
		return ""
	}
	var lines []string
	for n := b.doc.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() == ast.KindHeading {
			lines = append(lines, plainText(n, b.text))
		}
	}
	return strings.Join(lines, "\n")
}

// Summary returns the first paragraph's words, at most so many characters,
// cut between words.
func (b *Body) Summary(most int) string {
	if b == nil {
		return ""
	}
	for n := b.doc.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() == ast.KindParagraph {
			return Shorten(strings.TrimSpace(plainText(n, b.text)), most)
		}
	}
	return ""
}

// Shorten cuts a text between words to at most so many characters.
func Shorten(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	cut := string(r[:most])
	if i := strings.LastIndexByte(cut, ' '); i > most/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,;:–-") + "\u00a0…"
}

func plainText(n ast.Node, src []byte) string {
	var out strings.Builder
	ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Type() == ast.TypeBlock && !entering {
			out.WriteByte('\n')
		}
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			text := n.Segment.Value(src)
			if !n.IsRaw() {
				text = util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(text)))
			}
			out.Write(text)
			if n.SoftLineBreak() || n.HardLineBreak() {
				out.WriteByte(' ')
			}
		case *ast.String:
			out.WriteString(typographic.Replace(string(n.Value)))
		case *ast.AutoLink:
			out.Write(n.Label(src))
		case *ast.RawHTML: // which pages show as the text it is
			for i := range n.Segments.Len() {
				seg := n.Segments.At(i)
				out.Write(seg.Value(src))
			}
		case *extast.FootnoteBacklink, *extast.FootnoteLink:
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return strings.TrimSpace(out.String())
}

// typographic turns the typographer's entities back into characters.
var typographic = strings.NewReplacer("&ldquo;", "“", "&rdquo;", "”", "&lsquo;", "‘", "&rsquo;", "’", "&ndash;", "–", "&mdash;", "—",
	"&hellip;", "…", "&laquo;", "«", "&raquo;", "»")

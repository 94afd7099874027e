package page

import (
	"html/template"
	"io"
	"strings"
	"text/template/parse"
)

// fold puts the words of the language into a template once and for all, where
// it says the same on every page: {{say "Next"}} becomes text. A page says some
// thirty such words, and each call costs as much as a line of the journal.
//
// It comes after html/template's own escaping, which is what tells how a word is
// written where it stands; only words in text and in quoted attributes are put in.
func (b *Book) fold(t *template.Template) {
	// The first execution escapes all that the page calls, then fails for want
	// of data.
	_ = t.ExecuteTemplate(io.Discard, "page", nil)
	for _, part := range t.Templates() {
		if part.Tree != nil {
			b.foldList(part.Tree.Root)
		}
	}
}

func (b *Book) foldList(list *parse.ListNode) {
	if list == nil {
		return
	}
	for i, n := range list.Nodes {
		switch n := n.(type) {
		case *parse.TextNode:
			n.Text = b.words.punctuated(n.Text)
		case *parse.ActionNode:
			if text, ok := b.constant(n.Pipe); ok {
				list.Nodes[i] = &parse.TextNode{NodeType: parse.NodeText, Pos: n.Pos, Text: []byte(text)}
			}
		case *parse.IfNode:
			b.foldList(n.List)
			b.foldList(n.ElseList)
		case *parse.WithNode:
			b.foldList(n.List)
			b.foldList(n.ElseList)
		case *parse.RangeNode:
			b.foldList(n.List)
			b.foldList(n.ElseList)
		}
	}
}

// escapers are those of html/template that write a plain string as text or
// within a quoted attribute, both in the same way.
var escapers = map[string]bool{"_html_template_htmlescaper": true, "_html_template_attrescaper": true, "_html_template_rcdataescaper": true}

// constant returns what a pipeline prints on every page; ok is false where that
// differs, or is not plainly known.
func (b *Book) constant(p *parse.PipeNode) (text string, ok bool) {
	if p == nil || len(p.Decl) > 0 || len(p.Cmds) != 2 || len(p.Cmds[0].Args) != 2 || len(p.Cmds[1].Args) != 1 {
		return "", false
	}
	say, isName := p.Cmds[0].Args[0].(*parse.IdentifierNode)
	phrase, isText := p.Cmds[0].Args[1].(*parse.StringNode)
	escaper, isEscaper := p.Cmds[1].Args[0].(*parse.IdentifierNode)
	if !isName || !isText || !isEscaper || say.Ident != "say" || !escapers[escaper.Ident] {
		return "", false
	}
	text = b.words.Say(phrase.Text)
	if strings.ContainsAny(text, "+\x00") { // which html/template writes in a way of its own
		return "", false
	}
	return template.HTMLEscapeString(text), true
}

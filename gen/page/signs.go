package page

import (
	"bytes"
	"strings"
	"text/template/parse"
)

// A template's own commas, colons and full stops are written as in English. Where
// a language has signs of its own (its words' joins), they take their place after
// what the template says in that language; in a workshop's own texts nothing changes.

// setSigns puts the language's signs into the text of a list of nodes. It reports
// whether the last node speaks.
func (b *Book) setSigns(list *parse.ListNode) (speaks bool) {
	if list == nil {
		return false
	}
	wide := false // the words before end with a sign that brings its own space
	for _, n := range list.Nodes {
		switch n := n.(type) {
		case *parse.TextNode:
			n.Text = b.words.punctuated(n.Text)
			if speaks {
				n.Text = b.signed(n.Text)
			}
			if wide {
				n.Text = bytes.TrimPrefix(n.Text, []byte(" "))
			}
			speaks, wide = false, false
		case *parse.ActionNode:
			speaks, wide = b.speaks(n.Pipe)
		case *parse.IfNode:
			speaks, wide = b.setBranches(&n.BranchNode), false
		case *parse.WithNode:
			speaks, wide = b.setBranches(&n.BranchNode), false
		case *parse.RangeNode:
			speaks, wide = b.setBranches(&n.BranchNode), false
		default:
			speaks, wide = false, false
		}
	}
	return speaks
}

func (b *Book) setBranches(n *parse.BranchNode) bool {
	one, other := b.setSigns(n.List), b.setSigns(n.ElseList)
	return one || other
}

// speakers are the functions that say something in the language.
var speakers = map[string]bool{"say": true, "count": true, "bench": true, "day": true, "figure": true, "number": true, "money": true,
	"share": true}

// speaks reports whether a pipeline prints words of the language, and whether
// these are a phrase that ends with a wide colon.
func (b *Book) speaks(p *parse.PipeNode) (speaks, wide bool) {
	if p == nil || len(p.Decl) > 0 || len(p.Cmds) != 1 {
		return false, false
	}
	args := p.Cmds[0].Args
	name, ok := args[0].(*parse.IdentifierNode)
	if !ok || !speakers[name.Ident] {
		return false, false
	}
	if name.Ident == "say" && len(args) == 2 {
		phrase, ok := args[1].(*parse.StringNode)
		wide = ok && strings.HasSuffix(b.words.Say(phrase.Text), "：")
	}
	return true, wide
}

// signed gives a text that follows spoken words the signs of the language.
func (b *Book) signed(text []byte) []byte {
	for english, own := range b.words.joins {
		rest, ok := bytes.CutPrefix(text, []byte(english))
		if ok && (len(english) > 1 || len(rest) == 0 || rest[0] == '<' || rest[0] == '\n') {
			return append([]byte(own), rest...)
		}
	}
	return text
}

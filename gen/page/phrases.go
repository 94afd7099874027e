package page

import (
	"html/template"
	"slices"
	"strings"
	"text/template/parse"

	"spruelight/gen/source"
)

// RuleWords is broken by a phrase that the language lacks.
var RuleWords = &source.Rule{Name: "words-missing", Severity: source.Note, Source: "common practice, no source",
	Reason: "A phrase without a translation stands on the page in English.",
	Keys:   "workshop: language"}

// Phrases are the phrases and counted words that a theme's templates use.
type Phrases struct {
	Said, Counted []string
}

// Phrases returns what the templates say, each once, sorted.
func (b *Book) Phrases() Phrases { return Phrases{sorted(b.said), sorted(b.counted)} }

// notePhrases notes what the templates of a file say, before words are put into
// them, and sets the signs of the language after it.
func (b *Book) notePhrases(t *template.Template, file string) {
	for _, one := range t.Templates() {
		if one.Tree != nil && one.Tree.ParseName == file {
			walk(one.Tree.Root, b.notePhrase)
			b.setSigns(one.Tree.Root)
		}
	}
}

func (b *Book) notePhrase(call *parse.CommandNode) {
	name, ok := call.Args[0].(*parse.IdentifierNode)
	if !ok {
		return
	}
	switch {
	case name.Ident == "say" && len(call.Args) > 1:
		if text, ok := call.Args[1].(*parse.StringNode); ok {
			b.said[text.Text] = true
		}
	case name.Ident == "count" && len(call.Args) > 2:
		if text, ok := call.Args[2].(*parse.StringNode); ok {
			b.counted[text.Text] = true
		}
	}
}

func sorted(set map[string]bool) []string {
	var list []string
	for s := range set {
		list = append(list, s)
	}
	slices.Sort(list)
	return list
}

// walk calls see for every command of a template.
func walk(n parse.Node, see func(*parse.CommandNode)) {
	branch := func(b *parse.BranchNode) {
		walk(b.Pipe, see)
		walk(b.List, see)
		if b.ElseList != nil {
			walk(b.ElseList, see)
		}
	}
	switch n := n.(type) {
	case *parse.ListNode:
		if n == nil {
			return
		}
		for _, x := range n.Nodes {
			walk(x, see)
		}
	case *parse.ActionNode:
		walk(n.Pipe, see)
	case *parse.IfNode:
		branch(&n.BranchNode)
	case *parse.RangeNode:
		branch(&n.BranchNode)
	case *parse.WithNode:
		branch(&n.BranchNode)
	case *parse.TemplateNode:
		if n.Pipe != nil {
			walk(n.Pipe, see)
		}
	case *parse.PipeNode:
		for _, c := range n.Cmds {
			see(c)
			for _, a := range c.Args {
				walk(a, see)
			}
		}
	}
}

// Missing reports the phrases of the templates that the language lacks.
func (b *Book) Missing(at source.Span) source.Findings {
	if b.words.Language == "en" {
		return nil
	}
	var lacks []string
	used := b.Phrases()
	for _, p := range used.Said {
		if !b.words.Has(p) {
			lacks = append(lacks, p)
		}
	}
	for _, c := range used.Counted {
		if !b.words.HasCounted(c) {
			lacks = append(lacks, c)
		}
	}
	if len(lacks) == 0 {
		return nil
	}
	const most = 5
	some := strings.Join(lacks[:min(len(lacks), most)], "; ")
	return source.Findings{RuleWords.At(at, "a theme's own phrases cannot be translated yet: write them in the workshop's language",
		"%d phrases of the theme have no words in %q and stand in English: %s", len(lacks), b.words.Language, some)}
}

package stencil

import (
	"bytes"
	"html/template"
	"reflect"
	"slices"
	"strings"
	"text/template/parse"
)

// step prints a piece of a template.
type step func(r *run, dot reflect.Value) after

// after is what a step leads to.
type after int

const (
	goOn after = iota
	leaveLoop
	nextInLoop
)

// cutter turns trees into steps. It panics with ErrOther at what it does not know.
type cutter struct {
	set    *template.Template
	funcs  template.FuncMap
	pure   []string
	sheets map[string]*sheet

	scope []string // names of the variables in sight, each at its place
	most  int      // how many there were at once
}

// sheet cuts a template, once.
func (c *cutter) sheet(name string) *sheet {
	if s, ok := c.sheets[name]; ok {
		return s
	}
	t := c.set.Lookup(name)
	if t == nil || t.Tree == nil || t.Tree.Root == nil {
		panic(refuse("template", name))
	}
	s := &sheet{}
	c.sheets[name] = s // before its body: it may call itself
	outer, most := c.scope, c.most
	c.scope, c.most = []string{"$"}, 1
	s.body = c.list(t.Tree.Root)
	s.vars = c.most
	c.scope, c.most = outer, most
	return s
}

// declare gives a variable its place.
func (c *cutter) declare(name string) int {
	c.scope = append(c.scope, name)
	c.most = max(c.most, len(c.scope))
	return len(c.scope) - 1
}

// find returns the place of the innermost variable with a name.
func (c *cutter) find(name string) int {
	for i, n := range slices.Backward(c.scope) {
		if n == name {
			return i
		}
	}
	panic(refuse("variable", name))
}

// list cuts the nodes of a list; nil stands for one that is not there.
func (c *cutter) list(l *parse.ListNode) step {
	if l == nil {
		return func(*run, reflect.Value) after { return goOn }
	}
	var steps []step
	for _, n := range l.Nodes {
		steps = append(steps, c.node(n))
	}
	if len(steps) == 1 {
		return steps[0]
	}
	return func(r *run, dot reflect.Value) after {
		for _, s := range steps {
			if then := s(r, dot); then != goOn {
				return then
			}
		}
		return goOn
	}
}

func (c *cutter) node(n parse.Node) step {
	switch n := n.(type) {
	case *parse.TextNode:
		return func(r *run, _ reflect.Value) after { r.out.Write(n.Text); return goOn }
	case *parse.CommentNode:
		return func(*run, reflect.Value) after { return goOn }
	case *parse.ActionNode:
		return c.action(n)
	case *parse.IfNode:
		return c.branch(n.BranchNode, false)
	case *parse.WithNode:
		return c.branch(n.BranchNode, true)
	case *parse.RangeNode:
		return c.loop(n)
	case *parse.TemplateNode:
		called := c.sheet(n.Name)
		if n.Pipe == nil {
			return func(r *run, _ reflect.Value) after { called.run(r, reflect.Value{}); return goOn }
		}
		data := c.pipe(n.Pipe)
		return func(r *run, dot reflect.Value) after { called.run(r, data.value(r, dot)); return goOn }
	case *parse.BreakNode:
		return func(*run, reflect.Value) after { return leaveLoop }
	case *parse.ContinueNode:
		return func(*run, reflect.Value) after { return nextInLoop }
	}
	panic(refuse("node", n.String()))
}

// action cuts one that sets a variable, or one that prints: its last commands
// are then html/template's escapers.
func (c *cutter) action(n *parse.ActionNode) step {
	if len(n.Pipe.Decl) > 0 {
		set := c.pipe(n.Pipe)
		return func(r *run, dot reflect.Value) after { set.value(r, dot); return goOn }
	}
	cmds, escape := cutEscapers(n.Pipe.Cmds)
	what := c.commands(cmds)
	if known, ok := what.(*constant); ok {
		var text bytes.Buffer
		escape.value(&text, known.plain)
		return func(r *run, _ reflect.Value) after { r.out.Write(text.Bytes()); return goOn }
	}
	if says, ok := what.(texter); ok {
		return func(r *run, dot reflect.Value) after {
			escape.text(r.out, says.text(r, dot))
			return goOn
		}
	}
	return func(r *run, dot reflect.Value) after {
		escape.value(r.out, what.value(r, dot))
		return goOn
	}
}

// inside cuts a list whose own variables nothing after it sees.
func (c *cutter) inside(l *parse.ListNode) step {
	defer func(outer int) { c.scope = c.scope[:outer] }(len(c.scope))
	return c.list(l)
}

func (c *cutter) branch(n parse.BranchNode, with bool) step {
	outer := len(c.scope)
	when := c.pipe(n.Pipe)
	then, otherwise := c.inside(n.List), c.inside(n.ElseList)
	c.scope = c.scope[:outer]
	return func(r *run, dot reflect.Value) after {
		v := when.value(r, dot)
		switch {
		case !truth(v):
			return otherwise(r, dot)
		case with:
			return then(r, v)
		}
		return then(r, dot)
	}
}

// loop cuts a range over a list, a number or a map with texts as keys.
func (c *cutter) loop(n *parse.RangeNode) step {
	if n.Pipe.IsAssign {
		panic(refuse("assigning range", n.Pipe.String()))
	}
	outer := len(c.scope)
	over := c.commands(n.Pipe.Cmds)
	index, element := -1, -1
	switch decl := n.Pipe.Decl; len(decl) {
	case 1:
		element = c.declare(decl[0].Ident[0])
	case 2:
		index, element = c.declare(decl[0].Ident[0]), c.declare(decl[1].Ident[0])
	}
	body, otherwise := c.inside(n.List), c.inside(n.ElseList)
	c.scope = c.scope[:outer]
	return func(r *run, dot reflect.Value) after {
		all := over.value(r, dot)
		set := func(i, v reflect.Value) {
			if element >= 0 {
				r.vars[r.base+element] = v
			}
			if index >= 0 {
				r.vars[r.base+index] = i
			}
		}
		set(all, all) // which they are where there is nothing to range over
		none := eachOf(all, index >= 0, func(i, v reflect.Value) bool {
			set(i, v)
			return body(r, v) != leaveLoop
		})
		if none && otherwise(r, dot) == nextInLoop {
			return nextInLoop
		}
		return goOn // a break in the else, too, ends this range alone
	}
}

// eachOf hands over what a range takes one by one, as long as more is wanted,
// with its index where that is counted; none says that there was nothing.
func eachOf(all reflect.Value, counted bool, more func(i, v reflect.Value) bool) (none bool) {
	none = true
	switch v, _ := indirect(all); v.Kind() {
	case reflect.Invalid:
	case reflect.Slice, reflect.Array:
		for i := 0; i < v.Len(); i++ { // the length is looked at each time, as text/template does
			none = false
			var at reflect.Value
			if counted {
				at = reflect.ValueOf(i)
			}
			if !more(at, v.Index(i)) {
				break
			}
		}
	case reflect.Int:
		if counted || v.Type() != intType {
			panic(refuse("range over", v.String()))
		}
		for i := range int(v.Int()) {
			none = false
			if !more(reflect.Value{}, reflect.ValueOf(i)) {
				break
			}
		}
	case reflect.Map:
		for _, key := range sortedKeys(v) {
			none = false
			if !more(key, v.MapIndex(key)) {
				break
			}
		}
	default:
		panic(refuse("range over", v.String()))
	}
	return none
}

// sortedKeys returns the keys of a map in the order in which a range takes them.
func sortedKeys(m reflect.Value) []reflect.Value {
	if m.Type().Key().Kind() != reflect.String {
		panic(refuse("range over", m.String()))
	}
	keys := m.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	return keys
}

package stencil

import (
	"reflect"
	"strings"
	"text/template/parse"
)

// expr is something with a value. An invalid reflect.Value is an untyped nil, as
// in text/template.
type expr interface {
	value(r *run, dot reflect.Value) reflect.Value
}

// texter is an expr whose value is known to be a string.
type texter interface {
	text(r *run, dot reflect.Value) string
}

type exprFunc func(r *run, dot reflect.Value) reflect.Value

func (f exprFunc) value(r *run, dot reflect.Value) reflect.Value { return f(r, dot) }

var dotItself = exprFunc(func(_ *run, dot reflect.Value) reflect.Value { return dot })

// pipe cuts a pipeline with what it sets.
func (c *cutter) pipe(p *parse.PipeNode) expr {
	what := c.commands(p.Cmds)
	for _, v := range p.Decl {
		at := 0
		if p.IsAssign {
			at = c.find(v.Ident[0])
		} else {
			at = c.declare(v.Ident[0])
		}
		set := what
		what = exprFunc(func(r *run, dot reflect.Value) reflect.Value {
			v := set.value(r, dot)
			r.vars[r.base+at] = v
			return v
		})
	}
	return what
}

// commands cuts those of a pipeline: each gets the value of the one before as
// its last argument.
func (c *cutter) commands(cmds []*parse.CommandNode) expr {
	if len(cmds) == 0 {
		panic(refuse("empty pipeline", ""))
	}
	what := c.command(cmds[0], nil)
	for _, cmd := range cmds[1:] {
		what = c.after(what, cmd)
	}
	return what
}

// after cuts a command that gets the value of another as its last argument. That
// value is there, and of the type it has, before the other arguments are looked at.
func (c *cutter) after(first expr, cmd *parse.CommandNode) expr {
	at := c.declare("") // a place that no name finds
	given := exprFunc(func(r *run, _ reflect.Value) reflect.Value { return r.vars[r.base+at] })
	what := c.command(cmd, given)
	keep := func(r *run, dot reflect.Value) {
		v := first.value(r, dot)
		r.vars[r.base+at] = v
	}
	if says, ok := what.(texter); ok {
		return textFunc(func(r *run, dot reflect.Value) string { keep(r, dot); return says.text(r, dot) })
	}
	return exprFunc(func(r *run, dot reflect.Value) reflect.Value { keep(r, dot); return what.value(r, dot) })
}

// command cuts one. What it gives is taken out of an interface{} that holds it.
func (c *cutter) command(cmd *parse.CommandNode, final expr) expr {
	var args []expr
	for _, a := range cmd.Args[1:] {
		args = append(args, c.argument(a))
	}
	if final != nil {
		args = append(args, final)
	}
	what := c.operand(cmd.Args[0], args)
	switch what.(type) {
	case texter, *constant:
		return what
	}
	return exprFunc(func(r *run, dot reflect.Value) reflect.Value {
		v := what.value(r, dot)
		if v.Kind() == reflect.Interface && v.Type().NumMethod() == 0 {
			v = v.Elem()
		}
		return v
	})
}

// argument cuts an argument of a command.
func (c *cutter) argument(n parse.Node) expr { return c.operand(n, nil) }

// operand cuts a node with the arguments that it is called with.
func (c *cutter) operand(n parse.Node, args []expr) expr {
	switch n := n.(type) {
	case *parse.FieldNode:
		return c.chain(dotItself, n.Ident, args)
	case *parse.VariableNode:
		at := c.find(n.Ident[0])
		return c.chain(exprFunc(func(r *run, _ reflect.Value) reflect.Value { return r.vars[r.base+at] }), n.Ident[1:], args)
	case *parse.ChainNode:
		return c.chain(c.argument(n.Node), n.Field, args)
	case *parse.IdentifierNode:
		return c.call(n.Ident, args)
	}
	if len(args) > 0 { // not a function
		panic(refuse("not a function", n.String()))
	}
	switch n := n.(type) {
	case *parse.DotNode:
		return dotItself
	case *parse.PipeNode:
		return c.pipeInside(n)
	case *parse.BoolNode:
		return &constant{plain: reflect.ValueOf(n.True)}
	case *parse.StringNode:
		return &constant{plain: reflect.ValueOf(n.Text)}
	case *parse.NumberNode:
		if !n.IsInt || n.IsComplex || strings.ContainsAny(n.Text, ".eEpP") { // 1.5, 1e3, 1i: too rare
			panic(refuse("number", n.Text))
		}
		return &constant{plain: reflect.ValueOf(int(n.Int64)), written: n}
	}
	panic(refuse("operand", n.String()))
}

// pipeInside cuts a pipeline in brackets; one that sets variables is too rare.
func (c *cutter) pipeInside(p *parse.PipeNode) expr {
	if len(p.Decl) > 0 {
		panic(refuse("pipeline that sets a variable", p.String()))
	}
	what := c.commands(p.Cmds)
	if known, ok := what.(*constant); ok { // in brackets it has a type
		return &constant{plain: known.plain, typed: true}
	}
	return what
}

// chain cuts .A.B.C of a value: the last one gets the arguments.
func (c *cutter) chain(of expr, names []string, args []expr) expr {
	for i, name := range names {
		m := &member{of: of, name: name}
		if i == len(names)-1 {
			m.args, args = args, nil
		}
		of = m
	}
	if len(args) > 0 { // a variable is not a function
		panic(refuse("not a function", strings.Join(names, ".")))
	}
	return of
}

// constant is a value written in the template, or known from such ones.
type constant struct {
	plain   reflect.Value // in the type it has where any will do
	written *parse.NumberNode
	typed   bool // it has that type and no other
}

func (c *constant) value(*run, reflect.Value) reflect.Value { return c.plain }

// as returns the constant in a type.
func (c *constant) as(typ reflect.Type) reflect.Value {
	if c.plain.Type().AssignableTo(typ) {
		return c.plain
	}
	out := reflect.New(typ).Elem()
	switch from, to := c.plain.Kind(), typ.Kind(); {
	case c.typed:
		panic(refuse("argument", c.plain.String()+" as "+typ.String()))
	case from == reflect.String && to == reflect.String, from == reflect.Bool && to == reflect.Bool:
		return c.plain.Convert(typ)
	case from == reflect.Int && out.CanInt() && !out.OverflowInt(c.written.Int64):
		out.SetInt(c.written.Int64)
	case from == reflect.Int && out.CanFloat() && c.written.IsFloat:
		out.SetFloat(c.written.Float64)
	default:
		panic(refuse("number as", typ.String()))
	}
	return out
}

package stencil

import (
	"fmt"
	"reflect"
	"slices"
)

// function is one that templates call, with the types it wants.
type function struct {
	fn       reflect.Value
	in       []reflect.Type // of the parameters, the variadic one left out
	rest     reflect.Type   // of the elements of the variadic one, or nil
	fallible bool           // gives an error too
}

func newFunction(fn reflect.Value) *function {
	typ := fn.Type()
	f := &function{fn: fn, fallible: typ.NumOut() == 2}
	if typ.NumOut() != 1 && !(f.fallible && typ.Out(1) == errorType) || typ.Out(0) == valueType {
		panic(refuse("function", typ.String()))
	}
	for i := range typ.NumIn() {
		f.in = append(f.in, typ.In(i))
	}
	if last := len(f.in) - 1; typ.IsVariadic() {
		f.rest, f.in = f.in[last].Elem(), f.in[:last]
	}
	return f
}

// mostArguments are held in one piece.
const mostArguments = 6

// call calls it with what the expressions give; receiver comes before them, where
// it is valid.
func (f *function) call(r *run, dot, receiver reflect.Value, args []expr) reflect.Value {
	var room [mostArguments]reflect.Value
	values := room[:0]
	if receiver.IsValid() {
		values = append(values, receiver)
	}
	if n := len(values) + len(args); n < len(f.in) || n > len(f.in) && f.rest == nil {
		panic(refuse("number of arguments of", f.fn.String()))
	}
	for _, a := range args {
		want := f.rest
		if i := len(values); i < len(f.in) {
			want = f.in[i]
		}
		values = append(values, fit(r, dot, a, want))
	}
	out := f.fn.Call(values)
	if f.fallible && !out[1].IsNil() {
		panic(refuse("error", fmt.Sprint(out[1])))
	}
	return out[0]
}

// fit evaluates an argument for a parameter, as text/template fits values to types.
func fit(r *run, dot reflect.Value, a expr, want reflect.Type) reflect.Value {
	if c, ok := a.(*constant); ok {
		return c.as(want)
	}
	v := a.value(r, dot)
	if !v.IsValid() {
		if want.Kind() != reflect.Interface {
			panic(refuse("nil as", want.String()))
		}
		return reflect.Zero(want)
	}
	if v.Type() == want || v.Type().AssignableTo(want) {
		return v
	}
	if v.Kind() == reflect.Interface && !v.IsNil() {
		if v = v.Elem(); v.Type().AssignableTo(want) {
			return v
		}
	}
	switch {
	case v.Kind() == reflect.Pointer && v.Type().Elem().AssignableTo(want) && !v.IsNil():
		return v.Elem()
	case v.CanAddr() && reflect.PointerTo(v.Type()).AssignableTo(want):
		return v.Addr()
	}
	panic(refuse("argument", v.String()+" as "+want.String()))
}

// call cuts the call of a function by its name.
func (c *cutter) call(name string, args []expr) expr {
	own, ok := c.funcs[name]
	if !ok {
		return builtin(name, args)
	}
	what := c.ownCall(own, args)
	isConstant := func(a expr) bool { _, is := a.(*constant); return is }
	if slices.Contains(c.pure, name) && !slices.ContainsFunc(args, func(a expr) bool { return !isConstant(a) }) {
		return &constant{plain: what.value(nil, reflect.Value{}), typed: true}
	}
	return what
}

func (c *cutter) ownCall(own any, args []expr) expr {
	switch fn := own.(type) { // those that pages call most go without reflection
	case func(string) string:
		if len(args) == 1 {
			return textFunc(func(r *run, dot reflect.Value) string { return fn(fit(r, dot, args[0], stringType).String()) })
		}
	case func(any) string:
		if len(args) == 1 {
			return textFunc(func(r *run, dot reflect.Value) string { return fn(anyOf(fit(r, dot, args[0], anyType))) })
		}
	case func(any, ...any) string:
		if len(args) > 0 {
			return textFunc(func(r *run, dot reflect.Value) string {
				return fn(anyOf(fit(r, dot, args[0], anyType)), anys(r, dot, args[1:])...)
			})
		}
	case func(string, ...any) string:
		if len(args) > 0 {
			return textFunc(func(r *run, dot reflect.Value) string {
				var rest []any
				if len(args) > 1 {
					rest = anys(r, dot, args[1:])
				}
				return fn(fit(r, dot, args[0], stringType).String(), rest...)
			})
		}
	}
	f := newFunction(reflect.ValueOf(own))
	return exprFunc(func(r *run, dot reflect.Value) reflect.Value { return f.call(r, dot, reflect.Value{}, args) })
}

// textFunc is an expr that gives a string.
type textFunc func(r *run, dot reflect.Value) string

func (f textFunc) text(r *run, dot reflect.Value) string { return f(r, dot) }

func (f textFunc) value(r *run, dot reflect.Value) reflect.Value { return reflect.ValueOf(f(r, dot)) }

// anyOf returns what an interface{} is to hold; nil where it is to hold nothing.
func anyOf(v reflect.Value) any {
	if !v.IsValid() || v.Kind() == reflect.Interface && v.IsNil() {
		return nil
	}
	return v.Interface()
}

func anys(r *run, dot reflect.Value, args []expr) []any {
	out := make([]any, 0, len(args))
	for _, a := range args {
		out = append(out, anyOf(fit(r, dot, a, anyType)))
	}
	return out
}

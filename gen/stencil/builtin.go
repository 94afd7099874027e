package stencil

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
)

// leastArguments are those of text/template's own functions that themes use.
var leastArguments = map[string]int{"and": 1, "or": 1, "not": 1, "len": 1, "index": 2, "print": 0, "printf": 1, "eq": 2, "ne": 2, "lt": 2,
	"le": 2, "gt": 2, "ge": 2}

// builtin cuts the call of one of text/template's own functions.
func builtin(name string, args []expr) expr {
	least, known := leastArguments[name]
	if !known {
		panic(refuse("function", name))
	}
	openEnded := slices.Contains([]string{"and", "or", "index", "print", "printf", "eq"}, name)
	if len(args) < least || len(args) > least && !openEnded {
		panic(refuse("arguments of", name))
	}
	switch name {
	case "and", "or":
		return exprFunc(func(r *run, dot reflect.Value) (v reflect.Value) {
			for _, a := range args {
				if v = a.value(r, dot); truth(v) == (name == "or") {
					break
				}
			}
			return v
		})
	case "not":
		return exprFunc(func(r *run, dot reflect.Value) reflect.Value { return reflect.ValueOf(!truth(args[0].value(r, dot))) })
	case "len":
		return exprFunc(func(r *run, dot reflect.Value) reflect.Value { return reflect.ValueOf(length(args[0].value(r, dot))) })
	case "index":
		return exprFunc(func(r *run, dot reflect.Value) reflect.Value {
			of := unwrapped(args[0].value(r, dot))
			for _, a := range args[1:] {
				of = index(of, unwrapped(a.value(r, dot)))
			}
			return of
		})
	case "print":
		return textFunc(func(r *run, dot reflect.Value) string { return fmt.Sprint(anys(r, dot, args)...) })
	case "printf":
		return textFunc(func(r *run, dot reflect.Value) string {
			all := anys(r, dot, args)
			format, ok := all[0].(string)
			if !ok {
				panic(refuse("format", fmt.Sprint(all[0])))
			}
			return fmt.Sprintf(format, all[1:]...)
		})
	case "eq", "ne":
		return exprFunc(func(r *run, dot reflect.Value) reflect.Value {
			first, found := unwrapped(args[0].value(r, dot)), false
			for _, a := range args[1:] {
				found = equal(first, unwrapped(a.value(r, dot))) || found
			}
			return reflect.ValueOf(found == (name == "eq"))
		})
	}
	holds := map[string]func(order int) bool{
		"lt": func(o int) bool { return o < 0 }, "le": func(o int) bool { return o <= 0 },
		"gt": func(o int) bool { return o > 0 }, "ge": func(o int) bool { return o >= 0 },
	}[name]
	return exprFunc(func(r *run, dot reflect.Value) reflect.Value {
		a := unwrapped(args[0].value(r, dot))
		return reflect.ValueOf(holds(order(a, unwrapped(args[1].value(r, dot)))))
	})
}

// unwrapped returns what an interface holds.
func unwrapped(v reflect.Value) reflect.Value {
	if v.Kind() == reflect.Interface {
		return v.Elem()
	}
	return v
}

// truth is template.IsTrue of a value.
func truth(v reflect.Value) bool {
	switch v = unwrapped(v); v.Kind() {
	case reflect.Invalid:
		return false
	case reflect.Struct:
		return true
	case reflect.Array, reflect.Map, reflect.Slice, reflect.String:
		return v.Len() > 0
	case reflect.Float32, reflect.Float64: // -0 is not true, but not the zero value either
		return v.Float() != 0
	case reflect.Complex64, reflect.Complex128:
		return v.Complex() != 0
	}
	return !v.IsZero()
}

func length(v reflect.Value) int {
	of, isNil := indirect(unwrapped(v))
	switch of.Kind() {
	case reflect.Array, reflect.Map, reflect.Slice, reflect.String:
		if !isNil {
			return of.Len()
		}
	}
	panic(refuse("length of", v.String()))
}

func index(of, at reflect.Value) reflect.Value {
	of, _ = indirect(of)
	switch {
	case (of.Kind() == reflect.Slice || of.Kind() == reflect.Array) && at.CanInt() && at.Int() >= 0 && at.Int() < int64(of.Len()):
		return of.Index(int(at.Int()))
	case of.Kind() == reflect.Map && at.IsValid() && at.Type() == of.Type().Key():
		if entry := of.MapIndex(at); entry.IsValid() {
			return entry
		}
		return reflect.Zero(of.Type().Elem())
	}
	panic(refuse("index of", of.String()))
}

// equal compares two texts, two whole numbers or two truths.
func equal(a, b reflect.Value) bool {
	if a.Kind() == reflect.Bool && b.Kind() == reflect.Bool {
		return a.Bool() == b.Bool()
	}
	return order(a, b) == 0
}

// order compares two texts or two whole numbers.
func order(a, b reflect.Value) int {
	switch {
	case a.Kind() == reflect.String && b.Kind() == reflect.String:
		return cmp.Compare(a.String(), b.String())
	case a.CanInt() && b.CanInt():
		return cmp.Compare(a.Int(), b.Int())
	}
	panic(refuse("comparing", a.String()+" and "+b.String()))
}

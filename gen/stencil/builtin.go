package stencil

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
)

// builtin cuts the call of one of text/template's own functions, of those that
// themes use: and, or, not, len, index, print, printf, eq, ne, lt, le, gt, ge.
func builtin(name string, args []expr) expr {
	if least, ok := leastArguments[name]; !ok || len(args) < least {
		panic(refuse("function", name))
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
	}
	do := map[string]func([]reflect.Value) reflect.Value{
		"not": func(v []reflect.Value) reflect.Value { return truths[!truth(v[0])] }, "len": length, "index": index,
		"eq": func(v []reflect.Value) reflect.Value {
			return truths[slices.ContainsFunc(v[1:], func(w reflect.Value) bool { return compare(v[0], w) == 0 })]
		},
		"ne": comparing(func(c int) bool { return c != 0 }), "lt": comparing(func(c int) bool { return c < 0 }), "le": comparing(func(c int) bool { return c <= 0 }),
		"gt": comparing(func(c int) bool { return c > 0 }), "ge": comparing(func(c int) bool { return c >= 0 }),
	}[name]
	if name != "eq" && name != "index" && len(args) > leastArguments[name] {
		panic(refuse("arguments of", name))
	}
	return exprFunc(func(r *run, dot reflect.Value) reflect.Value {
		var room [mostArguments]reflect.Value
		values := room[:0]
		for _, a := range args {
			values = append(values, unwrapped(a.value(r, dot)))
		}
		return do(values)
	})
}

var leastArguments = map[string]int{"and": 1, "or": 1, "not": 1, "len": 1, "index": 1, "print": 0, "printf": 1, "eq": 2, "ne": 2, "lt": 2, "le": 2, "gt": 2, "ge": 2}

var truths = map[bool]reflect.Value{true: reflect.ValueOf(true), false: reflect.ValueOf(false)}

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
	}
	return !v.IsZero()
}

func length(v []reflect.Value) reflect.Value {
	of, isNil := indirect(v[0])
	switch of.Kind() {
	case reflect.Array, reflect.Map, reflect.Slice, reflect.String:
		if !isNil {
			return reflect.ValueOf(of.Len())
		}
	}
	panic(refuse("length of", v[0].String()))
}

func index(v []reflect.Value) reflect.Value {
	of := v[0]
	for _, at := range v[1:] {
		of, _ = indirect(of)
		switch {
		case (of.Kind() == reflect.Slice || of.Kind() == reflect.Array) && at.CanInt() && at.Int() >= 0 && at.Int() < int64(of.Len()):
			of = of.Index(int(at.Int()))
		case of.Kind() == reflect.Map && at.IsValid() && at.Type() == of.Type().Key():
			entry := of.MapIndex(at)
			if !entry.IsValid() {
				entry = reflect.Zero(of.Type().Elem())
			}
			of = entry
		default:
			panic(refuse("index of", of.String()))
		}
	}
	return of
}

func comparing(is func(int) bool) func([]reflect.Value) reflect.Value {
	return func(v []reflect.Value) reflect.Value { return truths[is(compare(v[0], v[1]))] }
}

// compare orders two texts or two whole numbers; truths are the same or not.
func compare(a, b reflect.Value) int {
	switch {
	case a.Kind() == reflect.String && b.Kind() == reflect.String:
		return cmp.Compare(a.String(), b.String())
	case a.CanInt() && b.CanInt():
		return cmp.Compare(a.Int(), b.Int())
	}
	panic(refuse("comparing", a.String()+" and "+b.String()))
}

// sortedKeys returns the keys of a map in the order in which a range takes them.
func sortedKeys(m reflect.Value) []reflect.Value {
	if m.Type().Key().Kind() != reflect.String {
		panic(refuse("range over", m.String()))
	}
	keys := m.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return cmp.Compare(a.String(), b.String()) })
	return keys
}

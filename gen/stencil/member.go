package stencil

import (
	"reflect"
	"sync/atomic"
)

// member is a field of a value, an entry of a map, or a method with arguments.
type member struct {
	of    expr
	name  string
	args  []expr
	known atomic.Pointer[[]access] // by the types seen so far
}

// access is how the values of one type are asked for a member.
type access struct {
	typ         reflect.Type
	addressable bool // and so has the methods of a pointer to it

	field     []int
	method    *function // gets the value, or its address, as first argument
	byAddress bool
	entry     bool // of a map
}

func (m *member) value(r *run, dot reflect.Value) reflect.Value {
	of, isNil := indirect(m.of.value(r, dot))
	if !of.IsValid() || isNil && of.Kind() == reflect.Interface {
		panic(refuse("nothing has", m.name))
	}
	a := m.access(of)
	switch {
	case a.method != nil:
		if a.byAddress {
			of = of.Addr()
		}
		return a.method.call(r, dot, of, m.args)
	case len(m.args) > 0:
		panic(refuse("arguments of", m.name))
	case a.entry:
		v := of.MapIndex(reflect.ValueOf(m.name))
		if !v.IsValid() {
			panic(refuse("no entry", m.name))
		}
		return v
	case len(a.field) == 1:
		return of.Field(a.field[0])
	}
	v, err := of.FieldByIndexErr(a.field)
	if err != nil {
		panic(refuse("nothing has", m.name))
	}
	return v
}

// access returns how a value is asked, working it out where its type is new here.
func (m *member) access(of reflect.Value) *access {
	typ, addressable := of.Type(), of.CanAddr()
	known := m.known.Load()
	if known != nil {
		for i := range *known {
			if a := &(*known)[i]; a.typ == typ && a.addressable == addressable {
				return a
			}
		}
	}
	a := newAccess(typ, addressable, m.name)
	list := []access{a}
	if known != nil {
		list = append(list, *known...)
	}
	m.known.Store(&list) // of two at once one is worked out again
	return &list[0]
}

func newAccess(typ reflect.Type, addressable bool, name string) access {
	a := access{typ: typ, addressable: addressable}
	has := typ
	if addressable && typ.Kind() != reflect.Pointer {
		has, a.byAddress = reflect.PointerTo(typ), true
	}
	if method, ok := has.MethodByName(name); ok {
		a.method = newFunction(method.Func)
		return a
	}
	switch typ.Kind() {
	case reflect.Struct:
		if f, ok := typ.FieldByName(name); ok && f.IsExported() {
			a.field = f.Index
			return a
		}
	case reflect.Map:
		if typ.Key() == stringType {
			a.entry = true
			return a
		}
	}
	panic(refuse(typ.String()+" has no", name))
}

// indirect follows pointers and interfaces to what they hold; isNil says that one
// of them holds nothing, and is returned itself.
func indirect(v reflect.Value) (held reflect.Value, isNil bool) {
	for ; v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface; v = v.Elem() {
		if v.IsNil() {
			return v, true
		}
	}
	return v, false
}

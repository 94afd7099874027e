package journal

import (
	"encoding"
	"reflect"
	"slices"
	"strings"
	"sync"
)

// field is one key of a mapping, read from a struct field's tags:
//
//	key:"lamp,required,short"  the key; required; a lone scalar stands for it
//	doc:"what it means"        shown in the reference and the schema
//	eg:"12 mA"                 an example
//	one:"sealed|accepted"      the only words allowed
//
// A type that knows its words needs no one tag.
type field struct {
	key      string
	index    []int
	required bool
	isShort  bool
	one      []string
	doc      string
	example  string
	typ      reflect.Type
}

type fields []field

// vocabulary is a type of another room that stands for one of a few words.
type vocabulary interface {
	encoding.TextUnmarshaler
	Words() []string
}

var vocabularyType = reflect.TypeFor[vocabulary]()

var fieldCache sync.Map // reflect.Type → fields; immutable once stored

// fieldsOf returns the keys of a struct type in the order of its fields.
func fieldsOf(t reflect.Type) fields {
	if known, ok := fieldCache.Load(t); ok {
		return known.(fields)
	}
	var list fields
	for _, f := range reflect.VisibleFields(t) {
		tag, ok := f.Tag.Lookup("key")
		if !ok || f.Anonymous {
			continue
		}
		key, options, _ := strings.Cut(tag, ",")
		entry := field{key: key, index: f.Index, doc: f.Tag.Get("doc"), example: f.Tag.Get("eg"), typ: f.Type,
			required: strings.Contains(options, "required"), isShort: strings.Contains(options, "short")}
		if one := f.Tag.Get("one"); one != "" {
			entry.one = strings.Split(one, "|")
		} else if inner, _ := unwrap(f.Type); reflect.PointerTo(inner).Implements(vocabularyType) {
			entry.one = reflect.New(inner).Interface().(vocabulary).Words()
		}
		list = append(list, entry)
	}
	fieldCache.Store(t, list)
	return list
}

func (f fields) named(key string) (field, bool) {
	i := slices.IndexFunc(f, func(x field) bool { return x.key == key })
	if i < 0 {
		return field{}, false
	}
	return f[i], true
}

func (f fields) short() (field, bool) {
	i := slices.IndexFunc(f, func(x field) bool { return x.isShort })
	if i < 0 {
		return field{}, false
	}
	return f[i], true
}

func (f fields) keys() []string {
	keys := make([]string, len(f))
	for i := range f {
		keys[i] = f[i].key
	}
	return keys
}

func (f field) allows(word string) bool { return slices.Contains(f.one, word) }

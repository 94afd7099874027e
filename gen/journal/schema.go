package journal

import (
	"encoding"
	"encoding/json"
	"reflect"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// FileKind is one kind of file that a workshop holds.
type FileKind struct {
	Name   string // "build": the schema is build.schema.json
	Where  string // "builds/<slug>/build.md, between the --- lines"
	Title  string
	Type   reflect.Type
	IsText bool // front matter of a Markdown file
}

// FileKinds lists the kinds of file, in the order of the reference.
func FileKinds() []FileKind {
	return []FileKind{
		{"workshop", "workshop.yaml", "The workshop", reflect.TypeFor[Settings](), false},
		{"build", "builds/<slug>/build.md", "A build", reflect.TypeFor[BuildFront](), true},
		{"sitting", "builds/<slug>/<date>.md", "A sitting", reflect.TypeFor[SittingFront](), true},
		{"review", "builds/<slug>/review.md", "A review", reflect.TypeFor[ReviewFront](), true},
		{"wall", "wall/<name>.md", "A free page", reflect.TypeFor[LeafFront](), true},
		{"lamps", "rack/lamps.yaml", "Lamps on the rack", reflect.TypeFor[source.Entries[circuit.Lamp]](), false},
		{"supplies", "rack/supplies.yaml", "Supplies on the rack", reflect.TypeFor[source.Entries[circuit.Supply]](), false},
		{"paints", "rack/paints.yaml", "Paints on the rack", reflect.TypeFor[source.Entries[paint.Paint]](), false},
		{"wire", "rack/wire.yaml", "Wire on the rack", reflect.TypeFor[source.Entries[circuit.Wire]](), false},
		{"shelf", "shelf.yaml", "Models on the shelf that are not builds", reflect.TypeFor[source.Entries[ShelfPiece]](), false},
	}
}

// Read reads a text of the kind, front matter alone, and returns what is wrong
// with it by itself, without the rest of a workshop.
func (k FileKind) Read(text string) source.Findings {
	return decode(source.NewFile(k.Where, text), 0, len(text), reflect.New(k.Type).Interface())
}

// Schema returns the JSON Schema (draft 2020-12) of a kind of file, made from
// the Go types that read it. A schema admits everything that is read; it
// cannot know the names on the rack, so dryfit says more.
func (k FileKind) Schema() []byte {
	s := schemas{defs: map[string]any{}}
	root := s.of(k.Type, field{})
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = k.Title
	root["description"] = k.Where
	if len(s.defs) > 0 {
		root["$defs"] = s.defs
	}
	text, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic(err) // maps and strings always marshal
	}
	return append(text, '\n')
}

type object = map[string]any

// schemas builds the schema of one file and collects the mappings it uses.
type schemas struct{ defs map[string]any }

var (
	textType = reflect.TypeFor[encoding.TextUnmarshaler]()
	spanType = reflect.TypeFor[source.Span]()
)

// of returns the schema of a Go type; f carries the tags of the field it is for.
func (s *schemas) of(t reflect.Type, f field) object {
	if inner, ok := slotType(t); ok {
		return s.of(inner, f)
	}
	if inner, ok := entryType(t); ok {
		return object{"type": "object", "additionalProperties": orNull(s.of(inner, field{one: f.one}))}
	}
	if reflect.PointerTo(t).Implements(textType) {
		if f.one != nil { // a vocabulary
			return object{"enum": f.one}
		}
		return scalar(t)
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.of(t.Elem(), f)
	case reflect.Struct:
		return s.structure(t)
	case reflect.Slice:
		item := s.of(t.Elem(), f)
		return object{"anyOf": []any{object{"type": "array", "items": item}, item}}
	case reflect.Bool:
		return object{"enum": []any{true, false, "yes", "no"}}
	case reflect.Int:
		return object{"type": "integer"}
	case reflect.Float64:
		return object{"type": "number"}
	}
	if f.one != nil {
		return object{"enum": f.one}
	}
	// Plain words that look like numbers or truth values are read as written.
	return object{"type": []string{"string", "number", "boolean"}}
}

// structure returns a reference to a mapping's schema, made once.
func (s *schemas) structure(t reflect.Type) object {
	if _, made := s.defs[t.Name()]; !made {
		s.defs[t.Name()] = nil // a type that holds itself finds its reference
		s.defs[t.Name()] = s.mapping(t)
	}
	return object{"$ref": "#/$defs/" + t.Name()}
}

func (s *schemas) mapping(t reflect.Type) object {
	properties, required := object{}, []string{}
	var short *field
	for _, f := range fieldsOf(t) {
		properties[f.key] = s.property(f)
		if f.required {
			required = append(required, f.key)
		}
		if f.isShort {
			short = &f
		}
	}
	mapping := object{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		mapping["required"] = required
	}
	if short == nil {
		return mapping
	}
	return object{"anyOf": []any{mapping, s.property(*short)}}
}

func (s *schemas) property(f field) object {
	p := orNull(s.of(f.typ, f))
	out := object{"description": f.doc}
	for k, v := range p {
		out[k] = v
	}
	if f.example != "" {
		out["examples"] = []string{f.example}
	}
	return out
}

// orNull admits a key with nothing after it, which reads as not written.
func orNull(p object) object { return object{"anyOf": []any{p, object{"type": "null"}}} }

// scalar returns the schema of a value that has a parser of its own.
func scalar(t reflect.Type) object {
	if kind, ok := quantity.KindOf(t); ok {
		return object{"type": "string", "pattern": kind.Pattern}
	}
	if t == reflect.TypeFor[quantity.Day]() {
		return object{"type": "string", "pattern": `^\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*$`}
	}
	return object{"type": []string{"string", "number"}}
}

// slotType returns T of a source.Value[T].
func slotType(t reflect.Type) (reflect.Type, bool) {
	if t.Kind() != reflect.Struct || !strings.HasPrefix(t.Name(), "Value[") || t.PkgPath() != spanType.PkgPath() {
		return nil, false
	}
	f, _ := t.FieldByName("V")
	return f.Type, true
}

// entryType returns T of a source.Entries[T].
func entryType(t reflect.Type) (reflect.Type, bool) {
	if t.Kind() != reflect.Slice || !strings.HasPrefix(t.Name(), "Entries[") {
		return nil, false
	}
	f, _ := t.Elem().FieldByName("Value")
	return f.Type, true
}

// Key is one key of the reference.
type Key struct {
	Path     string // "kit.maker", "circuits[].branches[].lamps[].at"
	Doc      string
	Value    string // what kind of value: "duration", "one of …", "list of texts"
	Units    string
	Example  string
	Required bool
	Short    bool
}

// Keys lists every key of a kind of file with its meaning, in order.
func (k FileKind) Keys() []Key {
	var keys []Key
	collectKeys(k.Type, "", &keys, nil)
	return keys
}

func collectKeys(t reflect.Type, at string, keys *[]Key, above []reflect.Type) {
	if inner, ok := entryType(t); ok {
		collectKeys(inner, at+"<name>.", keys, above)
		return
	}
	if t.Kind() != reflect.Struct || slices.Contains(above, t) {
		return
	}
	above = append(slices.Clip(above), t)
	for _, f := range fieldsOf(t) {
		value, units := describe(f)
		*keys = append(*keys, Key{Path: at + f.key, Doc: f.doc, Value: value, Units: units, Example: f.example, Required: f.required,
			Short: f.isShort})
		inner, suffix := unwrap(f.typ)
		if inner.Kind() == reflect.Struct && !reflect.PointerTo(inner).Implements(textType) {
			collectKeys(inner, at+f.key+suffix+".", keys, above)
		}
	}
}

// unwrap takes lists, names and places off a type; suffix says in a key's path
// what was taken off.
func unwrap(t reflect.Type) (inner reflect.Type, suffix string) {
	for {
		if v, ok := slotType(t); ok {
			t = v
		} else if v, ok := entryType(t); ok {
			t, suffix = v, suffix+".<name>"
		} else if t.Kind() == reflect.Slice {
			t, suffix = t.Elem(), suffix+"[]"
		} else if t.Kind() == reflect.Pointer {
			t = t.Elem()
		} else {
			return t, suffix
		}
	}
}

// describe says what a key's value is, in words.
func describe(f field) (value, units string) {
	inner, suffix := unwrap(f.typ)
	switch kind, ok := quantity.KindOf(inner); {
	case ok:
		value, units = kind.Name, kind.Units
	case f.one != nil:
		value = "one of " + strings.Join(f.one, ", ")
	case inner == reflect.TypeFor[quantity.Day]():
		value = "day"
	case reflect.PointerTo(inner).Implements(textType):
		value = "own form, see the example"
	case inner.Kind() == reflect.Struct:
		value = "mapping"
	case inner.Kind() == reflect.Bool:
		value = "yes or no"
	case inner.Kind() == reflect.Int:
		value = "whole number"
	case inner.Kind() == reflect.Float64:
		value = "number"
	default:
		value = "text"
	}
	switch {
	case strings.HasSuffix(suffix, "[]"):
		value = "list: " + value
	case strings.Contains(suffix, "<name>"):
		value = "by name: " + value
	}
	return value, units
}

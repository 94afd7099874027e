package journal

import (
	"encoding"
	"errors"
	"fmt"
	"math"
	"path"
	"reflect"
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"

	"github.com/goccy/go-yaml/ast"
)

var (
	ruleKey = &source.Rule{Name: "unknown-key", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A misspelt key would silently lose what stands under it.",
		Keys:   source.EveryKey}
	ruleTwice = &source.Rule{Name: "key-twice", Severity: source.Stop, Source: "YAML 1.2, section 3.2.1.3",
		Reason: "Of two values under one key, only one can be meant.",
		Keys:   source.EveryKey}
	ruleShape = &source.Rule{Name: "wrong-shape", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A list, a mapping or a single value stands where another is wanted.",
		Keys:   source.EveryKey}
	ruleValue = &source.Rule{Name: "value", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A value without its unit, or in the wrong one, makes every sum after it wrong.",
		Keys:   source.EveryKey}
	ruleMissing = &source.Rule{Name: "missing-key", Severity: source.Stop, Source: "common practice, no source",
		Reason: "Without this value the page or the sum cannot be made.",
		Keys:   source.EveryKey}
)

// decoder fills Go values from the YAML of one file and collects findings.
//
// It reads goccy/go-yaml's syntax tree itself, since the library's own strict
// mode stops at the first mistake and forgets where values stood.
type decoder struct {
	file     *source.File
	text     *source.File // the YAML alone, for counting its lines and columns
	base     int          // byte offset of the YAML in file
	found    source.Findings
	nodes    int
	last     reached
	currency string       // the workshop's, "" where it names none
	known    bool         // the value being read is one of a few words
	root     reflect.Type // of the file's mapping, nil where that has no keys of its own
}

// reached is the last place whose offset was counted out: values follow one
// another, and a line of thousands of them is counted once.
type reached struct{ line, column, offset int }

// offset returns the byte offset in the YAML of a line and column.
func (d *decoder) offset(line, column int) int {
	from := reached{line, 1, 0}
	if d.last.line == line && d.last.column <= column {
		from = d.last
	} else {
		from.offset = d.text.Offset(line, 1)
	}
	rest := d.text.Text[from.offset:]
	for at := range rest {
		if from.column == column || rest[at] == '\n' {
			d.last = reached{line, from.column, from.offset + at}
			return d.last.offset
		}
		from.column++
	}
	return len(d.text.Text)
}

// decode reads the YAML between two byte offsets of a file into target, a
// pointer to a struct or to source.Entries, in no currency.
func decode(file *source.File, from, to int, target any) source.Findings {
	return decodeIn("", file, from, to, target)
}

// decodeIn is decode in a workshop's own currency, which signs like € may mean.
func decodeIn(currency string, file *source.File, from, to int, target any) source.Findings {
	yamlText := file.Text[from:to]
	d := &decoder{file: file, text: source.NewFile(file.Name, yamlText), base: from, currency: currency}
	doc, ok := d.parse(yamlText)
	if !ok {
		return d.found
	}
	if doc == nil {
		doc = &ast.MappingNode{}
	}
	if root := reflect.TypeOf(target).Elem(); root.Kind() == reflect.Struct {
		d.root = root
	}
	d.value(doc, reflect.ValueOf(target).Elem(), "", file.At(from, 0), 0)
	return d.found
}

func (d *decoder) add(f source.Finding) { d.found.Add(f) }

// at returns the span of a node.
func (d *decoder) at(node ast.Node) source.Span {
	if m, ok := node.(*ast.MappingNode); ok && !m.IsFlowStyle && len(m.Values) > 0 {
		node = m.Values[0].Key
	}
	t := node.GetToken()
	if t == nil || t.Position == nil {
		return d.file.At(d.base, 0)
	}
	start := d.offset(t.Position.Line, t.Position.Column)
	return d.file.At(d.base+start, d.length(start, t.Value))
}

// length returns how many bytes a scalar takes as written.
func (d *decoder) length(start int, value string) int {
	rest := d.text.Text[start:]
	if rest != "" && (rest[0] == '"' || rest[0] == '\'') {
		for i := 1; i < len(rest); i++ {
			if rest[i] == '\\' && rest[0] == '"' {
				i++
			} else if rest[i] == rest[0] {
				return i + 1
			}
		}
	}
	if strings.HasPrefix(rest, value) {
		return len(value)
	}
	line, _, _ := strings.Cut(rest, "\n")
	return len(strings.TrimRight(line, " \t\r"))
}

// value decodes a node into a settable Go value. key names what is being read,
// for messages; at is where it stands.
func (d *decoder) value(node ast.Node, into reflect.Value, key string, at source.Span, depth int) {
	if d.nodes++; d.nodes > maxKeys || depth > maxDepth {
		if d.nodes == maxKeys+1 || depth == maxDepth+1 {
			d.add(ruleLimit.At(at, "split the file", "more than %d entries, or more than %d levels", maxKeys, maxDepth))
		}
		return
	}
	switch node.(type) {
	case *ast.AnchorNode, *ast.AliasNode, *ast.TagNode, *ast.MergeKeyNode:
		d.add(ruleShape.At(at, "write the value out", "anchors, aliases and tags are not read"))
		return
	}
	pointer := into.Addr().Interface()
	switch target := pointer.(type) {
	case interface {
		Slot() (any, *source.Span, *bool)
	}:
		if _, null := node.(*ast.NullNode); null {
			return
		}
		value, where, set := target.Slot()
		before := len(d.found)
		*where = at
		d.nodes-- // the place and the value are one entry
		d.value(node, reflect.ValueOf(value).Elem(), key, at, depth)
		*set = len(d.found) == before
		if _, free := value.(*string); free && *set && !d.known {
			d.cut(node, key, at)
		}
	case interface {
		Grow() (*source.Value[string], any)
	}:
		d.entries(node, target.Grow, key, at, depth)
	case vocabulary:
		d.word(node, target, key, at)
	case encoding.TextUnmarshaler:
		text, ok := d.scalar(node, key, at)
		if _, money := target.(*quantity.Money); money && ok {
			text, ok = d.coined(text, at)
		}
		if ok {
			d.textValue(target, text, at)
		}
	default:
		d.plain(node, into, key, at, depth)
	}
}

// textValue hands a scalar to the type that parses it.
func (d *decoder) textValue(target encoding.TextUnmarshaler, text string, at source.Span) {
	err := target.UnmarshalText([]byte(text))
	var e *quantity.Error
	switch {
	case err == nil:
	case errors.As(err, &e):
		where := at
		if written := at.Text(); e.Length > 0 && len(written) >= len(text) {
			// Inside quotes the text begins one byte later.
			if skip := strings.Index(written, text); skip >= 0 {
				where = at.Within(skip+e.Offset, e.Length)
			}
		}
		remedy := e.Remedy
		if cutByComma(at.File.Text, where.End) {
			remedy = source.Say("write a decimal point: %s; within { } and [ ] a comma parts two values", whole(at.File.Text, where.End))
		}
		d.add(ruleValue.At(where, remedy, "%s", e.Says))
	default:
		d.add(ruleValue.At(at, "", "%v", err))
	}
}

// word hands a scalar to the type that knows the words it may be.
func (d *decoder) word(node ast.Node, target vocabulary, key string, at source.Span) {
	text, ok := d.scalar(node, key, at)
	if !ok {
		return
	}
	if word := strings.TrimSpace(text); target.UnmarshalText([]byte(word)) != nil {
		d.add(noWord(Text{V: word, At: at}, key, target.Words()))
	}
}

func noWord(word Text, key string, known []string) source.Finding {
	return meant(ruleValue.At(word.At, source.Say("write one of: %s", source.Row(known)),
		"%q is no word for %s", word.V, key), word.V, known)
}

// scalar returns a node's text as written, without quotes.
func (d *decoder) scalar(node ast.Node, key string, at source.Span) (string, bool) {
	text, ok := d.written(node, key, at)
	bad := hiddenEscape(text, at)
	d.found.Add(bad...)
	return text, ok && bad == nil
}

func (d *decoder) written(node ast.Node, key string, at source.Span) (string, bool) {
	switch n := node.(type) {
	case *ast.StringNode:
		return n.Value, true
	case *ast.LiteralNode:
		return n.Value.Value, true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, true
	case *ast.NullNode:
		if written := strings.TrimSpace(n.GetToken().Value); written == "null" && !strings.HasPrefix(at.Text(), "null") {
			d.add(ruleShape.At(at, "write a value after the colon, or leave the key out", "%s has no value", subject(key)))
			return "", false
		}
		return n.GetToken().Value, true
	}
	d.add(ruleShape.At(at, "write one value there", "%s is a %s; a single value is wanted", subject(key), shape(node)))
	return "", false
}

func subject(key string) string {
	if key == "" {
		return "this"
	}
	return key
}

func shape(node ast.Node) string {
	switch node.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "mapping"
	case *ast.SequenceNode:
		return "list"
	case *ast.NullNode:
		return "missing value"
	}
	return "single value"
}

// plain decodes into the Go kinds that carry no parser of their own.
func (d *decoder) plain(node ast.Node, into reflect.Value, key string, at source.Span, depth int) {
	switch into.Kind() {
	case reflect.Struct:
		d.structure(node, into, key, at, depth)
	case reflect.Slice:
		d.list(node, into, key, at, depth)
	case reflect.Pointer:
		fresh := reflect.New(into.Type().Elem())
		into.Set(fresh)
		d.value(node, fresh.Elem(), key, at, depth)
	case reflect.String:
		if text, ok := d.scalar(node, key, at); ok {
			into.SetString(strings.TrimSpace(text))
		}
	case reflect.Bool:
		d.yesOrNo(node, into, key, at)
	case reflect.Int, reflect.Float64:
		d.number(node, into, key, at)
	default:
		panic(fmt.Sprintf("journal: no decoding for %v", into.Type())) // a mistake in our own types
	}
}

func (d *decoder) yesOrNo(node ast.Node, into reflect.Value, key string, at source.Span) {
	text, ok := d.scalar(node, key, at)
	switch {
	case !ok:
	case text == "yes" || text == "true":
		into.SetBool(true)
	case text == "no" || text == "false":
		into.SetBool(false)
	default:
		d.add(ruleValue.At(at, "write yes or no", "%s is %s", subject(key), strconv.Quote(text)))
	}
}

func (d *decoder) number(node ast.Node, into reflect.Value, key string, at source.Span) {
	text, ok := d.scalar(node, key, at)
	if !ok {
		return
	}
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil || math.IsInf(v, 0) || math.IsNaN(v):
		d.add(ruleValue.At(at, "write a plain number", "%s is not a number", strconv.Quote(text)))
	case into.Kind() == reflect.Int && (v != math.Trunc(v) || math.Abs(v) > 1e9):
		d.add(ruleValue.At(at, "write a whole number", "%s is not a whole number", strconv.Quote(text)))
	case into.Kind() == reflect.Int:
		into.SetInt(int64(v))
	default:
		into.SetFloat(v)
	}
}

// list decodes a sequence; a single value stands for a list of one.
func (d *decoder) list(node ast.Node, into reflect.Value, key string, at source.Span, depth int) {
	items := []ast.Node{node}
	switch n := node.(type) {
	case *ast.SequenceNode:
		items = n.Values
	case *ast.NullNode:
		items = nil
	}
	for _, item := range items {
		into.Set(reflect.Append(into, reflect.Zero(into.Type().Elem())))
		d.value(item, into.Index(into.Len()-1), key, d.at(item), depth+1)
	}
}

// pairs returns a mapping's pairs.
func (d *decoder) pairs(node ast.Node, key string, at source.Span) ([]*ast.MappingValueNode, bool) {
	switch n := node.(type) {
	case *ast.MappingNode:
		return n.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}, true
	case *ast.NullNode:
		return nil, true
	}
	d.add(ruleShape.At(at, "write key: value pairs there", "%s is a %s; a mapping is wanted", subject(key), shape(node)))
	return nil, false
}

// keys reads the keys of a mapping and reports those that stand twice.
func (d *decoder) keys(pairs []*ast.MappingValueNode, each func(name string, at source.Span, value ast.Node)) {
	seen := map[string]source.Span{}
	for _, pair := range pairs {
		if _, plain := pair.Key.(*ast.MappingKeyNode); plain || pair.Key.IsMergeKey() {
			d.add(ruleShape.At(d.at(pair.Key), "write plain key: value pairs", "merge keys and complex keys are not read"))
			continue
		}
		at := d.at(pair.Key)
		name := strings.TrimSpace(pair.Key.GetToken().Value)
		if first, twice := seen[name]; twice {
			d.add(ruleTwice.At(at, "keep one of them", "%s stands twice", name).With(first, "first here"))
			continue
		}
		seen[name] = at
		d.found.Add(hiddenEscape(name, at)...)
		each(name, at, pair.Value)
	}
}

func (d *decoder) entries(node ast.Node, grow func() (*source.Value[string], any), key string, at source.Span, depth int) {
	pairs, ok := d.pairs(node, key, at)
	if !ok {
		return
	}
	d.keys(pairs, func(name string, where source.Span, value ast.Node) {
		slot, target := grow()
		*slot = source.Written(name, where)
		d.value(value, reflect.ValueOf(target).Elem(), name, d.valueAt(value, where), depth+1)
	})
}

// structure decodes a mapping into a struct by its fields' key tags.
func (d *decoder) structure(node ast.Node, into reflect.Value, key string, at source.Span, depth int) {
	fields := fieldsOf(into.Type())
	if broken := into.FieldByName("Broken"); broken.IsValid() {
		before := len(d.found)
		defer func() { broken.SetBool(d.found[before:].Stops()) }()
	}
	if f := into.FieldByName("At"); f.IsValid() && f.Type() == reflect.TypeFor[source.Span]() {
		f.Set(reflect.ValueOf(at))
	}
	if short, ok := fields.short(); ok {
		switch node.(type) {
		case *ast.MappingNode, *ast.MappingValueNode, *ast.NullNode:
		default:
			d.field(node, into, short, at, depth)
			d.required(into, fields, key, at)
			return
		}
	}
	pairs, ok := d.pairs(node, key, at)
	if !ok {
		return
	}
	given := map[string]bool{}
	d.keys(pairs, func(name string, where source.Span, value ast.Node) {
		f, known := fields.named(name)
		if !known {
			d.unknownKey(name, where, fields)
			return
		}
		given[name] = true
		d.field(value, into, f, d.valueAt(value, where), depth)
	})
	for _, f := range fields {
		if f.required && !given[f.key] {
			d.add(ruleMissing.At(at, source.Say("add it, like %s: %s", f.key, f.example), "%s has no %s", subjectOf(key), f.key))
		}
	}
}

// valueAt returns where a value stands; one that was left empty stands at its key.
func (d *decoder) valueAt(value ast.Node, key source.Span) source.Span {
	if n, null := value.(*ast.NullNode); null && n.GetToken() != nil {
		return key
	}
	return d.at(value)
}

func subjectOf(key string) source.Message {
	if key == "" {
		return source.Word("the file")
	}
	return source.Say("%s", key)
}

// required reports a short form that leaves out what must be given.
func (d *decoder) required(into reflect.Value, fields fields, key string, at source.Span) {
	for _, f := range fields {
		if f.required && !f.isShort {
			d.add(ruleMissing.At(at, source.Say("write it as a mapping with %s: %s", f.key, f.example),
				"%s has no %s", subjectOf(key), f.key))
		}
	}
}

// field decodes one field and holds its value against the words it may be.
func (d *decoder) field(node ast.Node, into reflect.Value, f field, at source.Span, depth int) {
	target := into.FieldByIndex(f.index)
	before, known := len(d.found), d.known
	d.known = f.one != nil
	d.value(node, target, f.key, at, depth+1)
	d.known = known
	if len(d.found) > before || f.one == nil {
		return
	}
	for _, word := range wordsIn(target) {
		if word.Set && !f.allows(word.V) {
			d.add(noWord(word, f.key, f.one))
		}
	}
}

// wordsIn returns the texts of a field that a one tag limits: a text or a list
// of texts. What a vocabulary has read is none: it refuses other words itself.
func wordsIn(v reflect.Value) []Text {
	switch x := v.Interface().(type) {
	case Text:
		return []Text{x}
	case []Text:
		return x
	}
	if inner, _ := unwrap(v.Type()); reflect.PointerTo(inner).Implements(vocabularyType) {
		return nil
	}
	panic(fmt.Sprintf("journal: a one tag on %v", v.Type())) // a mistake in our own types
}

// belongs names the file at whose top a key stands that was written elsewhere:
// this one, else those of other kinds for the keys that keep things out of the
// site, which must not miss their place. It is "" where there is none.
func (d *decoder) belongs(key string) string {
	if d.root != nil {
		if _, ok := fieldsOf(d.root).named(key); ok {
			return path.Base(d.file.Name)
		}
	}
	if key != "embargo" && key != "draft" {
		return ""
	}
	var files []string
	for _, kind := range FileKinds() {
		if kind.Type.Kind() != reflect.Struct {
			continue
		}
		if _, ok := fieldsOf(kind.Type).named(key); ok {
			files = append(files, map[string]string{"build": "build.md", "sitting": "a sitting", "review": "review.md", "wall": "a page of the wall"}[kind.Name])
		}
	}
	return source.Or(files).String()
}

func (d *decoder) unknownKey(name string, at source.Span, fields fields) {
	if restOfNumber(at.File.Text, at.Start) {
		return // what a decimal comma cut off; the number before it was reported
	}
	if where := d.belongs(name); where != "" {
		d.add(ruleKey.At(at, source.Say("write %s at the top of %s", name, where), "%q is not a key here", name))
		return
	}
	do := source.Say("the keys here are: %s", source.Row(fields.keys()))
	if near, ok := Nearest(name, fields.keys()); ok {
		do = source.Say("write %s", near)
	}
	d.add(ruleKey.At(at, do, "%q is not a key here", name))
}

package journal

import (
	"slices"
	"strings"

	"spruelight/gen/source"

	"github.com/goccy/go-yaml/ast"
)

// Excerpt returns a YAML file with only the entries at its top that keep picks,
// each as it was written, with the comments right above it; what stands before
// the first entry stays. ok is false where entries share a line or the file
// does not read: then only the whole file is safe.
func Excerpt(file *source.File, keep func(name string) bool) (text string, ok bool) {
	keys, ok := topKeys(file)
	if !ok {
		return "", false
	}
	if len(keys) == 0 {
		return file.Text, true
	}
	starts := make([]int, len(keys)) // first line of each entry, its comments included
	for i, k := range keys {
		starts[i] = k.line
		for i > 0 && starts[i] > keys[i-1].line+1 && strings.HasPrefix(file.Line(starts[i]-1), "#") {
			starts[i]--
		}
	}
	var b strings.Builder
	b.WriteString(file.Text[:file.Offset(starts[0], 1)])
	for i, k := range keys {
		if !keep(k.name) {
			continue
		}
		end := len(file.Text)
		if i+1 < len(keys) {
			end = file.Offset(starts[i+1], 1)
		}
		b.WriteString(file.Text[file.Offset(starts[i], 1):end])
	}
	return b.String(), true
}

// topKey is a key at the top of a YAML file.
type topKey struct {
	name string
	line int
}

// topKeys lists the keys at the top of a YAML file, each on a line of its own.
func topKeys(file *source.File) ([]topKey, bool) {
	yamlText := file.Text
	d := &decoder{file: file, text: source.NewFile(file.Name, yamlText)}
	doc, ok := d.parse(yamlText)
	if !ok {
		return nil, false
	}
	var pairs []*ast.MappingValueNode
	switch n := doc.(type) {
	case nil, *ast.NullNode:
		return nil, true
	case *ast.MappingNode:
		if n.IsFlowStyle {
			return nil, false
		}
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	default:
		return nil, false
	}
	var keys []topKey
	for _, p := range pairs {
		t := p.Key.GetToken()
		if t == nil || t.Position == nil || t.Position.Column != 1 {
			return nil, false
		}
		keys = append(keys, topKey{strings.TrimSpace(t.Value), t.Position.Line})
	}
	ordered := slices.IsSortedFunc(keys, func(a, b topKey) int { return a.line - b.line })
	return keys, ordered
}

package gen

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/source"
)

// declaredRules reads the names of all rules out of the source below gen: those
// of source.Rule literals, and of calls of a function rule.
func declaredRules(t *testing.T) map[string]token.Position {
	t.Helper()
	fset, names := token.NewFileSet(), map[string]token.Position{}
	err := filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if word, ok := ruleName(n); ok {
				names[word] = fset.Position(n.Pos())
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// ruleName returns the name that a node gives a rule.
func ruleName(n ast.Node) (string, bool) {
	var name ast.Expr
	switch n := n.(type) {
	case *ast.CompositeLit:
		if s, ok := n.Type.(*ast.SelectorExpr); !ok || s.Sel.Name != "Rule" {
			return "", false
		}
		for _, e := range n.Elts {
			if kv, ok := e.(*ast.KeyValueExpr); ok && kv.Key.(*ast.Ident).Name == "Name" {
				name = kv.Value
			}
		}
	case *ast.CallExpr:
		if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "rule" && len(n.Args) == 4 {
			name = n.Args[0]
		}
	}
	lit, ok := name.(*ast.BasicLit)
	if !ok {
		return "", false
	}
	word, err := strconv.Unquote(lit.Value)
	return word, err == nil
}

// Every rule that the source declares is listed once, with a reason and a
// source, so that the guide lacks none.
func TestEveryRuleIsListed(t *testing.T) {
	declared, listed := declaredRules(t), map[string]bool{}
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			if listed[r.Name] {
				t.Errorf("%s stands twice", r.Name)
			}
			listed[r.Name] = true
			if _, known := declared[r.Name]; !known {
				t.Errorf("%s is listed and nowhere declared", r.Name)
			}
			checkWording(t, r)
		}
	}
	for name, at := range declared {
		if !listed[name] {
			t.Errorf("%s: %s is on no list", at, name)
		}
	}
	if len(listed) < 150 {
		t.Errorf("only %d rules", len(listed))
	}
}

func checkWording(t *testing.T, r *source.Rule) {
	t.Helper()
	switch {
	case r.Reason == "" || r.Source == "":
		t.Errorf("%s lacks its reason or its source", r.Name)
	case !strings.HasSuffix(r.Reason, ".") || strings.HasSuffix(r.Source, "."):
		t.Errorf("%s: the reason is a sentence, the source is none", r.Name)
	case len(r.Reason) > 220 || r.Name != strings.ToLower(r.Name) || strings.ContainsAny(r.Name, " _"):
		t.Errorf("%s: plain short words are wanted: %s", r.Name, r.Reason)
	}
}

package gen

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// room is what a package may do. The table is policy: it is not bent to make a
// build pass.
type room struct {
	gen     []string // packages below gen it may import
	not     []string // packages below gen that "*" leaves out
	outside []string // third-party modules it may import
	pure    bool     // no disk, clock, goroutines, randomness or printing
	threads bool     // may start goroutines
}

var rooms = map[string]room{
	"gen/source":   {pure: true, outside: []string{"golang.org/x/text"}},
	"gen/quantity": {pure: true, gen: []string{"source"}, outside: []string{"gonum.org/v1/gonum", "golang.org/x/text"}},
	"gen/svg":      {pure: true, gen: []string{"source"}, outside: []string{"golang.org/x/image"}},
	"gen/chart":    {pure: true, gen: []string{"source", "quantity", "svg"}},
	"gen/circuit":  {pure: true, gen: []string{"source", "quantity", "circuit/nodal"}},
	"gen/wiring":   {pure: true, gen: []string{"source", "quantity", "svg", "circuit", "circuit/netlist"}, outside: []string{"gonum.org/v1/gonum"}},
	"gen/paint":    {pure: true, gen: []string{"source", "quantity", "svg", "chart"}, outside: []string{"gonum.org/v1/gonum"}},
	"gen/scale":    {pure: true, gen: []string{"source", "quantity", "svg", "chart"}, outside: []string{"gonum.org/v1/gonum"}},
	"gen/tally":    {pure: true, gen: []string{"source", "quantity"}, outside: []string{"gonum.org/v1/gonum"}},
	"gen/journal":  {gen: []string{"source", "quantity", "circuit", "paint", "tally"}, outside: []string{"github.com/goccy/go-yaml", "github.com/yuin/goldmark", "github.com/alecthomas/chroma/v2"}},
	"gen/stencil":  {},
	"gen/photo":    {gen: []string{"source"}, outside: []string{"*"}},
	"gen/page":     {gen: []string{"source", "quantity", "svg", "stencil"}, outside: []string{"golang.org/x/text", "github.com/goccy/go-yaml"}},
	"gen/output":   {gen: []string{"source"}, outside: []string{"github.com/gofrs/flock", "golang.org/x/sys"}},
	"gen/bag":      {gen: []string{"source", "output"}},
	"gen/topic":    {pure: true, gen: []string{"source", "quantity", "svg", "tally", "journal", "page"}},

	"gen/circuit/nodal":   {pure: true, gen: []string{"quantity"}, outside: []string{"gonum.org/v1/gonum"}},
	"gen/circuit/netlist": {pure: true, gen: []string{"quantity", "circuit", "circuit/nodal"}},

	"gen/topic/log":      {pure: true, gen: []string{"source", "quantity", "svg", "tally", "journal", "page", "topic"}},
	"gen/topic/lighting": {pure: true, gen: []string{"source", "quantity", "svg", "circuit", "wiring", "journal", "page", "topic"}},
	"gen/topic/finish":   {pure: true, gen: []string{"source", "quantity", "svg", "chart", "circuit", "paint", "journal", "page", "topic"}},
	"gen/topic/size":     {pure: true, gen: []string{"source", "quantity", "svg", "scale", "journal", "page", "topic"}},
	"gen/topic/record":   {pure: true, gen: []string{"source", "quantity", "svg", "chart", "tally", "journal", "page", "topic"}},
	"gen/topic/review":   {pure: true, gen: []string{"source", "quantity", "tally", "journal", "page", "topic", "topic/record"}},
	"gen/topic/care":     {pure: true, gen: []string{"source", "quantity", "circuit", "paint", "tally", "journal", "page", "topic", "topic/finish", "topic/lighting"}},

	"gen/site":       {gen: []string{"*"}},
	"gen/guide":      {gen: []string{"source", "quantity", "circuit", "paint", "scale", "tally", "journal", "photo", "page", "output", "topic", "topic/lighting", "site"}},
	"gen":            {gen: []string{"*"}, not: []string{"bag"}, threads: true},
	"gen/desk":       {gen: []string{"circuit/netlist", ".", "source", "quantity", "svg", "circuit", "wiring", "paint", "scale", "tally", "journal", "page", "output", "topic", "topic/record"}},
	"gen/shelving":   {gen: []string{"circuit/netlist", ".", "source", "quantity", "svg", "tally", "journal", "photo", "page", "output", "bag", "topic"}},
	"gen/kept":       {gen: []string{"."}, outside: []string{"golang.org/x/sys", "golang.org/x/sync"}},
	"gen/preview":    {gen: []string{".", "source", "output", "page", "photo"}, outside: []string{"github.com/fsnotify/fsnotify"}, threads: true},
	"cmd/spruelight": {gen: []string{".", "kept", "desk", "shelving", "guide", "preview", "journal", "bag", "source", "output", "photo", "circuit"}, outside: []string{"*"}, threads: true},
	"themes":         {},
}

// banned packages make a room impure.
var banned = []string{"os", "io/fs", "io/ioutil", "path/filepath", "net", "net/http", "log", "context", "sync", "sync/atomic", "math/rand", "math/rand/v2", "embed", "os/exec", "syscall"}

// TestRoomsKeepToTheirTable parses every source file and reports what a
// package does that its row in the table does not allow.
func TestRoomsKeepToTheirTable(t *testing.T) {
	seen := map[string]bool{}
	for _, top := range []string{"gen", "cmd", "themes"} {
		err := filepath.WalkDir(filepath.Join("..", top), func(name string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() && d.Name() == "testdata" {
				return fs.SkipDir
			}
			if !d.IsDir() && strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go") {
				rel := strings.TrimPrefix(filepath.ToSlash(name), "../")
				seen[path.Dir(rel)] = true
				for _, fault := range checkRoom(t, name, rel) {
					t.Error(fault)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for dir := range seen {
		if _, known := rooms[dir]; !known {
			t.Errorf("%s is not in the table of rooms", dir)
		}
	}
}

func checkRoom(t *testing.T, name, rel string) []string {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	r := rooms[path.Dir(rel)]
	var faults []string
	report := func(at token.Pos, format string, args ...any) {
		p := fset.Position(at)
		faults = append(faults, fmt.Sprintf("%s:%d:%d: %s", rel, p.Line, p.Column, fmt.Sprintf(format, args...)))
	}
	for _, imp := range file.Imports {
		target, _ := strconv.Unquote(imp.Path.Value)
		if why := r.forbids(target); why != "" {
			report(imp.Pos(), "%s: %s", target, why)
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			if !r.threads {
				report(n.Pos(), "a goroutine outside its place")
			}
		case *ast.SelectorExpr:
			pkg, ok := n.X.(*ast.Ident)
			if !ok || !r.pure {
				return true
			}
			if pkg.Name == "time" && slices.Contains([]string{"Now", "Since", "Until", "Sleep", "After", "Tick", "NewTimer", "NewTicker"}, n.Sel.Name) {
				report(n.Pos(), "a clock in a pure room")
			}
			if pkg.Name == "fmt" && strings.HasPrefix(n.Sel.Name, "Print") {
				report(n.Pos(), "printing in a pure room")
			}
		}
		return true
	})
	return faults
}

// forbids says why a room may not import a package, "" where it may.
func (r room) forbids(target string) string {
	inside, ours := strings.CutPrefix(target, "spruelight/")
	switch {
	case ours && inside == "themes":
		if r.threads {
			return ""
		}
		return "only the pipeline and the program know the built-in themes"
	case ours:
		name := strings.TrimPrefix(inside, "gen/")
		if inside == "gen" {
			name = "."
		}
		if slices.Contains(r.not, name) || !slices.Contains(r.gen, name) && !slices.Contains(r.gen, "*") {
			return "not among the packages this one may import"
		}
	case strings.Contains(strings.SplitN(target, "/", 2)[0], "."):
		for _, allowed := range r.outside {
			if allowed == "*" || target == allowed || strings.HasPrefix(target, allowed+"/") {
				return ""
			}
		}
		return "not among the libraries this one may import"
	case r.pure && slices.Contains(banned, target):
		return "the outside world in a pure room"
	}
	return ""
}

// TestRoomsTableCanFail shows that each kind of breach is found.
func TestRoomsTableCanFail(t *testing.T) {
	pure := rooms["gen/circuit/nodal"]
	for target, want := range map[string]string{
		"os": "outside world", "spruelight/gen/journal": "not among the packages", "github.com/spf13/cobra": "not among the libraries", "sync": "outside world",
	} {
		if got := pure.forbids(target); !strings.Contains(got, want) {
			t.Errorf("importing %s: %q, want %q", target, got, want)
		}
	}
	if got := rooms["gen"].forbids("spruelight/gen/bag"); !strings.Contains(got, "not among the packages") {
		t.Errorf("the pipeline importing bag: %q", got)
	}
	for _, target := range []string{"fmt", "spruelight/gen/quantity", "gonum.org/v1/gonum/mat", "math", "time"} {
		if got := pure.forbids(target); got != "" {
			t.Errorf("importing %s is refused: %s", target, got)
		}
	}
}

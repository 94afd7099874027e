package journal

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"spruelight/gen/source"
	"spruelight/testdata/outside"

	"github.com/goccy/go-yaml"
)

// Every key says what it means and shows an example that reads as its type.
func TestEveryKeyIsDocumented(t *testing.T) {
	for _, k := range FileKinds() {
		inner, _ := unwrap(k.Type)
		checkFields(t, k.Name, inner, map[reflect.Type]bool{})
	}
}

func checkFields(t *testing.T, at string, typ reflect.Type, seen map[reflect.Type]bool) {
	if seen[typ] || typ.Kind() != reflect.Struct {
		return
	}
	seen[typ] = true
	for _, f := range fieldsOf(typ) {
		inner, _ := unwrap(f.typ)
		mapping := inner.Kind() == reflect.Struct && !reflect.PointerTo(inner).Implements(textType)
		if f.doc == "" || f.example == "" && !mapping {
			t.Errorf("%s.%s: no meaning or no example", at, f.key)
		}
		if f.example != "" {
			text := "x: " + f.example + "\n"
			holder := reflect.New(reflect.StructOf([]reflect.StructField{{Name: "X", Type: f.typ, Tag: reflect.StructTag(`key:"x"`)}}))
			for _, found := range decode(source.NewFile("eg", text), 0, len(text), holder.Interface()) {
				t.Errorf("%s.%s: the example %q does not read: %s", at, f.key, f.example, found.Says.String())
			}
		}
		if mapping {
			checkFields(t, at+"."+f.key, inner, seen)
		}
	}
}

// Every key of a schema says what it means and, unless it is a mapping whose
// own keys do, shows an example, so that an editor has something to show.
func TestSchemasExplainTheirKeys(t *testing.T) {
	keys := 0
	for _, k := range FileKinds() {
		var schema struct {
			Title, Description string
			Defs               map[string]json.RawMessage `json:"$defs"`
		}
		if err := json.Unmarshal(k.Schema(), &schema); err != nil {
			t.Fatal(err)
		}
		if schema.Title == "" || schema.Description == "" {
			t.Errorf("%s: the schema has no title or does not say of which file it is", k.Name)
		}
		for name, def := range schema.Defs {
			for key, p := range propertiesOf(t, def) {
				keys++
				if p.Description == "" || len(p.Examples) == 0 && !strings.Contains(string(p.AnyOf), "$ref") {
					t.Errorf("%s, %s: %s has no description or no example", k.Name, name, key)
				}
			}
		}
	}
	if keys < 250 {
		t.Errorf("only %d keys", keys)
	}
}

type property struct {
	Description string
	Examples    []string
	AnyOf       json.RawMessage
}

// propertiesOf returns the properties of a mapping's schema, or of the mapping
// among the forms that it may have.
func propertiesOf(t *testing.T, def json.RawMessage) map[string]property {
	t.Helper()
	var mapping struct {
		Properties map[string]property
		AnyOf      []json.RawMessage
	}
	if err := json.Unmarshal(def, &mapping); err != nil {
		t.Fatal(err)
	}
	if mapping.Properties == nil && len(mapping.AnyOf) > 0 {
		return propertiesOf(t, mapping.AnyOf[0])
	}
	return mapping.Properties
}

// exampleFiles returns the example workshop's YAML by kind of file, as JSON.
func exampleFiles(t *testing.T) map[string][]json.RawMessage {
	t.Helper()
	out := map[string][]json.RawMessage{}
	root := os.DirFS("../../content-example")
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			if d != nil && strings.HasPrefix(name, "site") {
				return fs.SkipDir
			}
			return err
		}
		kind := kindOf(name)
		if kind == "" {
			return nil
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		front := string(text)
		if strings.HasSuffix(name, ".md") {
			from, to, _, _ := frontMatter(front)
			front = front[from:to]
		}
		out[kind] = append(out[kind], asJSON(t, name, front))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func kindOf(name string) string {
	dir, base := path.Split(name)
	stem := strings.TrimSuffix(base, path.Ext(base))
	switch {
	case name == "workshop.yaml" || name == "shelf.yaml":
		return stem
	case dir == "rack/":
		return stem
	case strings.HasPrefix(dir, "wall/") && strings.HasSuffix(base, ".md"):
		return "wall"
	case strings.HasPrefix(dir, "builds/") && base == "build.md":
		return "build"
	case strings.HasPrefix(dir, "builds/") && base == "review.md":
		return "review"
	case strings.HasPrefix(dir, "builds/") && sittingName.MatchString(stem):
		return "sitting"
	}
	return ""
}

func asJSON(t *testing.T, name, text string) json.RawMessage {
	t.Helper()
	var value any
	if err := yaml.Unmarshal([]byte(text), &value); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	data, err := json.Marshal(value)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return data
}

// wrongFiles are mistakes that a schema alone can see: a kind of file and its text.
var wrongFiles = []struct{ kind, text string }{
	{"workshop", "nam: x"}, {"workshop", "name: [a]"}, {"workshop", "name: x\nlanguage: xx"}, {"workshop", "name: x\nlengths: cubits"}, {"workshop", "name: x\nslack: 15"},
	{"workshop", "name: x\ncamera: fast"}, {"workshop", "name: x\nresistors: E13"}, {"workshop", "{}"}, {"workshop", "name: x\nphotos: {limit: many}"}, {"workshop", "name: x\ntemperature: warm"},
	{"workshop", "name: x\ncabinets: [{name: a}]"}, {"workshop", "- a"},
	{"build", "name: x"}, {"build", "state: bench"}, {"build", "name: x\nstate: bensh"}, {"build", "name: x\nstate: bench\nkit: {makr: y}"}, {"build", "name: x\nstate: bench\nkit: {price: 92}"},
	{"build", "name: x\nstate: bench\nkit: {parts: many}"}, {"build", "name: x\nstate: bench\nkit: {obtained: stolen}"}, {"build", "name: x\nstate: bench\nfinished: yesterday"},
	{"build", "name: x\nstate: bench\nareas: {hull: {material: cheese}}"}, {"build", "name: x\nstate: bench\nareas: [hull]"}, {"build", "name: x\nstate: bench\nareas: {hull: {}}"},
	{"build", "name: x\nstate: bench\ncircuits: [{name: a}]"}, {"build", "name: x\nstate: bench\ncircuits: [{name: a, supply: b, branches: [{name: c}]}]"},
	{"build", "name: x\nstate: bench\ncircuits: [{name: a, supply: b, branches: [{name: c, lamps: [d], current: 10}]}]"},
	{"build", "name: x\nstate: bench\ncircuits: [{name: a, supply: b, branches: [{name: c, lamps: [d], current: 10 mV}]}]"},
	{"build", "name: x\nstate: bench\ncircuits: [{name: a, supply: b, feed: {wire: 28 AWG}, branches: [{name: c, lamps: [d]}]}]"},
	{"build", "name: x\nstate: bench\ncircuits: [{name: a, supply: b, feed: {wire: 28 AWG, length: 3 parsec}, branches: [{name: c, lamps: [d]}]}]"},
	{"build", "name: x\nstate: bench\npaint: {hull: [{for: base}]}"}, {"build", "name: x\nstate: bench\npaint: {hull: [{coat: a, for: fun}]}"}, {"build", "name: x\nstate: bench\npaint: {hull: [{coat: a, thinned: half}]}"},
	{"build", "name: x\nstate: bench\nparts: [{part: A1}]"}, {"build", "name: x\nstate: bench\nchoices: [{question: q}]"}, {"build", "name: x\nstate: bench\nspent: [{on: a}]"}, {"build", "name: x\nstate: bench\nspent: [{on: a, price: 9 euro}]"},
	{"build", "name: x\nstate: bench\nmeasured: {length: long}"}, {"build", "name: x\nstate: bench\nproblems: [{seen: 2026-01-01}]"},
	{"sitting", "hours: 3 h"}, {"sitting", "stage: lighting\nhours: 3"}, {"sitting", "stage: lighting\nhours: 1:30"}, {"sitting", "stage: lighting\nhors: 3 h"}, {"sitting", "stage: lighting\nphotos: [{fil: a}]"},
	{"sitting", "stage: lighting\nphotos: [{file: a, atl: b}]"}, {"sitting", "stage: lighting\ncoats: [{area: a}]"}, {"sitting", "stage: lighting\ncoats: [{area: a, coat: b, at: noon}]"},
	{"sitting", "stage: lighting\nreadings: [{current: 3 mA}]"}, {"sitting", "stage: lighting\nreadings: [{at: a, current: 3}]"}, {"sitting", "stage: lighting\nleaks: [{action: sealed}]"},
	{"sitting", "stage: lighting\nparts: [{part: A1, event: eaten}]"}, {"sitting", "stage: lighting\nvideo: {length: \"1:00\"}"}, {"sitting", "stage: lighting\nvideo: {address: a, length: long}"},
	{"review", "title: x"}, {"review", "date: soon"}, {"review", "date: 2026-01-01\nmarks: 7"},
	{"wall", "summary: x"}, {"wall", "title: x\norder: first"},
	{"lamps", "a: {size: 3 mm}"}, {"lamps", "a: {colour: red, forward: [3 V]}"}, {"lamps", "a: {colour: red, limit: 30}"}, {"lamps", "a: red"},
	{"supplies", "a: {kind: usb}"}, {"supplies", "a: {kind: mains, volts: 230 V}"}, {"supplies", "a: {kind: usb, volts: 5}"}, {"supplies", "a: {kind: usb, volts: 5 V, inside: 1.7 V}"},
	{"paints", "a: {colour: \"#fff\"}"}, {"paints", "a: {kind: acrylic lacquer, colour: grey}"}, {"paints", "a: {kind: acrylic lacquer, recoat: 1}"},
	{"wire", "a: {coating: enamel}"}, {"wire", "a: {copper: thin}"},
	{"shelf", "a: {scale: 1/72}"}, {"shelf", "a: [b]"},
}

// An independent validator (ajv, draft 2020-12) admits every file of the
// example and refuses every wrong one.
func TestSchemasByAnIndependentValidator(t *testing.T) {
	node := outside.Tool(t, "node")
	modules := os.Getenv("AJV_DIR")
	if modules == "" {
		outside.Missing(t, "AJV_DIR does not name a folder with ajv")
	}
	type oneCase struct {
		Kind string          `json:"kind"`
		Data json.RawMessage `json:"data"`
		Name string          `json:"name"`
	}
	job := struct {
		Schemas map[string]json.RawMessage `json:"schemas"`
		Right   []oneCase                  `json:"right"`
		Wrong   []oneCase                  `json:"wrong"`
	}{Schemas: map[string]json.RawMessage{}}
	for _, k := range FileKinds() {
		job.Schemas[k.Name] = k.Schema()
	}
	for kind, list := range exampleFiles(t) {
		for _, data := range list {
			job.Right = append(job.Right, oneCase{kind, data, string(data)})
		}
	}
	for _, w := range wrongFiles {
		job.Wrong = append(job.Wrong, oneCase{w.kind, asJSON(t, w.text, w.text), w.text})
	}
	if len(job.Right) < 30 || len(job.Wrong) < 60 {
		t.Fatalf("%d right and %d wrong files", len(job.Right), len(job.Wrong))
	}
	input, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "job.json")
	if err := os.WriteFile(file, input, 0o644); err != nil {
		t.Fatal(err)
	}
	const script = `
const Ajv = require(process.argv[1] + "/ajv/dist/2020").default, fs = require("fs");
const job = JSON.parse(fs.readFileSync(process.argv[2])), ajv = new Ajv({allErrors: true, strict: true, allowUnionTypes: true});
const check = {}; let bad = 0;
for (const [k, s] of Object.entries(job.schemas)) check[k] = ajv.compile(s);
for (const c of job.right) if (!check[c.kind](c.data)) { bad++; console.log("refused " + c.kind + ": " + c.name.slice(0, 200) + " " + JSON.stringify(check[c.kind].errors.slice(0, 3))); }
for (const c of job.wrong) if (check[c.kind](c.data)) { bad++; console.log("admitted " + c.kind + ": " + c.name); }
process.exit(bad ? 1 : 0);`
	if out, err := exec.Command(node, "-e", script, modules, file).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// What the schemas refuse, the reader refuses too, with a place.
func TestWrongFilesAreFindings(t *testing.T) {
	types := map[string]reflect.Type{}
	for _, k := range FileKinds() {
		types[k.Name] = k.Type
	}
	for _, w := range wrongFiles {
		found := decode(source.NewFile(w.kind, w.text), 0, len(w.text), reflect.New(types[w.kind]).Interface())
		if !found.Stops() {
			t.Errorf("%s %q reads without a finding", w.kind, w.text)
		}
		for _, f := range found {
			if !f.At.Known() || f.Says.String() == "" {
				t.Errorf("%s %q: a finding without a place or words: %+v", w.kind, w.text, f)
			}
		}
	}
}

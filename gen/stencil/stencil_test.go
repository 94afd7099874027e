package stencil

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"reflect"
	"strings"
	"testing"
	"time"
)

// inner, outer and the rest are what templates are tried on.
type inner struct {
	Name  string
	Count int
}

func (i *inner) Shout() string         { return strings.ToUpper(i.Name) }
func (i inner) Times(n int) string     { return strings.Repeat(i.Name, n) }
func (i inner) Both(a, b any) string   { return fmt.Sprint(a, "/", b) }
func (i inner) All(a ...string) string { return strings.Join(a, i.Name) }
func (i inner) Fails() (string, error) { return "", errors.New("no paint left") }
func (i inner) Works() (string, error) { return "sprayed", nil }
func (i inner) Panics() string         { panic("spilt") }

type size float64

func (l size) String() string { return fmt.Sprintf(`%g "mm" <b>`, float64(l)) }

type colour string

type outer struct {
	*inner
	Title  string
	Plain  inner
	Far    *inner
	Nil    *inner
	Any    any
	None   any
	Says   fmt.Stringer
	Long   size
	Hue    colour
	List   []inner
	Texts  []string
	Empty  []string
	Four   [4]int
	Map    map[string]int
	Kinds  map[colour]string
	Markup template.HTML
	Web    template.URL
	Set    template.Srcset
	Code   template.JS
	Day    time.Time
	Half   float64
	Yes    bool
	Small  int8
	Bad    error
	hidden string
}

func data() *outer {
	return &outer{
		inner: &inner{"promoted", 3}, Title: `R1 & "D1" <i>+'x'` + "\x00\u2028é", Plain: inner{"plain", 1}, Far: &inner{"far", 2},
		Any: "held", Says: size(2.5), Long: 12, Hue: "red<", List: []inner{{"a", 1}, {"b", 0}, {"c", 3}}, Texts: []string{"x", "y&"}, Four: [4]int{9, 8, 7, 6},
		Map: map[string]int{"two": 2, "one": 1, "three": 3}, Kinds: map[colour]string{"z": "last", "a": "first"}, Markup: "<b>bold</b>", Web: "data:image/png;base64,AA+/==", Set: "a.jpg 1w, b&c.jpg 2w",
		Code: `{"a":1}`, Day: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), Half: -0.5, Yes: true, Bad: errors.New("bad & broken"), hidden: "h",
	}
}

var funcs = template.FuncMap{
	"upper": strings.ToUpper,
	"tell":  func(v any) string { return fmt.Sprintf("%v!", v) },
	"say":   func(text string, values ...any) string { return fmt.Sprintf(text, values...) },
	"line":  func(v any, more ...any) string { return fmt.Sprint(v, len(more), more) },
	"add":   func(a, b int) int { return a + b },
	"day":   func(t time.Time) string { return t.Format(time.DateOnly) },
	"half":  func(v float64) float64 { return v / 2 },
	"hue":   func(c colour) string { return string(c) },
	"list":  func(v ...any) []any { return v },
	"nil":   func() any { return nil },
	"fails": func(string) (string, error) { return "", errors.New("no paint left") },
}

// TestRunAsHTMLTemplateDoes runs templates in both ways: what a stencil prints
// is what html/template prints. other are those that it must leave to html/template.
func TestRunAsHTMLTemplateDoes(t *testing.T) {
	for _, c := range []struct{ subject, texts string }{
		{"fields, of pointers, values and what is embedded", `{{.Title}}¦{{.Name}}¦{{.Plain.Name}}¦{{.Far.Name}}¦{{.Far.Count}}¦{{.Small}}¦{{.Half}}¦{{.Yes}}¦{{.Four}}¦{{.Map.two}}`},
		{"methods, of a value and of its address", `{{.Shout}}¦{{.Plain.Shout}}¦{{.Far.Times 2}}¦{{.Plain.Both "a" 1}}¦{{.Plain.All}}¦{{.Plain.All "x" "y"}}¦{{.Plain.Works}}¦{{"3" | .Plain.Both 1}}`},
		{"interfaces", `{{.Any}}¦{{.None}}¦{{.Says}}¦{{with .Any}}{{.}}{{end}}{{if .None}}no{{else}}none{{end}}¦{{.Bad}}`},
		{"values with a String method, named texts", `{{.Long}}¦{{.Hue}}¦{{.Day}}¦<i title="{{.Long}}">`},
		{"texts that carry their kind", `{{.Markup}}¦{{.Web}}¦{{.Set}}¦<a href="{{.Web}}">¦<img srcset="{{.Set}}">¦<i title="{{.Markup}}"></i>¦<a href="{{.Markup}}">¦<img srcset="{{.Title}}">`},
		{"places of all kinds", `<title>{{.Title}}</title><i title="{{.Title}}" class='{{.Title}}'></i><a href="{{.Title}}"></a><a href="a/b-c.html#x_1{{.Title}}"></a><a href="?q={{.Title}}"></a><script>x={{.Title}}</script><script type="application/ld+json">{{.Code}}</script>`},
		{"addresses", `{{range list "a/b.html" "../x.html#f" "https://bench.example/a+b?c=d&e=f" "javascript:x()" "a b" "ü" "x:y" "/x:y" "mailto:a@b.example" "#" "%2f" "%zz" "(a)" "a'b" ""}}<a href="{{.}}"></a>{{end}}`},
		{"variables, their scopes and their setting", `{{$x := .Title}}{{$y := 1}}{{with .Plain}}{{$y := 2}}{{$.Name}}{{$y}}{{.Name}}{{$y = 3}}{{$y}}{{end}}{{$y}}{{if $z := .Any}}{{$z}}{{else}}{{$z}}{{end}}{{$y = 5}}{{$y}}{{$x}}`},
		{"ranges", `{{range .List}}{{.Name}}{{.Shout}}{{end}}¦{{range $i, $e := .Texts}}{{$i}}{{$e}}{{end}}¦{{range $e := .Texts}}{{$e}}{{end}}¦{{range .Empty}}x{{else}}none{{end}}¦{{range $k, $v := .Map}}{{$k}}={{$v}};{{end}}¦{{range $k, $v := .Kinds}}{{$k}}={{$v}};{{end}}¦{{range 3}}{{.}}{{end}}¦{{range .None}}x{{else}}none{{end}}¦{{range .Four}}{{.}}{{end}}`},
		{"leaving a range and going on in it", `{{range .List}}{{if eq .Name "b"}}{{continue}}{{end}}{{.Name}}{{end}}¦{{range $i, $e := .List}}{{range 2}}{{if $i}}{{break}}{{end}}{{.}}{{end}}{{if eq $i 1}}{{break}}{{end}}{{$e.Name}}{{end}}`},
		{"a variable of a range is gone after it", `{{range $i, $e := .List}}{{$n := $e.Name}}{{$n}}{{end}}{{$n := "out"}}{{$n}}`},
		{"a variable of one branch is none of the other's", `{{$x := 1}}{{if .None}}{{$x := 2}}{{$x}}{{else}}{{$x}}{{end}}¦{{$x := 1}}{{with .None}}{{$x := 2}}{{$x}}{{else}}{{$x}}{{end}}{{if .Yes}}{{$x = 3}}{{end}}{{$x}}¦{{$e := 1}}{{range .Empty}}{{$e := 2}}{{$e}}{{else}}{{$e}}{{end}}`},
		{"a variable of a range over nothing holds nothing", `{{$e := "out"}}{{range $e := .Empty}}{{else}}{{$e}}{{end}}{{range $i, $e := .Empty}}{{else}}{{$i}}{{$e}}{{end}}{{$e}}`},
		{"else with, else if", `{{with .Nil}}x{{else with .Far}}{{.Name}}{{end}}{{if .None}}a{{else if .Yes}}b{{else}}c{{end}}`},
		{"and, or, not", `{{and .Yes .Title}}¦{{and .None .Title}}¦{{or .None .Any}}¦{{or "" 0}}¦{{not .Yes}}{{not .Empty}}{{not .Half}}{{not .Nil}}¦{{if and .Far .Far.Name}}x{{end}}{{if and .Nil .Nil.Name}}y{{end}}¦{{or .Empty .Texts}}`},
		{"what stands before a bar is there first, and has a type", `{{index .Texts 0 | or "a"}}¦{{"x" | printf "%s%s" "y"}}¦{{.Count | add 1 | add 2 | print "="}}¦{{upper ("x")}}¦{{add (1) 2}}`},
		{"comparing truths", `{{eq .Yes true}}{{ne .Yes true}}{{eq true false .Yes}}{{if eq .Yes (not .None)}}x{{end}}`},
		{"a break in the else of a range ends that one", `{{range .List}}{{range $.Empty}}{{else}}{{break}}{{end}}{{.Name}}{{end}}¦{{range .List}}{{range $.Empty}}{{else}}{{continue}}{{end}}{{.Name}}{{end}}`},
		{"comparing", `{{eq .Name "promoted"}}{{eq .Hue "red<"}}{{eq .Far.Count 1 2}}{{ne .Small 1}}{{lt 1 2}}{{le 2 2}}{{gt .Count 2}}{{ge 1 2}}{{eq .Any "held"}}{{lt "a" "b"}}`},
		{"len and index", `{{len .Texts}}{{len .Title}}{{len .Map}}{{len .Four}}¦{{index .Texts 1}}{{index .Map "two"}}{{index .Map "ten"}}{{index .Four 2}}{{(index .List 0).Name}}{{index .List 0 | tell}}`},
		{"print and printf", `{{print 1 2 "a" "b"}}{{print}}{{printf "%s %d" .Name 3}}{{"x" | printf "%s<"}}`},
		{"own functions", `{{upper .Name}}{{tell .Long}}{{tell .None}}{{tell 1}}{{say "a"}}{{say "%s %v" .Name .Count}}{{line .None}}{{line "a" .None .Half}}{{line .Hue 1}}{{add 1 .Count}}{{day .Day}}{{half 3}}{{half .Half}}{{hue "blue"}}{{hue .Hue}}{{range list 1 "a" .Half}}{{.}}{{end}}{{upper "x" | tell}}`},
		{"functions in brackets", `{{(upper .Name)}}{{upper (print .Name "!")}}{{tell (index .Texts 0)}}{{(list 1 2) | len}}{{len (list 1 (add 1 1))}}`},
		{"templates that call templates", `{{define "a"}}<{{.Name}}{{$.Count}}>{{end}}{{template "a" .Plain}}{{template "a" .}}{{define "n"}}{{if gt . 0}}{{.}}{{template "n" (add . -1)}}{{end}}{{end}}{{template "n" 4}}{{define "e"}}[{{.}}]{{end}}{{template "e"}}{{block "b" .Texts}}{{range .}}{{.}}{{end}}{{end}}`},
		{"what stands after each other", `{{/* said to nobody */}}a {{- .Name -}} b{{"\""}}{{` + "`<raw>`" + `}}{{true}}{{1}}{{-7}}{{'a'}}{{0x1F}}`},
	} {
		t.Run(c.subject, func(t *testing.T) {
			for _, text := range strings.Split(c.texts, "¦") {
				want, wantErr, got, err := both(t, text, data())
				if wantErr != nil || err != nil || got != want {
					t.Errorf("%s\n has  %q (%v)\n want %q (%v)", text, got, err, want, wantErr)
				}
			}
		})
	}
}

// TestErrorsAreLeft shows that what html/template calls an error is none of a
// stencil's own, that nothing of the page is printed, and that the next run is
// right again.
func TestErrorsAreLeft(t *testing.T) {
	for _, text := range []string{
		`{{fails "x" | or "a"}}`, `{{index .Empty 7 | and false}}`, `{{3 | half}}`, `{{half (3)}}`, `{{"blue" | hue}}`, `{{index .None}}`, `{{say "%s" | hue}}`,
		`{{.Nothing}}`, `{{.hidden}}`, `{{.Nil.Name}}`, `{{.None.Name}}`, `{{.Map.four}}`, `{{.Plain.Fails}}`, `{{.Plain.Panics}}`, `{{fails "x"}}`, `{{index .Texts 7}}`, `{{index .Texts -1}}`,
		`{{index .None 0}}`, `{{len 3}}`, `{{len .Nil}}`, `{{add 1}}`, `{{add 1 2 3}}`, `{{add "a" 1}}`, `{{upper 3}}`, `{{hue .Name}}`, `{{day .Title}}`, `{{.Title 1}}`, `{{.Plain.Times "a"}}`, `{{lt 1 "a"}}`,
		`{{range .Title}}x{{end}}`, `{{range $i, $e := 3}}{{end}}`, `{{define "r"}}{{template "r" .}}{{end}}{{template "r" .}}`, `<script>x={{.Bad}}{{.Half}}</script>{{.Nothing}}`,
	} {
		_, wantErr, got, err := both(t, "printed before "+text, data())
		if wantErr == nil || !errors.Is(err, ErrOther) || got != "" {
			t.Errorf("%s: html/template says %v; the stencil %v and printed %q", text, wantErr, err, got)
		}
	}
}

// TestWhatIsNotKnownIsLeft lists what html/template has to run.
func TestWhatIsNotKnownIsLeft(t *testing.T) {
	for _, text := range []string{
		`{{slice .Title 1 2}}`, `{{html .Title}}`, `{{urlquery .Title}}`, `{{js .Title}}`, `{{println 1}}`, `{{call .Far}}`, `{{tell nil}}`, `{{half 1.5}}`, `{{print 1e6}}`, `{{0i}}`,
		`<p style="color: {{.Hue}}">`, `<i title={{.Title}}>`, `<p onclick="{{.Title}}">`, `<p {{.Title}}>`, `{{define "x"}}{{.}}{{end}}<a href="{{template "x" .Title}}">`,
		`{{$i := 0}}{{$e := 0}}{{range $i, $e = .Four}}{{end}}`, `{{with ($x := 1)}}{{end}}`,
	} {
		tmpl, err := template.New("t").Funcs(funcs).Parse(text)
		if err != nil {
			continue // nothing for either
		}
		if _, err := Cut(tmpl, "t", funcs); !errors.Is(err, ErrOther) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// both runs a template in both ways, the stencil twice over.
func both(t *testing.T, text string, data any) (want string, wantErr error, got string, err error) {
	t.Helper()
	tmpl, err := template.New("t").Funcs(funcs).Option("missingkey=error").Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if wantErr = tmpl.Execute(&out, data); wantErr == nil {
		want = out.String()
	}
	s, err := Cut(tmpl, "t", funcs, "say", "upper", "add")
	if err != nil {
		return want, wantErr, "", err
	}
	var mine bytes.Buffer
	err = s.Run(&mine, data)
	got = mine.String()
	mine.Reset()
	if again := s.Run(&mine, data); fmt.Sprint(again) != fmt.Sprint(err) || mine.String() != got {
		t.Errorf("%s: a second run gives %q (%v) after %q (%v)", text, mine.String(), again, got, err)
	}
	return want, wantErr, got, err
}

// FuzzEscaping holds what is written in each kind of place to html/template.
func FuzzEscaping(f *testing.F) {
	for _, text := range []string{"", "a/b.html", "https://bench.example/?a=b&c", "javascript:alert(1)", `"><script>`, "data:image/png;base64,AA+/==", "a.jpg 1w, b.jpg 2w", "\x00\xff\ufeff", "%41%", "mailto:x@y.example", "HTTPS://x", "+&'`=\u2028"} {
		f.Add(text)
	}
	loadEscapers()
	f.Fuzz(func(t *testing.T, text string) {
		for chain, e := range escapers {
			for _, value := range []any{len(text), -len(text), len(text) > 3, float64(len(text)) / 3, []string{text}, map[string]int{text: 1}, &text, markedUp(text), text, template.HTML(text), template.URL(text), template.Srcset(text), colour(text), says(text)} {
				var want, got bytes.Buffer
				wantErr := failure(func() { e.ask(&want, value) })
				err := failure(func() { e.value(&got, reflect.ValueOf(value)) })
				if got.String() != want.String() || (err == nil) != (wantErr == nil) {
					t.Errorf("%s: %T %q gives %q (%v), want %q (%v)", chain, value, text, got.String(), err, want.String(), wantErr)
				}
			}
		}
	})
}

// markedUp is written in scripts as it says itself, elsewhere by its String.
type markedUp string

func (m markedUp) String() string               { return "<" + string(m) + ">" }
func (m markedUp) MarshalJSON() ([]byte, error) { return []byte("[1, 2]"), nil }

type says string

func (s says) String() string { return string(s) }

func failure(do func()) (problem any) {
	defer func() { problem = recover() }()
	do()
	return nil
}

// BenchmarkAgainstHTMLTemplate runs a page's list of links in both ways and
// reports how many times as long html/template takes.
func BenchmarkAgainstHTMLTemplate(b *testing.B) {
	tmpl := template.Must(template.New("t").Funcs(funcs).Parse(`{{range .List}}<li><a href="{{.Name}}.html"{{if gt .Count 1}} class="on"{{end}}>{{.Name}}</a> {{say "%d of" .Count}} {{.Shout}}</li>{{end}}`))
	of, out := data(), bytes.Buffer{}
	for range 50 {
		of.List = append(of.List, inner{"marram", len(of.List)})
	}
	s, err := Cut(tmpl, "t", funcs)
	if err != nil {
		b.Fatal(err)
	}
	var quick, slow time.Duration
	for b.Loop() {
		out.Reset()
		began := time.Now()
		if err := s.Run(&out, of); err != nil {
			b.Fatal(err)
		}
		half := time.Now()
		if err := tmpl.Execute(io.Discard, of); err != nil {
			b.Fatal(err)
		}
		quick, slow = quick+half.Sub(began), slow+time.Since(half)
	}
	b.ReportMetric(float64(slow)/float64(quick), "times-as-quick")
}

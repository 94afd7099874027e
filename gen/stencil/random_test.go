package stencil

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"math/rand/v2"
	"strings"
	"testing"
)

// author writes random templates: most of them mean nothing and are errors, which
// have to stay errors; the others have to print what html/template prints.
type author struct {
	*rand.Rand
	vars []string
}

var (
	values = strings.Fields(`.Title .Name .Shout .Plain .Plain.Name .Far .Far.Count .Nil .Nil.Name .Any .None .Says .Long .Hue .List .Texts .Empty .Four .Map .Map.two .Kinds .Markup .Web .Set .Code .Half .Yes .Small .Bad . $ $.Title $.List 1 0 -3 "s<" "a" "" true false "%v" 'a'`)
	calls  = strings.Fields(`and or not len index print printf eq ne lt le gt ge upper tell say add day half hue list nil fails .Times .Both .All .Plain.Works .Far.Fails $.Plain.Times`)
	spots  = []string{`{{%s}}`, `{{%s}}`, `<i title="{{%s}}"></i>`, `<a href="{{%s}}"></a>`, `<img srcset="{{%s}}">`, `<title>{{%s}}</title>`, `<script>x={{%s}}</script>`}
)

func one[T any](a *author, of []T) T { return of[a.IntN(len(of))] }

func (a *author) operand(deep int) string {
	switch n := a.IntN(8); {
	case n == 0 && len(a.vars) > 0:
		return one(a, a.vars)
	case n < 3 && deep > 0:
		return "(" + a.pipe(deep-1) + ")" + one(a, []string{"", "", ".Name"})
	}
	return one(a, values)
}

func (a *author) pipe(deep int) string {
	text := a.operand(deep)
	if a.IntN(2) == 0 {
		text = one(a, calls)
		for range a.IntN(3) {
			text += " " + a.operand(deep)
		}
	}
	for a.IntN(5) == 0 {
		text += " | " + one(a, calls)
	}
	return text
}

func (a *author) list(deep int) (text string) {
	defer func(outer int) { a.vars = a.vars[:outer] }(len(a.vars))
	for range 1 + a.IntN(3) {
		text += a.node(deep)
	}
	return text
}

func (a *author) node(deep int) string {
	name := one(a, []string{"$a", "$b"})
	switch n := a.IntN(12); {
	case n == 0:
		defer func() { a.vars = append(a.vars, name) }()
		return "{{" + name + " := " + a.pipe(1) + "}}"
	case n == 1 && len(a.vars) > 0:
		return "{{" + one(a, a.vars) + " = " + a.pipe(1) + "}}"
	case n < 5 && deep > 0:
		verb := one(a, []string{"if", "with", "range"})
		over, otherwise := a.pipe(1), ""
		if a.IntN(2) == 0 {
			otherwise = "{{else}}" + a.list(deep-1)
		}
		if a.IntN(3) == 0 {
			over = name + " := " + over
			a.vars = append(a.vars, name)
			defer func(outer int) { a.vars = a.vars[:outer-1] }(len(a.vars))
		}
		body := a.list(deep - 1)
		if verb == "range" && a.IntN(3) == 0 {
			body += "{{if " + a.pipe(0) + "}}" + one(a, []string{"{{break}}", "{{continue}}"}) + "{{end}}" + a.list(0)
		}
		return "{{" + verb + " " + over + "}}" + body + otherwise + "{{end}}"
	case n == 5:
		return `{{template "part" ` + a.pipe(1) + `}}`
	}
	return fmt.Sprintf(one(a, spots), a.pipe(2))
}

// TestRandomTemplates runs random templates in both ways.
func TestRandomTemplates(t *testing.T) {
	a := &author{Rand: rand.New(rand.NewPCG(11, 7))}
	ran, left := 0, 0
	of := data() // the same for both, or they would print addresses of their own
	for range 20_000 {
		a.vars = nil
		text := a.list(2) + `{{define "part"}}[{{.}}{{$}}]{{end}}`
		tmpl, err := template.New("t").Funcs(funcs).Option("missingkey=error").Parse(text)
		if err != nil {
			continue
		}
		var want, got bytes.Buffer
		wantErr := tmpl.Execute(&want, of)
		s, err := Cut(tmpl, "t", funcs, "say", "upper")
		if err == nil {
			err = s.Run(&got, of)
		}
		switch {
		case err != nil && (!errors.Is(err, ErrOther) || got.Len() > 0):
			t.Fatalf("%s: %v after %q", text, err, got.String())
		case err != nil:
			left++
		case wantErr != nil:
			t.Errorf("%s\n prints %q, which is an error: %v", text, got.String(), wantErr)
		case got.String() != want.String():
			t.Errorf("%s\n prints %q\n want   %q", text, got.String(), want.String())
		default:
			ran++
		}
	}
	t.Logf("%d printed alike, %d left to html/template", ran, left)
	if ran < 1_500 {
		t.Errorf("no more than %d ran", ran)
	}
}

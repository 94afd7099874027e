// Package stencil runs templates of html/template faster than html/template
// does: what that package works out again at every action of every page (which
// field or method a name means, how a function wants its arguments, how a value
// is escaped where it stands) is worked out once for each type that comes by.
//
// html/template stays the judge. A stencil is cut from trees that it has parsed
// and escaped; texts are escaped here where that is plain, all else by it; and a
// template that uses more than is known here, or a run that comes upon anything
// unusual, is left to it as a whole. So errors are its errors, word for word.
package stencil

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"reflect"
	"sync"
)

// Stencil runs one template and those that it calls. It may be used from
// several goroutines at once.
type Stencil struct{ root *sheet }

// ErrOther says that a template or a run needs html/template itself.
var ErrOther = errors.New("html/template has to run this one")

// Cut makes a stencil of the template with a name, which html/template escapes
// now unless it has been executed before. What the functions named pure give for
// values written in the template is worked out now, once and for all. The error
// wraps ErrOther where the template uses what is not known here.
func Cut(t *template.Template, name string, funcs template.FuncMap, pure ...string) (s *Stencil, err error) {
	defer func() {
		if problem := recover(); problem != nil {
			err = other(problem)
		}
	}()
	_ = t.ExecuteTemplate(io.Discard, name, nil) // which escapes all that it calls, and then may fail for want of data
	c := &cutter{set: t, funcs: funcs, pure: pure, sheets: map[string]*sheet{}}
	return &Stencil{root: c.sheet(name)}, nil
}

// Run prints the template with its data. The error wraps ErrOther where
// html/template has to do it over, be it to say what is wrong; out then holds
// what it held.
func (s *Stencil) Run(out *bytes.Buffer, data any) (err error) {
	length := out.Len()
	r := runs.Get().(*run)
	r.out = out
	defer func() {
		if problem := recover(); problem != nil {
			out.Truncate(length)
			err = other(problem)
		}
		clear(r.vars)
		r.out, r.vars, r.base, r.depth = nil, r.vars[:0], 0, 0
		runs.Put(r)
	}()
	s.root.run(r, reflect.ValueOf(data))
	return nil
}

// refuse is what the code here panics with: what is not known, and where it stood.
func refuse(what, text string) error { return fmt.Errorf("%w: %s %s", ErrOther, what, text) }

// other turns a panic into an error. One of a method is html/template's to tell
// too: it names the place.
func other(problem any) error {
	if err, ok := problem.(error); ok && errors.Is(err, ErrOther) {
		return err
	}
	return fmt.Errorf("%w: %v", ErrOther, problem)
}

// sheet is one template of a set.
type sheet struct {
	body step
	vars int // places for variables; the first is $
}

// run is one printing.
type run struct {
	out   *bytes.Buffer
	vars  []reflect.Value // of all templates that are being run, the innermost last
	base  int             // where those of the innermost begin
	depth int
}

var runs = sync.Pool{New: func() any { return new(run) }}

// mostDepth bounds templates that call one another; html/template says what is
// wrong with those that go deeper.
const mostDepth = 1000

func (s *sheet) run(r *run, dot reflect.Value) {
	if r.depth++; r.depth > mostDepth {
		panic(refuse("too deep", ""))
	}
	base := r.base
	r.base = len(r.vars)
	for range s.vars {
		r.vars = append(r.vars, reflect.Value{})
	}
	r.vars[r.base] = dot
	s.body(r, dot)
	clear(r.vars[r.base:])
	r.vars, r.base = r.vars[:r.base], base
	r.depth--
}

package gen_test

import (
	"context"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/journal"
	"spruelight/gen/source"
)

// valuesOf collects where every single value of what was read stands.
func valuesOf(v reflect.Value, places *[]source.Span) {
	if v.CanAddr() {
		if slot, ok := v.Addr().Interface().(interface {
			Slot() (any, *source.Span, *bool)
		}); ok {
			if _, at, set := slot.Slot(); *set && at.Known() && at.End > at.Start {
				*places = append(*places, *at)
			}
			return
		}
		if _, span := v.Addr().Interface().(*source.Span); span {
			return
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				valuesOf(v.Field(i), places)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			valuesOf(v.Index(i), places)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			valuesOf(v.Elem(), places)
		}
	}
}

// alone is a workshop with one of the example's builds.
func alone(t *testing.T, slug string) fstest.MapFS {
	t.Helper()
	shop := loadExample(t)
	for name := range shop {
		if rest, ok := strings.CutPrefix(name, "builds/"); ok && !strings.HasPrefix(rest, slug+"/") || strings.HasPrefix(name, "wall/") {
			delete(shop, name)
		}
	}
	settings := string(shop["workshop.yaml"].Data)
	shop["workshop.yaml"] = &fstest.MapFile{Data: []byte(strings.Replace(settings, "line-up: [marram, harbour-crane]\n", "", 1))}
	return shop
}

// Whatever single value of a build, its sittings or its stock cannot be read, or
// names nothing, the only news is what stops: nothing is said that rests on it.
func TestNothingFollowsFromAnUnreadValue(t *testing.T) {
	assembled(t) // opens the shared cache of photos
	step := 9
	if os.Getenv("SPRUELIGHT_LONG") != "" || os.Getenv("SPRUELIGHT_TOOLS") == "required" {
		step = 1
	}
	tried, stopped := 0, 0
	for _, slug := range []string{"marram", "cairnhead"} {
		shop := alone(t, slug)
		read, found := journal.Open(shop)
		var places []source.Span
		for _, b := range read.Builds {
			found.Add(read.ReadBuild(shop, b)...)
			valuesOf(reflect.ValueOf(&b.Front).Elem(), &places)
			for _, s := range b.Sittings {
				valuesOf(reflect.ValueOf(&s.Front).Elem(), &places)
			}
		}
		valuesOf(reflect.ValueOf(&read.Rack).Elem(), &places)
		if found.Stops() {
			t.Fatal(onlyStops(found))
		}
		said := func(shop fstest.MapFS) (source.Findings, []string) {
			res, err := gen.Check(context.Background(), (&filled{}).env(t, shop))
			if err != nil {
				t.Fatal(err)
			}
			var out []string
			for _, f := range res.Findings {
				if f.Severity() != source.Stop && f.Rule.Name != "photo-missing" {
					out = append(out, fmt.Sprintf("%s %s: %s", f.At.Name(), f.Rule.Name, f.Says))
				}
			}
			return res.Findings, out
		}
		_, usual := said(shop)
		for i := 0; i < len(places); i += step {
			at := places[i]
			text := at.File.Text
			broken := fstest.MapFS{}
			for name, file := range shop {
				broken[name] = file
			}
			broken[at.Name()] = &fstest.MapFile{Data: []byte(text[:at.Start] + `"§ 7"` + text[at.End:])}
			found, now := said(broken)
			tried++
			if !found.Stops() {
				continue // a free text
			}
			stopped++
			for _, line := range now {
				if !slices.Contains(usual, line) {
					t.Errorf("%s:%d: %q unread, and it is said: %s", at.Name(), at.Position().Line, at.Text(), line)
				}
			}
		}
	}
	if stopped < 40 {
		t.Errorf("%d of %d values stopped", stopped, tried)
	}
}

// Findings are printed by file and line, what all builds share before the builds
// and a build before its sittings; in a line what stops comes first.
func TestCausesComeFirst(t *testing.T) {
	files := []string{"workshop.yaml", "rack/lamps.yaml", "rack/paints.yaml", "shelf.yaml", "builds/a/build.md", "builds/a/2026-01-01.md",
		"builds/a/review.md", "builds/b/build.md", "builds/b/2025-01-01.md", "wall/about.md", "looks/page.html"}
	warn := &source.Rule{Name: "a-warn", Severity: source.Warn}
	stop := &source.Rule{Name: "z-stop", Severity: source.Stop}
	var found source.Findings
	for i := range files {
		file := source.NewFile(files[len(files)-1-i], "one two\nthree\n")
		found.Add(warn.At(file.At(8, 5), "", "second line"), warn.At(file.At(0, 3), "", "first word"), stop.At(file.At(4, 3), "", "second word"))
	}
	found.Sort()
	for i, f := range found {
		if want := []string{"second word", "first word", "second line"}[i%3]; f.At.Name() != files[i/3] || f.Says.String() != want {
			t.Errorf("%d: %s in %s, want %s in %s", i, f.Says, f.At.Name(), want, files[i/3])
		}
	}
}

package journal

import (
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/source"
)

func openScale(files map[string]string) (*Workshop, source.Findings) {
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	w, found := Open(fsys)
	for _, b := range w.Builds {
		found.Add(w.ReadBuild(fsys, b)...)
	}
	return w, found
}

const anOutline = `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0H9V9Z"/></svg>`

func TestScaleWords(t *testing.T) {
	w, found := openScale(map[string]string{
		"workshop.yaml":      "name: Bench\nline-up: [skiff, crane]\nclearance: 15 mm\ncabinets: [{name: case, width: 800 mm, depth: 36 cm, height: 14 in, holds: 8 kg, shelves: 2}]\n",
		"shelf.yaml":         "crane:\n  name: Harbour crane\n  scale: 1/72\n  measured: {height: 212 mm ± 1 mm}\n  outline: {file: outlines/crane.svg, view: front}\n",
		"outlines/crane.svg": anOutline, "builds/skiff/outline.svg": anOutline,
		"builds/skiff/build.md": "---\nname: Skiff\nstate: bench\nsubject:\n  - {length: 9.4 m, beam: 3.1 m, source: designer's sheet}\n  - {length: 9.6 m, other: {mast: 6.2 m}}\nmeasured: {length: 204 mm ± 0.5 mm, standing figure: 36.5 mm}\ndisplay: {width: 240 mm, weight: 640 g}\n---\n",
	})
	for _, f := range found {
		t.Errorf("%s: %s", f.Rule.Name, f.Says.String())
	}
	b := w.Builds[0]
	if len(b.Front.Subject) != 2 || strings.Join(b.Front.Subject[1].Lengths().Names(), " ") != "length mast" || b.Outline == nil {
		t.Errorf("%+v", b.Front.Subject)
	}
	if w.Shelf[0].Value.OutlineOf == nil || w.Settings.Cabinets[0].Shelves.V != 2 || w.Settings.Cabinets[0].Depth.V != 0.36 {
		t.Errorf("%+v %+v", w.Shelf[0].Value, w.Settings.Cabinets)
	}
}

// A single subject needs no list.
func TestOneSubject(t *testing.T) {
	w, found := openScale(map[string]string{"workshop.yaml": "name: Bench\n", "builds/skiff/build.md": "---\nname: Skiff\nstate: bench\nsubject: {length: 9.4 m}\n---\n"})
	if len(found) > 0 || len(w.Builds[0].Front.Subject) != 1 || w.Builds[0].Front.Subject[0].Length.V.Value != 9.4 {
		t.Errorf("%v %+v", found, w.Builds[0].Front.Subject)
	}
}

func TestScaleMistakes(t *testing.T) {
	const shop, build = "name: Bench\n", "---\nname: Skiff\nstate: bench\n"
	for name, c := range map[string]struct {
		files         map[string]string
		rule, message string
	}{
		"line-up names nothing":     {map[string]string{"workshop.yaml": shop + "line-up: [skif]\n", "builds/skiff/build.md": build + "---\n"}, "unknown-name", `did you mean "skiff"`},
		"one name for two":          {map[string]string{"workshop.yaml": shop, "shelf.yaml": "skiff: {name: Skiff}\n", "builds/skiff/build.md": build + "---\n"}, "key-twice", "skiff is a build already"},
		"no such outline":           {map[string]string{"workshop.yaml": shop, "builds/skiff/build.md": build + "outline: boat.svg\n---\n", "builds/skiff/boot.svg": anOutline}, "photo-missing", "there is no file builds/skiff/boat.svg"},
		"outline elsewhere":         {map[string]string{"workshop.yaml": shop, "builds/skiff/build.md": build + "outline: ../../secret.svg\n---\n"}, "outside-folder", "lies outside"},
		"no such view":              {map[string]string{"workshop.yaml": shop, "builds/skiff/build.md": build + "outline: {file: outline.svg, view: sid}\n---\n", "builds/skiff/outline.svg": anOutline}, "value", `did you mean "side"`},
		"a cabinet without depth":   {map[string]string{"workshop.yaml": shop + "cabinets: [{name: case, width: 1 m, height: 1 m}]\n"}, "missing-key", "has no depth"},
		"a name that is no address": {map[string]string{"workshop.yaml": shop, "shelf.yaml": "Big Crane: {name: Crane}\n"}, "stray-file", "cannot be part of an address"},
	} {
		_, found := openScale(c.files)
		if len(found) != 1 || found[0].Rule.Name != c.rule || !strings.Contains(found[0].Says.String()+found[0].Do.String(), c.message) || !found[0].At.Known() {
			t.Errorf("%s: %+v", name, found)
		}
	}
}

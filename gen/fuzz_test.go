package gen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"image"
	"image/jpeg"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/hostile"
	"spruelight/themes"
)

// smallShop is a workshop that says something about every subject, in few words.
func smallShop() fstest.MapFS {
	var picture bytes.Buffer
	jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 24, 16)), nil)
	shop := fstest.MapFS{"builds/skiff/photos/a.jpg": {Data: picture.Bytes()}}
	for name, text := range map[string]string{
		"workshop.yaml":              "name: The Small Bench\naddress: https://bench.example/\nkeeper: K\nabout: Small things\ncurrency: EUR\ntechniques: {light blocking: [blackout]}\n",
		"rack/lamps.yaml":            "white-3mm: {colour: white, size: 3 mm, forward: [2.75 V @ 2 mA, 3.2 V @ 20 mA], rated: 20 mA, limit: 30 mA}\n",
		"rack/supplies.yaml":         "usb: {kind: usb, volts: 5 V, tolerance: 5 %, limit: 500 mA}\n",
		"rack/paints.yaml":           "grey: {kind: acrylic lacquer, colour: \"#8a9095\", finish: satin, touch dry: 15 min, recoat: 1 h, mask after: 24 h}\nblack: {kind: acrylic lacquer, colour: \"#101010\"}\n",
		"shelf.yaml":                 "tug: {name: Tug, scale: 1/72, subject: {length: 20 m, height: 8 m}}\n",
		"wall/about.md":              "---\ntitle: About\n---\nUs.\n",
		"builds/skiff/build.md":      skiffBuild,
		"builds/skiff/2026-02-14.md": skiffSitting,
		"builds/skiff/review.md":     skiffReview,
	} {
		shop[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return shop
}

const skiffBuild = `---
name: Skiff
state: shelf
scale: 1/48
kit: {maker: Halden Model Works, title: Skiff, number: HM-1, parts: 20, price: 9 EUR, obtained: bought}
subject: {length: 9.4 m, height: 3 m, source: sheet}
measured: {length: 204 mm ± 0.5 mm, height: 60 mm}
lead: photos/a.jpg
areas:
  hull inside: {material: styrene, encloses: [D1]}
  hull outside: {material: styrene}
circuits:
  - name: main
    supply: usb
    switch: slide switch
    entry: the keel
    feed: {wire: 28 AWG, length: 350 mm}
    branches:
      - {name: fore, lamps: [{lamp: white-3mm, at: bow}], current: 10 mA, resistor: auto, lead: {wire: 34 AWG, length: 180 mm}}
paint:
  hull inside: [{coat: black, for: light blocking}]
  hull outside: [{coat: grey, for: base}]
parts: [{part: C14, have: 5, need: 4}]
choices: [{question: jib, options: [stowed, swung out], chosen: swung out, why: light}]
---
What it is. See [the day](2026-02-14.md) and ![a lamp](photos/a.jpg).
`

const skiffSitting = `---
hours: 3 h 20 min
stage: lighting
photos: [{file: photos/a.jpg, alt: a lamp, caption: The lamp, credit: a guest, marks: [{at: 42 % 31 %, says: here}]}]
coats: [{area: hull inside, coat: black, at: "19:30"}]
readings: [{at: fore, current: 9.6 mA}]
lit: [D1]
leaks: [{where: seam, action: sealed}]
closed: [hull inside]
parts: [{part: C14, event: spare used, count: 1}]
spent: [{on: wire, price: 6.50 EUR}]
techniques: [light blocking]
next: close it
video: {address: "https://video.example/w/7", length: "14:32", chapters: {"0:00": start, "2:40": black}}
---
## Fore

Lit *well*. See [about](../../wall/about.md), [out](https://other.example/).
`

const skiffReview = `---
title: The skiff
date: 2026-02-20
verdict: Good.
buy it if: [you like skiffs]
marks: {fit: {mark: 8, why: It fits.}}
---
It was fun.
`

// TestSmallShopIsClean: the fuzz targets below start from a site, not from a
// list of findings.
func TestSmallShopIsClean(t *testing.T) {
	res := assembleShop(t, smallShop(), photo.MemoryCache())
	for _, f := range res.Findings {
		if f.Severity() == source.Stop {
			t.Errorf("%s:%v %s; %s", f.At.Name(), f.At.Position(), f.Says.String(), f.Do.String())
		}
	}
	if len(res.Files) < 20 {
		t.Errorf("%d files", len(res.Files))
	}
	checkSite(t, res.Files)
}

func assembleShop(t testing.TB, shop fstest.MapFS, cache *photo.Cache) *gen.Gathered {
	t.Helper()
	res, err := gen.Gather(context.Background(), gen.Env{Content: shop, Themes: themes.FS, Moment: moment, Workers: 1, Photos: cache, Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range res.Findings {
		var out strings.Builder
		source.Style{}.Print(&out, f)
		if strings.ContainsAny(out.String(), "\x00\x07\x1b\r\u009b\u202e\u2066") {
			t.Errorf("%q reaches the terminal", out.String())
		}
	}
	return res
}

// checkSite holds a finished site against everything that could run in it:
// pages, the HTML inside the feeds, drawings, structured data, search files.
func checkSite(t testing.TB, files []output.File) {
	t.Helper()
	for _, f := range files {
		for _, fault := range runsInFile(f.Path, f.Bytes) {
			t.Errorf("%s: %s", f.Path, fault)
		}
	}
}

func runsInFile(name string, text []byte) []string {
	switch path.Ext(name) {
	case ".html":
		list := hostile.Runs(text)
		for _, block := range bytes.Split(text, []byte(`<script type="application/ld+json">`))[1:] {
			data, _, _ := bytes.Cut(block, []byte("</script>"))
			if !json.Valid(data) {
				list = append(list, "structured data is no JSON: "+string(data))
			}
		}
		return list
	case ".svg":
		if fault := hostile.NotXML(text); fault != "" {
			return []string{fault}
		}
		return hostile.Runs(text)
	case ".xml":
		return runsInFeed(text)
	case ".json":
		return runsInJSONFeed(text)
	case ".js":
		return runsInIndex(name, text)
	}
	return nil
}

func runsInFeed(text []byte) (list []string) {
	var feed struct {
		Entry []struct {
			Content string `xml:"content"`
		} `xml:"entry"`
	}
	if err := xml.Unmarshal(text, &feed); err != nil {
		return []string{err.Error()}
	}
	for _, e := range feed.Entry {
		list = append(list, hostile.Runs([]byte(e.Content))...)
	}
	return list
}

func runsInJSONFeed(text []byte) (list []string) {
	var feed struct {
		Items []struct {
			HTML string `json:"content_html"`
		} `json:"items"`
	}
	if err := json.Unmarshal(text, &feed); err != nil {
		return []string{err.Error()}
	}
	for _, e := range feed.Items {
		list = append(list, hostile.Runs([]byte(e.HTML))...)
	}
	return list
}

// runsInIndex holds a search file to its form: one call of one function with
// JSON, so that nothing in it is code.
func runsInIndex(name string, text []byte) []string {
	if path.Dir(name) != "search" {
		return nil // the theme's own script
	}
	call, arguments, _ := strings.Cut(string(text), "(")
	arguments, closed := strings.CutSuffix(strings.TrimSpace(arguments), ");")
	switch {
	case call != "searchPages" && call != "searchWords" || !closed:
		return []string{"not the call of one function"}
	case !json.Valid([]byte("[" + arguments + "]")):
		return []string{"arguments that are no JSON"}
	case strings.ContainsAny(arguments, "\u2028\u2029"):
		return []string{"a line separator, which old browsers take for the end of a line"}
	}
	return nil
}

// FuzzWorkshop: whole journals of any content give findings, or a site in
// which nothing runs.
func FuzzWorkshop(f *testing.F) {
	settings, lamps := smallShop()["workshop.yaml"].Data, smallShop()["rack/lamps.yaml"].Data
	f.Add(string(settings), string(lamps), skiffBuild, skiffSitting, skiffReview)
	f.Add(string(settings), string(lamps), "---\nname: x\nscale: 1/48\nstate: bench\n---\n", "---\nstage: lighting\n---\n", "---\ntitle: x\n---\n")
	f.Add("name: x\n", "", "---\nname: <script>\n---\n[x](javascript:ran())", "---\n---\n<script>ran()</script>", "")
	f.Add("", "a: {}\n", "---\n", "", "---\nmarks: {fit: 9}\n---\n")
	cache := photo.MemoryCache()
	f.Fuzz(func(t *testing.T, settings, lamps, build, sitting, review string) {
		shop := smallShop()
		for name, text := range map[string]string{"workshop.yaml": settings, "rack/lamps.yaml": lamps, "builds/skiff/build.md": build, "builds/skiff/2026-02-14.md": sitting, "builds/skiff/review.md": review} {
			shop[name] = &fstest.MapFile{Data: []byte(text)}
		}
		res := assembleShop(t, shop, cache)
		if res.Files == nil && len(res.Findings) == 0 {
			t.Error("no site, and nothing says why")
		}
		checkSite(t, res.Files)
	})
}

// FuzzWords: one text in the place of every word that a journal chooses freely
// gives findings, or a site in which nothing runs.
func FuzzWords(f *testing.F) {
	for i, s := range hostile.Strings() { // the browser test takes all
		if i%12 == 0 {
			f.Add(s)
		}
	}
	cache := photo.MemoryCache()
	words := []string{"The Small Bench", "Small things", "Skiff", "Halden Model Works", "HM-1", "slide switch", "the keel", "main", "fore", "bow", "C14", "jib", "stowed", "a lamp", "The lamp", "a guest", "here", "seam", "close it", "start", "The skiff", "Good.", "you like skiffs", "It fits.", "About", "Tug", "wire,"}
	f.Fuzz(func(t *testing.T, text string) {
		quoted, err := json.Marshal(text)
		if err != nil {
			t.Fatal(err)
		}
		shop := smallShop()
		for name, file := range shop {
			if path.Ext(name) == ".jpg" {
				continue
			}
			front := string(file.Data)
			for _, w := range words {
				for _, lead := range []string{": ", "[", ", "} {
					for _, end := range []string{"\n", "}", "]", ","} {
						front = strings.ReplaceAll(front, lead+strings.TrimSuffix(w, ",")+end, lead+string(quoted)+end)
					}
				}
			}
			shop[name] = &fstest.MapFile{Data: []byte(front)}
		}
		checkSite(t, assembleShop(t, shop, cache).Files)
	})
}

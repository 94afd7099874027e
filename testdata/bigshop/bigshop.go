// Package bigshop writes synthetic workshops of any size, for measuring. The
// same numbers give the same files.
package bigshop

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// Size says how large a workshop is.
type Size struct {
	Builds   int
	Sittings int  // of each build
	Photos   int  // of each sitting
	Alike    bool // the photos repeat after sixty, so that little goes into making them
}

// Write writes a workshop into a folder, which is made where it is missing.
func Write(dir string, size Size) error {
	r := rand.New(rand.NewPCG(48, 72))
	files := map[string]string{"workshop.yaml": workshop, "rack/lamps.yaml": lamps, "rack/supplies.yaml": supplies, "rack/paints.yaml": paints,
		"wall/about.md": "---\ntitle: About\n---\nA workshop made for measuring.\n"}
	for i := range size.Builds {
		build(files, r, size, i)
	}
	for name, text := range files {
		full := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// Slug is the name of a build's folder.
func Slug(i int) string { return fmt.Sprintf("build-%04d", i) }

// First is the day of a build's first sitting.
func First(i int) time.Time { return time.Date(2015, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i%3000) }

const workshop = "name: The Measured Bench\ncurrency: EUR\naddress: https://bench.example/\n"

const lamps = `white-3mm: {colour: white, size: 3 mm, forward: [2.75 V @ 2 mA, 3.0 V @ 10 mA], spread: 0.2 V, rated: 20 mA, limit: 30 mA, reverse: 5 V, intensity: 1200 mcd @ 20 mA}
amber-3mm: {colour: amber, size: 3 mm, forward: [1.9 V @ 2 mA, 2.1 V @ 20 mA], spread: 0.1 V, rated: 20 mA, limit: 30 mA, reverse: 5 V}
`
const supplies = "usb-5v: {kind: usb, volts: 5 V, tolerance: 5 %, limit: 500 mA}\nblock-9v: {kind: battery, cells: 6LR61, volts: 9 V, fresh: 9.5 V, inside: 1.7 ohm, capacity: 500 mAh, ends: 6 V}\n"

const paints = `primer: {kind: lacquer, colour: "#8d8f90", finish: matt, touch dry: 10 min, recoat: 30 min, mask after: 12 h}
grey: {kind: acrylic lacquer, colour: "#8a9095", finish: satin, touch dry: 15 min, recoat: 1 h, mask after: 24 h}
black: {kind: waterborne acrylic, colour: "#101214", finish: matt, touch dry: 20 min, recoat: 1 h, mask after: 24 h}
`

var stages = []string{"assembly", "lighting", "masking", "painting", "weathering", "decals", "finishing"}

func build(files map[string]string, r *rand.Rand, size Size, i int) {
	dir := "builds/" + Slug(i) + "/"
	state := "shelf"
	if i%5 == 0 {
		state = "bench"
	}
	var branches strings.Builder
	for b := range 2 + r.IntN(4) {
		lamp := []string{"white-3mm", "amber-3mm"}[r.IntN(2)]
		fmt.Fprintf(&branches, "      - {name: branch %d, lamps: [{lamp: %s, at: place %d}], current: %d mA, resistor: auto, lead: {wire: 34 AWG, length: %d mm}}\n", b+1, lamp, b+1, 2+r.IntN(4), 80+r.IntN(200))
	}
	files[dir+"build.md"] = fmt.Sprintf(`---
name: Build number %d
kit: {maker: Halden Model Works, title: Kit %d, parts: %d, price: %d EUR, obtained: bought}
scale: 1/%d
state: %s
areas:
  hull: {material: styrene, encloses: [D1, D2]}
circuits:
  - name: main
    supply: usb-5v
    feed: {wire: 28 AWG, length: 300 mm}
    branches:
%spaint:
  hull: [{coat: primer, for: primer}, {coat: grey, for: base}]
techniques: [light blocking]
---
%s
`, i, i, 60+r.IntN(300), 20+r.IntN(120), []int{24, 32, 35, 48, 72}[r.IntN(5)], state, branches.String(), prose(r, 3))
	for s := range size.Sittings {
		day := First(i).AddDate(0, 0, s*7)
		var photos []string
		for p := range size.Photos {
			name := fmt.Sprintf("photos/p%02d-%d.jpg", s, p)
			picture := pictures[(i*7+s*3+p)%len(pictures)]()
			if !size.Alike {
				picture = numbered(picture, (i*size.Sittings+s)*size.Photos+p)
			}
			files[dir+name] = picture
			photos = append(photos, fmt.Sprintf("{file: %s, alt: a picture of the work, caption: Step %d}", name, s+1))
		}
		front := fmt.Sprintf("---\ntitle: Sitting %d\nhours: %d min\nstage: %s\n", s+1, 45+5*r.IntN(40), stages[s%len(stages)])
		if len(photos) > 0 {
			front += "photos: [" + strings.Join(photos, ", ") + "]\n"
		}
		if s == 1 {
			front += "lit: [D1, D2]\nreadings: [{at: branch 1, current: 3.1 mA}]\n"
		}
		if s == 3 {
			front += "coats: [{area: hull, coat: primer, at: \"10:00\"}, {area: hull, coat: grey, at: \"14:00\"}]\n"
		}
		files[dir+day.Format(time.DateOnly)+".md"] = front + "---\n" + prose(r, 5) + "\n"
	}
}

var words = strings.Fields("the hull was held against the light and the seam closed with a thread of filler before the second coat went on slowly so that nothing ran while the lamp inside showed every thin place once more")

// prose writes paragraphs with a heading, emphasis and a list, as a journal has.
func prose(r *rand.Rand, paragraphs int) string {
	var b strings.Builder
	for p := range paragraphs {
		if p == 1 {
			b.WriteString("## What was done\n\n")
		}
		if p == 2 {
			b.WriteString("- one thing\n- **another** thing\n\n")
		}
		for range 40 + r.IntN(40) {
			b.WriteString(words[r.IntN(len(words))] + " ")
		}
		b.WriteString("\n\n")
	}
	return b.String()
}

// numbered puts a number into a JPEG file as a comment (ITU-T T.81, B.2.4.5), so
// that no two files are the same and each has to be worked on.
func numbered(picture string, number int) string {
	text := fmt.Sprintf("picture %08d", number)
	return picture[:2] + "\xff\xfe" + string([]byte{0, byte(len(text) + 2)}) + text + picture[2:]
}

// pictures are small pictures, each made when it is first asked for.
var pictures = func() (all [60]func() string) {
	for i := range all {
		all[i] = sync.OnceValue(func() string { return photo(i) })
	}
	return all
}()

// photo makes a small picture whose content differs with every number.
func photo(number int) string {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			img.Set(x, y, color.RGBA{uint8(x/2 + number), uint8(y + number/7), uint8(number * 4), 255})
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 80}); err != nil {
		panic(err) // memory does not fail
	}
	return out.String()
}

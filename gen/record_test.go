package gen

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"image"
	"image/jpeg"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/themes"
)

// bench is a workshop in memory, at a moment of its own clock.
func bench(t *testing.T, at string, files map[string]string) Env {
	t.Helper()
	content := fstest.MapFS{"workshop.yaml": {Data: []byte("name: Bench\ntime zone: Europe/Berlin\n")}}
	for name, text := range files {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	moment, err := time.Parse("2006-01-02 15:04", at)
	if err != nil {
		t.Fatal(err)
	}
	return Env{Content: content, Themes: themes.FS, Moment: moment, Wall: true, Photos: photo.MemoryCache(), Workers: 2}
}

// snap makes a small JPEG whose EXIF says when it was taken (CIPA DC-008: IFD0
// with orientation 6 and a pointer to the EXIF IFD with DateTimeOriginal).
func snap(t *testing.T, taken string) []byte {
	t.Helper()
	var picture bytes.Buffer
	if err := jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 16, 8)), nil); err != nil {
		t.Fatal(err)
	}
	if taken == "" {
		return picture.Bytes()
	}
	le := binary.LittleEndian
	entry := func(tag, kind uint16, count, value uint32) []byte {
		return le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(nil, tag), kind), count), value)
	}
	tiff := append([]byte("II*\x00\x08\x00\x00\x00"), 2, 0)
	tiff = append(tiff, entry(0x0112, 3, 1, 6)...)
	tiff = append(tiff, entry(0x8769, 4, 1, 38)...)
	tiff = append(tiff, 0, 0, 0, 0, 1, 0)
	tiff = append(tiff, entry(0x9003, 2, 20, 56)...)
	tiff = append(tiff, 0, 0, 0, 0)
	tiff = append(tiff, taken+"\x00"...)
	block := append([]byte("Exif\x00\x00"), tiff...)
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1}, byte((len(block)+2)>>8), byte(len(block)+2))
	return append(append(head, block...), picture.Bytes()[2:]...)
}

func TestSitTakesThePhotosSinceTheLastSitting(t *testing.T) {
	known := snap(t, "2026:02-14 09:00:00")
	camera := fstest.MapFS{
		"IMG_0001.JPG": {Data: snap(t, "2026:02:10 23:59:00")}, // the last sitting's own day
		"IMG_0002.JPG": {Data: snap(t, "2026:02:12 18:00:00")},
		"IMG_0003.JPG": {Data: snap(t, "2026:02:14 20:00:00")},
		"IMG_0004.JPG": {Data: snap(t, "2026:02:14 19:00:00")},
		"IMG_0005.JPG": {Data: snap(t, "2026:02:15 00:10:00")}, // tomorrow: the camera's clock is wrong
		"IMG_0006.JPG": {Data: snap(t, "")},
		"clip.mp4":     {Data: []byte("a film")},
		".trash.jpg":   {Data: known},
	}
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md":            "---\nname: Skiff\nstate: bench\n---\n",
		"builds/skiff/2026-02-10.md":       "---\nstage: lighting\n---\n",
		"builds/skiff/photos/IMG_0002.JPG": "another picture of that name",
		"builds/skiff/photos/IMG_0003.JPG": string(camera["IMG_0003.JPG"].Data),
	})
	d, err := Sit(context.Background(), env, "skiff", SitOptions{Photos: camera})
	if err != nil {
		t.Fatal(err)
	}
	want := []Copy{{"IMG_0002.JPG", "builds/skiff/photos/IMG_0002-2.JPG"}, {"IMG_0004.JPG", "builds/skiff/photos/IMG_0004.JPG"}}
	if fmt.Sprint(d.Copies) != fmt.Sprint(want) {
		t.Errorf("copies %v, want %v", d.Copies, want)
	}
	left := strings.Join(d.Left, "; ")
	for _, part := range []string{"IMG_0003.JPG: it is in the build already", "IMG_0005.JPG: it says that it was taken on 2026-02-15, after today", "IMG_0006.JPG: it does not say when it was taken"} {
		if !strings.Contains(left, part) {
			t.Errorf("left out %q, want %q in it", left, part)
		}
	}
	if strings.Contains(left, "IMG_0001") || strings.Contains(left, "clip") {
		t.Errorf("left out %q: what belongs to an earlier sitting, or is no photo, needs no word", left)
	}
	if d.Name != "builds/skiff/2026-02-14.md" || !strings.Contains(d.Text, "stage: lighting # or assembly") || !strings.Contains(d.Text, "\nphotos: #") {
		t.Errorf("%s:\n%s", d.Name, d.Text)
	}
	files := env.Content.(fstest.MapFS)
	files[d.Name] = &fstest.MapFile{Data: []byte(d.Text)}
	for _, c := range d.Copies {
		files[c.To] = camera[c.From]
	}
	if found := check(t, env); found.Stops() {
		t.Errorf("the new sitting does not dryfit: %v", found)
	}
}

func check(t *testing.T, env Env) source.Findings {
	t.Helper()
	res, err := Check(context.Background(), env)
	if err != nil {
		t.Fatal(err)
	}
	return res.Findings
}

func TestSittingTextQuotesOddNames(t *testing.T) {
	name := `what "is" \ this: #1 [a], é.jpg`
	text := sittingText("painting", nil, []Copy{{"x", "builds/skiff/photos/" + name}}, "builds/skiff")
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md": "---\nname: Skiff\nstate: bench\n---\n", "builds/skiff/2026-02-14.md": text})
	res, _ := Check(context.Background(), env)
	for _, f := range res.Findings {
		if f.Rule.Name != "photo-missing" && f.Rule.Name != "alt-missing" && f.Rule.Name != "outside-folder" {
			t.Errorf("%s: %s", f.Rule.Name, f.Says.String())
		}
	}
}

// commented finds the keys that a template holds behind a #.
var commented = regexp.MustCompile(`(?m)^(\s*)# ([a-z -]+:|  |\{|- )`)

// Every line that unbox and sit offer behind a # is read without a stop once
// the # is gone: a template can never fall behind the words it teaches.
func TestTemplatesAreReadWithEveryKeyUsed(t *testing.T) {
	files, err := UnboxWorkshop("survey-skiff", NewShop{})
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	keys := 0
	for _, f := range files {
		texts[f.Name] = commented.ReplaceAllStringFunc(f.Text, func(line string) string {
			keys++
			return strings.Replace(line, "# ", "", 1)
		})
	}
	texts["builds/survey-skiff/2026-02-15.md"] = commented.ReplaceAllStringFunc(sittingText("painting", []string{"painting", "lighting"}, nil, ""), func(line string) string {
		return strings.Replace(line, "# ", "", 1)
	})
	shop := bench(t, "2026-02-14 21:00", map[string]string{"builds/survey-skiff/build.md": texts["builds/survey-skiff/build.md"]})
	review, err := UnboxReview(shop.Content, "survey-skiff", shop.Moment)
	if err != nil {
		t.Fatal(err)
	}
	texts[review[0].Name] = commented.ReplaceAllStringFunc(review[0].Text, func(line string) string { return strings.Replace(line, "# ", "", 1) })
	texts["builds/survey-skiff/photos/first-light.jpg"] = string(snap(t, "2026:02:14 20:00:00"))
	if keys < 30 {
		t.Fatalf("only %d lines were found behind a #", keys)
	}
	for _, f := range check(t, bench(t, "2026-02-14 21:00", texts)) {
		// Names that only a fuller build would have are no fault of the template.
		if f.Severity() == source.Stop && f.Rule.Name != "unknown-name" {
			t.Errorf("%s %s: %s", f.At.Name(), f.Rule.Name, f.Says.String())
		}
	}
}

func TestUnboxRefusesBadNames(t *testing.T) {
	for _, slug := range []string{"", "Survey Skiff", "../x", "wall", "a/b", "-a", strings.Repeat("a", 65)} {
		if _, err := UnboxBuild(nil, slug); err == nil {
			t.Errorf("%q was taken for a name", slug)
		}
	}
	if got := nameOf("survey-skiff"); got != "Survey skiff" {
		t.Errorf("got %q", got)
	}
}

// Photos of an embargoed sitting are not made at all, unless a free text shows
// them too.
func TestEmbargoedPhotosStayOut(t *testing.T) {
	env := bench(t, "2026-02-20 12:00", map[string]string{
		"builds/skiff/build.md":          "---\nname: Skiff\nstate: bench\nlead: photos/secret.jpg\nchoices: [{question: jib, options: [{name: up, photo: photos/secret.jpg, alt: up}, down]}]\n---\n",
		"builds/skiff/2026-02-10.md":     "---\nstage: lighting\nphotos: [{file: photos/both.jpg, alt: both}]\n---\n",
		"builds/skiff/2026-02-14.md":     "---\nstage: lighting\nembargo: 2026-03-01 09:00\nphotos: [{file: photos/secret.jpg, alt: secret}, {file: photos/both.jpg, alt: both}]\n---\n",
		"builds/skiff/photos/secret.jpg": string(snap(t, "2026:02:14 20:00:00")),
		"builds/skiff/photos/both.jpg":   string(snap(t, "2026:02:10 20:00:00")),
	})
	names := func(env Env) string {
		res, err := Gather(context.Background(), env)
		if err != nil || res.Files == nil {
			t.Fatalf("%v %v", err, res.Findings)
		}
		var b strings.Builder
		for _, f := range res.Files {
			b.WriteString(f.Path + "\n")
			b.Write(f.Bytes)
		}
		return b.String()
	}
	if got := names(env); strings.Contains(got, "secret") || !strings.Contains(got, "skiff/photos/both-") {
		t.Error("the embargoed photo is in the site, or the free one is not")
	}
	env.Moment = env.Moment.AddDate(0, 1, 0)
	if got := names(env); !strings.Contains(got, "skiff/photos/secret-") {
		t.Error("after the embargo the photo is still missing")
	}
}

package guide_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen"
	"spruelight/gen/guide"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/camera"
	"spruelight/themes"
)

// bench is a workshop in memory, at a moment of its own clock.
func bench(t *testing.T, at string, files map[string]string) gen.Env {
	t.Helper()
	content := fstest.MapFS{"workshop.yaml": {Data: []byte("name: Bench\ntime zone: Europe/Berlin\n")}}
	for name, text := range files {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	moment, err := time.Parse("2006-01-02 15:04", at)
	if err != nil {
		t.Fatal(err)
	}
	return gen.Env{Content: content, Themes: themes.FS, Moment: moment, Wall: true, Photos: photo.MemoryCache(), Workers: 2}
}

func TestSitTakesThePhotosSinceTheLastSitting(t *testing.T) {
	known := camera.Snap(t, "2026:02-14 09:00:00")
	taken := fstest.MapFS{
		"IMG_0001.JPG": {Data: camera.Snap(t, "2026:02:10 23:59:00")}, // the last sitting's own day
		"IMG_0002.JPG": {Data: camera.Snap(t, "2026:02:12 18:00:00")},
		"IMG_0003.JPG": {Data: camera.Snap(t, "2026:02:14 20:00:00")},
		"IMG_0004.JPG": {Data: camera.Snap(t, "2026:02:14 19:00:00")},
		"IMG_0005.JPG": {Data: camera.Snap(t, "2026:02:15 00:10:00")}, // tomorrow: the camera's clock is wrong
		"IMG_0006.JPG": {Data: camera.Snap(t, "")},
		"clip.mp4":     {Data: []byte("a film")},
		".trash.jpg":   {Data: known},
	}
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md":            "---\nname: Skiff\nstate: bench\n---\n",
		"builds/skiff/2026-02-10.md":       "---\nstage: lighting\nphotos: [{file: photos/IMG_0003.JPG, alt: x}]\n---\n",
		"builds/skiff/photos/IMG_0002.JPG": "another picture of that name",
		"builds/skiff/photos/IMG_0003.JPG": string(taken["IMG_0003.JPG"].Data),
	})
	d, err := guide.Sit(context.Background(), env.Content, "skiff", guide.SitOptions{Photos: taken, Moment: env.Moment, Wall: env.Wall})
	if err != nil {
		t.Fatal(err)
	}
	want := []guide.Copy{{"IMG_0002.JPG", "builds/skiff/photos/IMG_0002-2.JPG"}, {"IMG_0004.JPG", "builds/skiff/photos/IMG_0004.JPG"}}
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
		files[c.To] = taken[c.From]
	}
	if found := check(t, env); found.Stops() {
		t.Errorf("the new sitting does not dryfit: %v", found)
	}
}

// A photo that lies in the build and is in none of its texts, since the run
// that copied it was cut off before it wrote the sitting, is taken up: also one
// that the camera no longer has. What a text shows, or is older, is not.
func TestSitTakesUpWhatARunLeft(t *testing.T) {
	snap := func(at string) string { return string(camera.Snap(t, at)) }
	left := snap("2026:02:14 18:00:00")
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md":         "---\nname: Skiff\nstate: bench\n---\n",
		"builds/skiff/2026-02-10.md":    "---\nphotos: [{file: photos/shown.jpg, alt: x}]\n---\n",
		"builds/skiff/photos/left.jpg":  left,
		"builds/skiff/photos/gone.jpg":  snap("2026:02:14 20:00:00"),
		"builds/skiff/photos/shown.jpg": snap("2026:02:14 19:30:00"),
		"builds/skiff/photos/old.jpg":   snap("2026:02:01 19:30:00"),
	})
	taken := fstest.MapFS{"left.jpg": {Data: []byte(left)}, "new.jpg": {Data: []byte(snap("2026:02:14 19:00:00"))}}
	d, err := guide.Sit(context.Background(), env.Content, "skiff", guide.SitOptions{Photos: taken, Moment: env.Moment, Wall: env.Wall})
	if err != nil {
		t.Fatal(err)
	}
	const photos = "builds/skiff/photos/"
	if want := []string{photos + "left.jpg", photos + "new.jpg", photos + "gone.jpg"}; !slices.Equal(d.Photos, want) || len(d.Copies) != 1 {
		t.Errorf("shows %q, copies %v", d.Photos, d.Copies)
	}
	for _, name := range d.Photos {
		if !strings.Contains(d.Text, "  - file: "+strings.TrimPrefix(name, "builds/skiff/")) {
			t.Errorf("%s is not in the text:\n%s", name, d.Text)
		}
	}
}

// A folder without a build.md is a warning with two ways out, and the other
// builds are read; photos that no text shows are one note.
func TestWhatIsNoBuildStopsNobody(t *testing.T) {
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md":         "---\nname: Skiff\nstate: bench\n---\n[mine](photos/linked.jpg)\n",
		"builds/skiff/photos/a.jpg":     string(camera.Snap(t, "2026:02:14 18:00:00")),
		"builds/skiff/photos/b.jpg":     string(camera.Snap(t, "2026:02:14 18:00:00")),
		"builds/skiff/photos/notes.txt": "x",
		"builds/raft/photos/a.jpg":      string(camera.Snap(t, "2026:02:14 18:00:00")),
	})
	said := map[string]string{}
	res, err := gen.Check(context.Background(), env)
	if err != nil || res.Findings.Stops() {
		t.Fatalf("%v, %v", err, res.Findings)
	}
	for _, f := range res.Findings {
		said[f.Rule.Name] += f.Severity().String() + ": " + f.Says.String() + "; " + f.Do.String()
	}
	if want := "warn: builds/raft holds no build.md and is left out; run spruelight unbox raft, which writes one, or move the folder away"; said["no-build-file"] != want {
		t.Errorf("said %q", said["no-build-file"])
	}
	if want := "note: photos that no text shows: photos/a.jpg, photos/b.jpg; "; !strings.HasPrefix(said["photo-unshown"], want) {
		t.Errorf("said %q", said["photo-unshown"])
	}
	if res.Counts.Builds != 1 {
		t.Errorf("%d builds", res.Counts.Builds)
	}
}

func check(t *testing.T, env gen.Env) source.Findings {
	t.Helper()
	res, err := gen.Check(context.Background(), env)
	if err != nil {
		t.Fatal(err)
	}
	return res.Findings
}

func TestSittingTextQuotesOddNames(t *testing.T) {
	name := `what "is" \ this: #1 [a], é.jpg`
	text := guide.SittingText("painting", nil, []string{"builds/skiff/photos/" + name}, "builds/skiff")
	env := bench(t, "2026-02-14 21:00", map[string]string{
		"builds/skiff/build.md": "---\nname: Skiff\nstate: bench\n---\n", "builds/skiff/2026-02-14.md": text})
	res, _ := gen.Check(context.Background(), env)
	for _, f := range res.Findings {
		if f.Rule.Name != "photo-missing" && f.Rule.Name != "alt-missing" && f.Rule.Name != "outside-folder" {
			t.Errorf("%s: %s", f.Rule.Name, f.Says.String())
		}
	}
}

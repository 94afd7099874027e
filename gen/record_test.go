package gen

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/photo"
	"spruelight/testdata/camera"
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

// Photos of an embargoed sitting are not made at all, unless a free text shows
// them too.
func TestEmbargoedPhotosStayOut(t *testing.T) {
	env := bench(t, "2026-02-20 12:00", map[string]string{
		"builds/skiff/build.md":          "---\nname: Skiff\nstate: bench\nlead: photos/secret.jpg\nchoices: [{question: jib, options: [{name: up, photo: photos/secret.jpg, alt: up}, down]}]\n---\n",
		"builds/skiff/2026-02-10.md":     "---\nstage: lighting\nphotos: [{file: photos/both.jpg, alt: both}]\n---\n",
		"builds/skiff/2026-02-14.md":     "---\nstage: lighting\nembargo: 2026-03-01 09:00\nphotos: [{file: photos/secret.jpg, alt: secret}, {file: photos/both.jpg, alt: both}]\n---\n",
		"builds/skiff/photos/secret.jpg": string(camera.Snap(t, "2026:02:14 20:00:00")),
		"builds/skiff/photos/both.jpg":   string(camera.Snap(t, "2026:02:10 20:00:00")),
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

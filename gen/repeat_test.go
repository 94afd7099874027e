package gen

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"
)

// Until when a site holds, by what is in the workshop.
func TestUntil(t *testing.T) {
	const front = "---\nhours: 1 h\nstage: painting\n"
	now := time.Date(2026, 3, 15, 13, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		files map[string]string
		wall  bool
		want  time.Time
	}{
		"to the end of the day, for paces and forecasts": {want: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)},
		"to the end of the day where the workshop is": {
			files: map[string]string{"workshop.yaml": "name: x\ntime zone: Asia/Tokyo\n"}, want: time.Date(2026, 3, 15, 15, 0, 0, 0, time.UTC)},
		"to the end of an embargo that ends today": {
			files: map[string]string{"builds/a/2026-03-02.md": front + "embargo: 2026-03-15 18:30\n---\nx\n"}, want: time.Date(2026, 3, 15, 18, 30, 0, 0, time.UTC)},
		"an embargo that ends later is for another day": {
			files: map[string]string{"builds/a/2026-03-02.md": front + "embargo: 2026-03-17 18:30\n---\nx\n"}, want: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)},
		"not at all while paint dries": {
			files: map[string]string{"builds/a/2026-03-14.md": front + "coats: [{area: hull, coat: grey, at: \"20:00\"}]\n---\nx\n"}, want: now},
		"not at all on the day of a sitting": {
			files: map[string]string{"builds/a/2026-03-15.md": front + "---\nx\n"}, want: now},
		"for good where the moment is given": {wall: true, want: time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)},
	} {
		files := map[string]string{"workshop.yaml": "name: x\n", "rack/paints.yaml": "grey: {kind: lacquer, touch dry: 10 min, recoat: 1 h, mask after: 48 h}\n",
			"builds/a/build.md": "---\nname: A\nstate: bench\nareas: {hull: {material: styrene}}\npaint: {hull: [{coat: grey, for: base}]}\n---\nx\n", "builds/a/2026-03-01.md": front + "---\nx\n"}
		maps.Copy(files, c.files)
		content := fstest.MapFS{}
		for file, text := range files {
			content[file] = &fstest.MapFile{Data: []byte(text)}
		}
		r := newRun(Env{Content: content, Moment: now, Wall: c.wall})
		r.read(context.Background())
		r.reckon(context.Background())
		if r.found.Stops() {
			t.Fatalf("%s: %v", name, r.found)
		}
		if got := r.until(); !got.Equal(c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// What makes a run more than a repetition of the last one.
func TestRepeat(t *testing.T) {
	ctx := context.Background()
	old := time.Now().Add(-time.Hour)
	at := time.Now()
	for name, change := range map[string]func(dir string, p *Repeat, now *time.Time){
		"":                    func(string, *Repeat, *time.Time) {},
		"another program":     func(_ string, p *Repeat, _ *time.Time) { p.Program += "+" },
		"another site":        func(dir string, p *Repeat, _ *time.Time) { p.Site = filepath.Join(dir, "shop") },
		"its time is over":    func(_ string, _ *Repeat, now *time.Time) { *now = at.Add(time.Hour) },
		"the clock went back": func(_ string, _ *Repeat, now *time.Time) { *now = at.Add(-time.Hour) },
		"a file written": func(dir string, _ *Repeat, _ *time.Time) {
			os.WriteFile(filepath.Join(dir, "shop/a.md"), []byte("A"), 0o644)
		},
		"a file added": func(dir string, _ *Repeat, _ *time.Time) { os.WriteFile(filepath.Join(dir, "shop/b/c.md"), nil, 0o644) },
		"a file gone":  func(dir string, _ *Repeat, _ *time.Time) { os.Remove(filepath.Join(dir, "shop/a.md")) },
		"a file renamed": func(dir string, _ *Repeat, _ *time.Time) {
			os.Rename(filepath.Join(dir, "shop/a.md"), filepath.Join(dir, "shop/x.md"))
		},
		"a folder added":    func(dir string, _ *Repeat, _ *time.Time) { os.Mkdir(filepath.Join(dir, "shop/d"), 0o755) },
		"other permissions": func(dir string, _ *Repeat, _ *time.Time) { os.Chmod(filepath.Join(dir, "shop/a.md"), 0o600) },
		"a page written": func(dir string, _ *Repeat, _ *time.Time) {
			os.WriteFile(filepath.Join(dir, "site/i.html"), []byte("j"), 0o644)
		},
		"a link to a folder": func(dir string, _ *Repeat, _ *time.Time) {
			os.Symlink(filepath.Join(dir, "site"), filepath.Join(dir, "shop/link"))
		},
		"no site":   func(dir string, _ *Repeat, _ *time.Time) { os.RemoveAll(filepath.Join(dir, "site")) },
		"no record": func(dir string, p *Repeat, _ *time.Time) { os.RemoveAll(p.Folder) },
	} {
		dir := t.TempDir()
		for _, d := range []string{"shop/b", "shop/skipped", "site", "cache"} {
			os.MkdirAll(filepath.Join(dir, d), 0o755)
		}
		for _, f := range []string{"shop/a.md", "shop/b/b.md", "site/i.html"} {
			os.WriteFile(filepath.Join(dir, f), []byte("a"), 0o644)
			os.Chtimes(filepath.Join(dir, f), old, old)
		}
		p := &Repeat{Folder: filepath.Join(dir, "cache"), Workshop: filepath.Join(dir, "shop"), Site: filepath.Join(dir, "site"),
			Skip: []string{filepath.Join(dir, "shop/skipped")}, Program: "one", Workers: 2}
		b := p.Begin(ctx)
		if b.err != nil {
			t.Fatal(b.err)
		}
		b.workshop.newest = old // the time of change cannot be set: as if it were old too
		p.Keep(ctx, b, at.Add(time.Minute), Said{Plain: "said"})
		os.WriteFile(filepath.Join(dir, "shop/skipped/x"), nil, 0o644)
		now := time.Now()
		change(dir, p, &now)
		said, ok := p.Recall(ctx, now)
		if ok != (name == "") {
			t.Errorf("%q: the run is taken for a repetition: %v", name, ok)
		}
		if ok && said.Plain != "said" {
			t.Errorf("said %q", said.Plain)
		}
	}
}

// A run is not remembered over a workshop that changed while it ran, or that is
// as young as the run.
func TestRepeatInDoubt(t *testing.T) {
	ctx := context.Background()
	for name, young := range map[string]bool{"young": true, "changed meanwhile": false} {
		dir := t.TempDir()
		os.MkdirAll(filepath.Join(dir, "site"), 0o755)
		os.WriteFile(filepath.Join(dir, "a.md"), []byte("a"), 0o644)
		p := &Repeat{Folder: t.TempDir(), Workshop: dir, Site: filepath.Join(dir, "site"), Skip: []string{filepath.Join(dir, "site")}, Workers: 1}
		b := p.Begin(ctx)
		if !young {
			b.workshop.newest = time.Time{}
			os.WriteFile(filepath.Join(dir, "a.md"), []byte("b"), 0o644)
		}
		p.Keep(ctx, b, time.Now().Add(time.Hour), Said{})
		if _, ok := p.Recall(ctx, time.Now()); ok {
			t.Errorf("%s: remembered", name)
		}
	}
}

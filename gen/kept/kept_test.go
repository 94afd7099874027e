package kept

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"
)

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

package journal

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// A file that was most likely meant to be read is a warning with the name that
// would have it read, and under that name it is read.
func TestUnreadJournals(t *testing.T) {
	const dir = "builds/skiff/"
	sitting := "---\nstage: lighting\n---\n"
	for _, c := range []struct{ file, text, name, want string }{
		{dir + "2026-10-17.md.txt", sitting, "2026-10-17.md", noEnding},
		{dir + "2026-10-17.txt", sitting, "2026-10-17.md", noEnding},
		{dir + "2026-10-17.MD", sitting, "2026-10-17.md", noEnding},
		{dir + "2026-10-17.markdown", sitting, "2026-10-17.md", noEnding},
		{dir + "2026-10-17.Md.TXT", sitting, "2026-10-17.md", noEnding},
		{dir + "17-10-2026.md", sitting, "2026-10-17.md", noDate},
		{dir + "17.10.2026.md", sitting, "2026-10-17.md", noDate},
		{dir + "20261017.md", sitting, "2026-10-17.md", noDate},
		{dir + "2026_10_17.md", sitting, "2026-10-17.md", noDate},
		{dir + "2026-1-7.md", sitting, "2026-01-07.md", noDate},
		{dir + "07-10-2026.md", sitting, "2026-10-07.md or 2026-07-10.md", noDate},
		{dir + "2026-10-17 last day.md", sitting, "2026-10-17-last-day.md", noDate},
		{dir + "2026-10-17 Last Day.MD", sitting, "2026-10-17-last-day.md", noEnding},
		{dir + "2026-10-17_the lamp.markdown", sitting, "2026-10-17-the-lamp.md", noEnding},
		{dir + "14-02-2026.md", sitting, "2026-02-14-2.md", noDate}, // that day has a sitting
		{dir + "Review.md", "---\ndate: 2026-10-17\n---\n", "review.md", noDate},
		{dir + "review.markdown", "---\ndate: 2026-10-17\n---\n", "review.md", noEnding},
		{dir + "first light.MD", sitting, "one like 2026-02-14.md", noEnding},
		{"wall/About Us.md", "---\ntitle: Us\n---\n", "about-us.md", noSlug},
		{"wall/plans.md.txt", "---\ntitle: Plans\n---\n", "plans.md", noEnding},
		{"rack/paints.yml", "grey: {kind: enamel}\n", "paints.yaml", noName},
		{"rack/Wire.yaml.txt", "thin: {copper: 0.2 mm}\n", "wire.yaml", noName},
		{"shelf.yml", "{}\n", "shelf.yaml", noName},
		{"builds/Moor Beacon/build.md", "---\nname: x\nstate: bench\n---\n", "moor-beacon", noSlug},
	} {
		count := func(file string) (warned []string, texts int) {
			fsys := shop()
			fsys[file] = &fstest.MapFile{Data: []byte(c.text)}
			w, found := readAll(fsys)
			for _, f := range found {
				if f.Rule == ruleUnread {
					warned = append(warned, f.Says.String()+"; "+f.Do.String())
				}
			}
			for _, b := range w.Builds {
				if texts += 1 + len(b.Sittings); b.Review != nil {
					texts++
				}
			}
			return warned, texts + len(w.Wall) + len(w.Rack.Paints) + len(w.Rack.Wire)
		}
		warned, before := count(c.file)
		if len(warned) != 1 || !strings.Contains(warned[0], c.want) || !strings.HasSuffix(warned[0], "rename it to "+c.name) {
			t.Errorf("%s: %q, want %q and %q", c.file, warned, c.want, c.name)
		}
		for _, name := range strings.Split(c.name, " or ") {
			if strings.Contains(name, "one like") || strings.HasPrefix(c.file, "shelf") {
				continue
			}
			to := c.file[:strings.LastIndexByte(c.file, '/')+1] + name
			if !strings.Contains(name, ".") {
				to = "builds/" + name + "/build.md"
			}
			if warned, after := count(to); len(warned) > 0 || after != before+1 {
				t.Errorf("%s: as %s %d texts are read, %d before (%q)", c.file, to, after, before, warned)
			}
		}
	}
}

// What nobody took for a journal is none.
func TestNotesAreNoJournals(t *testing.T) {
	for _, name := range []string{"builds/skiff/notes.txt", "builds/skiff/notes.md", "builds/skiff/photos/2026.jpg", "wall/readme.txt", "rack/notes.txt", "notes.md",
		"builds/skiff/outline.svg", "builds/skiff/2026-10-17.jpg", "builds/Old Things/list.txt"} {
		fsys := shop()
		fsys[name] = &fstest.MapFile{Data: []byte("x")}
		_, found := readAll(fsys)
		for _, f := range found {
			if f.Rule == ruleUnread {
				t.Errorf("%s: %s", name, f.Says)
			}
		}
	}
	if names := likelySittings("2026-13-45"); slices.ContainsFunc(names, func(n string) bool { return CheckSittingName(n) != nil }) || len(names) != 0 {
		t.Errorf("%v", names)
	}
}

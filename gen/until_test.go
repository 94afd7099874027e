package gen

import (
	"context"
	"maps"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/site"
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
		r = r.free(context.Background(), site.Showing{})
		if r.found.Stops() {
			t.Fatalf("%s: %v", name, r.found)
		}
		if got := r.until(); !got.Equal(c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

package record

import (
	"path"
	"slices"
	"testing"
	"testing/fstest"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
)

// nowhere is a site without pages and photos.
type nowhere struct{ topic.Places }

func (nowhere) Page(string) string      { return "" }
func (nowhere) Build(string) *page.Link { return nil }

// The pages that the sums announce, so that texts may link there, are those
// that are laid out, and the build's page leads to each.
func TestAnnouncedPagesAreMade(t *testing.T) {
	for name, c := range map[string]struct {
		front, sitting string
		want           []string
	}{
		"a kit in the stash": {"state: stash", "", nil},
		"a finished build":   {"state: shelf", "stage: assembly\nhours: 2 h", []string{"hours.html", "entry.html"}},
		"all on the bench": {"state: bench\nparts: [{part: C1, have: 2, need: 1}]\nproblems: [{symptom: crazed, affected: [C1]}]\n" +
			"choices: [{question: mast, options: [up, down]}]", "stage: assembly", []string{"hours.html", "parts.html", "problems.html", "choices.html"}},
	} {
		content := fstest.MapFS{"workshop.yaml": {Data: []byte("name: Bench\n")},
			"builds/skiff/build.md": {Data: []byte("---\nname: Skiff\n" + c.front + "\n---\n")}}
		if c.sitting != "" {
			content["builds/skiff/2026-02-14.md"] = &fstest.MapFile{Data: []byte("---\n" + c.sitting + "\n---\n")}
		}
		shop, found := journal.Open(content)
		found.Add(shop.ReadBuild(content, shop.Builds[0])...)
		if found.Stops() {
			t.Fatal(name, found)
		}
		f := topic.Facts{Bench: &topic.Bench{Rack: &shop.Rack, Settings: &shop.Settings, Zone: shop.Zone}, Build: shop.Builds[0]}
		r := Reckon(f)
		keep := func(string, svg.Table, ...*svg.Drawing) *page.Drawing { return &page.Drawing{} }
		part := Pages(f, &r, Seen{}, topic.Desk{Words: english(t), Card: topic.Card{Slug: "skiff", Name: "Skiff"}, Places: nowhere{}, Keep: keep})
		var made, led []string
		for _, s := range part.Sheets {
			made = append(made, path.Base(s.Path))
		}
		for _, l := range part.Leaves {
			led = append(led, path.Base(l.Path))
		}
		if !slices.Equal(r.Pages, c.want) || !slices.Equal(made, c.want) || !slices.Equal(led, c.want) {
			t.Errorf("%s: announced %q, made %q, led to %q, want %q", name, r.Pages, made, led, c.want)
		}
	}
}

package log

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/themes"
)

// signs leads to a technique by its name in small letters.
type signs struct{ topic.Places }

func (signs) Technique(written string) page.Link {
	return page.Link{Name: written, Path: "techniques/" + strings.ToLower(written) + ".html"}
}

func texts(list ...string) []journal.Text {
	var out []journal.Text
	for _, t := range list {
		out = append(out, source.Written(t, source.Span{}))
	}
	return out
}

func TestTechniquesStandOnceHoweverTheyAreSpelt(t *testing.T) {
	links := techniques(texts("wash", "Decal setting", "Wash", "decal setting"), topic.Desk{Places: signs{}})
	if want := "[{wash techniques/wash.html } {Decal setting techniques/decal setting.html }]"; fmt.Sprint(links) != want {
		t.Errorf("got %v, want %s", links, want)
	}
}

// A stage is open until a sitting is for it, and done when the builder says so
// or the model is finished; what a finished model did without is left out.
func TestStageSteps(t *testing.T) {
	settings := &journal.Settings{Stages: texts("assembly", "lighting", "decals")}
	b := &journal.Build{Front: journal.BuildFront{Over: texts("assembly")}}
	f := topic.Facts{Bench: &topic.Bench{Settings: settings}, Build: b}
	folder, _ := fs.Sub(themes.FS, "words")
	words, err := page.LoadWords(folder, "en")
	if err != nil {
		t.Fatal(err)
	}
	spent := []tally.Slice{{Name: "assembly", Hours: 2, Sittings: 1}, {Name: "lighting", Hours: 1, Sittings: 1}}
	for state, want := range map[tally.State]string{
		tally.Bench: "assembly 2\u00a0h done; lighting 1\u00a0h begun; decals  open",
		tally.Shelf: "assembly 2\u00a0h done; lighting 1\u00a0h done",
		tally.Stash: "",
	} {
		var got []string
		d := topic.Desk{Words: words, Card: topic.Card{Sum: tally.Sum{State: state, ByStage: spent}}}
		for _, s := range stageSteps(f, d) {
			got = append(got, s.Name+" "+s.Hours+" "+s.State)
		}
		if text := strings.Join(got, "; "); text != want {
			t.Errorf("%s: got %q, want %q", state, text, want)
		}
	}
}

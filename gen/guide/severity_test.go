package guide_test

import (
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/source"
	"spruelight/themes"
)

// What the reference calls a stop, a warn or a note is one when it happens, in
// every workshop that tests bring along. A finding that another one hides by
// stopping at its very place would be none of its own: see the kinds below.
func TestSeveritiesAreThoseOfTheReference(t *testing.T) {
	text, err := os.ReadFile("../../content-example/wall/reference-rules.md")
	if err != nil {
		t.Fatal(err)
	}
	says := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^### ([a-z-]+)\n\n\*\*(stop|warn|note)\*\*`).FindAllStringSubmatch(string(text), -1) {
		says[m[1]] = m[2]
	}
	spoke := map[string]bool{}
	for name, shop := range workshopsOf(t) {
		res, err := gen.Check(context.Background(), gen.Env{Content: shop, Themes: themes.FS, Moment: time.Date(2026, 3, 15, 21, 0, 0, 0, time.UTC)})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range res.Findings {
			spoke[f.Rule.Name] = true
			if want := says[f.Rule.Name]; f.Severity().String() != want {
				t.Errorf("%s: %s is a %s, the reference says %q", name, f.Rule.Name, f.Severity(), want)
			}
		}
		if strings.HasPrefix(name, "early.txtar") {
			for _, f := range res.Findings {
				if f.At.Name() == "builds/one/review.md" && f.Severity() == source.Stop {
					t.Errorf("a fault of a kit stops its review: %s", f.Says)
				}
			}
		}
	}
	for _, rule := range []string{"fault-kind", "fault-shows", "extra-kind", "cut-by-hash", "unread-journal", "closed-twice", "closed-with-points-open", "held-back"} {
		if !spoke[rule] {
			t.Errorf("%s does not speak: another finding hides it, or no workshop has its mistake", rule)
		}
	}
	if len(spoke) < 130 || len(says) < 200 {
		t.Errorf("%d rules spoke, the reference has %d", len(spoke), len(says))
	}
}

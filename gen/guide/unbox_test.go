package guide_test

import (
	"regexp"
	"strings"
	"testing"

	"spruelight/gen/guide"
	"spruelight/gen/source"
	"spruelight/testdata/camera"
)

// commented finds the keys that a template holds behind a #.
var commented = regexp.MustCompile(`(?m)^(\s*)# ([a-z -]+:|  |\{|- )`)

// Every line that unbox and sit offer behind a # is read without a stop once
// the # is gone: a template can never fall behind the words it teaches.
func TestTemplatesAreReadWithEveryKeyUsed(t *testing.T) {
	files, err := guide.UnboxWorkshop("survey-skiff", guide.NewShop{})
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
	texts["builds/survey-skiff/2026-02-15.md"] = commented.ReplaceAllStringFunc(guide.SittingText("painting", []string{"painting", "lighting"}, nil, ""), func(line string) string {
		return strings.Replace(line, "# ", "", 1)
	})
	shop := bench(t, "2026-02-14 21:00", map[string]string{"builds/survey-skiff/build.md": texts["builds/survey-skiff/build.md"]})
	review, err := guide.UnboxReview(shop.Content, "survey-skiff", shop.Moment)
	if err != nil {
		t.Fatal(err)
	}
	texts[review[0].Name] = commented.ReplaceAllStringFunc(review[0].Text, func(line string) string { return strings.Replace(line, "# ", "", 1) })
	texts["builds/survey-skiff/photos/first-light.jpg"] = string(camera.Snap(t, "2026:02:14 20:00:00"))
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
		if _, err := guide.UnboxBuild(nil, slug); err == nil {
			t.Errorf("%q was taken for a name", slug)
		}
	}
	if got := guide.NameOf("survey-skiff"); got != "Survey skiff" {
		t.Errorf("got %q", got)
	}
}

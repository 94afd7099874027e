package guide

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// guidePages are the pages of the example's wall, by name.
func guidePages(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "content-example", "wall", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		pages[filepath.Base(name)] = string(text)
	}
	return pages
}

var fencedYAML = regexp.MustCompile("(?ms)^```yaml *([a-z]*)\n(.*?)^```$")

// Whatever the guide shows of a file can be written: an excerpt of a build or a
// workshop lacks no more than what names it.
func TestGuideShowsWhatReads(t *testing.T) {
	read := 0
	for name, text := range guidePages(t) {
		for _, block := range fencedYAML.FindAllStringSubmatch(text, -1) {
			kind, front := block[1], block[2]
			if kind == "" && !strings.HasPrefix(name, "guide") && !strings.HasPrefix(name, "reference") {
				continue // of a theme
			}
			if kind == "" {
				t.Errorf("%s: a block of YAML that does not say of which file: %.60q", name, front)
				continue
			}
			if kind == "build" && !strings.Contains(front, "name: Survey") {
				front += "name: x\nstate: bench\n"
			}
			for _, f := range fileKind(kind).Read(front) {
				t.Errorf("%s, %s: %s: %s\n%s", name, kind, f.Says.String(), f.At.Text(), front)
			}
			read++
		}
	}
	if read < 18 {
		t.Errorf("only %d excerpts", read)
	}
}

// The guide's words are many and its pages short enough to be read at a sitting.
func TestGuideLength(t *testing.T) {
	for name, text := range guidePages(t) {
		if n := len(strings.Fields(text)); strings.HasPrefix(name, "guide-") && (n < 600 || n > 1200) {
			t.Errorf("%s has %d words, want 600 to 1200", name, n)
		}
	}
}

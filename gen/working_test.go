package gen_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Every mark on a page opens a working of that page, and every working has its
// mark; each ends on a value or shows a balance.
func TestWorkingsHaveTheirMarks(t *testing.T) {
	site := assembled(t)
	mark, working := regexp.MustCompile(`popovertarget="(w\d+)"`), regexp.MustCompile(`<p popover id="(w\d+)">(.*)</p>`)
	for _, name := range []string{"lighting", "scale", "hours", "finish"} {
		text, err := os.ReadFile(filepath.Join(site, "marram", name+".html"))
		if err != nil {
			t.Fatal(err)
		}
		opens := map[string]int{}
		for _, m := range mark.FindAllStringSubmatch(string(text), -1) {
			opens[m[1]]++
		}
		shown := working.FindAllStringSubmatch(string(text), -1)
		if len(shown) == 0 || len(shown) != len(opens) {
			t.Errorf("%s: %d workings, %d marks", name, len(shown), len(opens))
		}
		for _, w := range shown {
			if opens[w[1]] != 1 || !strings.Contains(w[2], " = ") {
				t.Errorf("%s: %s has %d marks and says %s", name, w[1], opens[w[1]], w[2])
			}
		}
	}
}

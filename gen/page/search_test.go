package page

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
)

func tokens(text string) []string {
	var list []string
	eachToken(text, func(t []byte) { list = append(list, string(t)) })
	return list
}

// Words are cut where readers would expect, folded, and Japanese in twos. The
// search script must do the same; the browser test holds the two together.
func TestTokens(t *testing.T) {
	for text, want := range map[string][]string{
		"Light-blocking, twice: D1 & D12.":    {"light", "blocking", "twice", "d1", "d12"},
		"Übergröße naïve Émail":               {"ubergroße", "naive", "email"},
		"":                                    nil,
		"船体の塗装":                               {"船体", "体の", "の塗", "塗装"},
		"LED点灯 3mm":                           {"led", "点灯", "3mm"},
		"灯":                                   {"灯"},
		strings.Repeat("x", longest+9) + " y": {strings.Repeat("x", longest), "y"},
	} {
		if got := tokens(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// read parses a file of the index back.
func read(t *testing.T, file []byte, call string, into any) {
	t.Helper()
	text := strings.TrimSuffix(strings.TrimPrefix(string(file), call), ");\n")
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatalf("%v in %.80s", err, file)
	}
}

// Every word of every page is found in the file that the script would load.
func TestEveryWordIsInItsFile(t *testing.T) {
	var sheets []*Sheet
	for i := range 900 {
		sheets = append(sheets, &Sheet{Path: fmt.Sprint("p", i, ".html"), Title: fmt.Sprint("Page ", i), Words: strings.Repeat(fmt.Sprintf("word%d lamp%d ", i, i%7), 60)})
	}
	sheets[0].Aside = true
	x := NewIndex(sheets)
	if x.Shards() < 2 {
		t.Fatalf("%d shards for %d pages of a kilobyte", x.Shards(), len(sheets))
	}
	files := map[string][]byte{}
	x.Files(func(path string, make func() []byte) { files[path] = make() })
	for i, s := range sheets[1:] {
		for _, token := range tokens(s.Words + s.Title) {
			n := x.shardOf(token)
			var words map[string][]int
			name := fmt.Sprintf("search/words-%d.js", n)
			if i%90 != 0 {
				continue
			}
			read(t, files[name], fmt.Sprintf("searchWords(%d,", n), &words)
			found := false
			for k := 0; k < len(words[token]); k += 2 {
				found = found || words[token][k] == i
			}
			if !found {
				t.Fatalf("%q of %s is not in %s", token, s.Path, name)
			}
		}
	}
	var pages [][4]string
	read(t, files["search/pages-2.js"], "searchPages(2,", &pages)
	if len(pages) != 899-2*Chunk || pages[0][0] != sheets[1+2*Chunk].Path {
		t.Errorf("the third list begins with %v and holds %d", pages[0], len(pages))
	}
}

// BenchmarkIndex is the cost of an index by the number of pages: ns/page must
// not grow with it.
func BenchmarkIndex(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		var sheets []*Sheet
		for i := range n {
			sheets = append(sheets, &Sheet{Title: fmt.Sprint("Page ", i), Words: strings.Repeat("Both saloon lamps run at a little under four milliamps, as planned. ", 12) + fmt.Sprint(i)})
		}
		b.Run(fmt.Sprint("pages=", n), func(b *testing.B) {
			for b.Loop() {
				NewIndex(sheets).build()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/page")
		})
	}
}

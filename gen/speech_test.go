package gen_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/testdata/example"
	"spruelight/themes"

	"github.com/goccy/go-yaml"
	"golang.org/x/net/html"
)

// Signs around what the words of a language say.
const opens, closes = "⟦", "⟧"

// valuePlaces are the places of values in a phrase or sentence.
var valuePlaces = regexp.MustCompile(`%(?:\[\d\])?[-+#0-9.]*[a-zA-Z%]|\{\}`)

// marked is a language that says everything in English, between signs, with the
// values outside them: what stands on a page without signs was said by no words
// file.
func marked(t *testing.T) fs.FS {
	t.Helper()
	text, err := fs.ReadFile(themes.FS, "words/fr.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file map[string]any
	if err := yaml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	said := file["phrases"].(map[string]any)
	for key := range said {
		said[key] = signed(key)
	}
	for _, forms := range file["counted"].(map[string]any) {
		for form, word := range forms.(map[string]any) {
			forms.(map[string]any)[form] = signed(word.(string))
		}
	}
	for _, names := range []string{"months", "short"} {
		list := file[names].([]any)
		for i := range list {
			list[i] = signed(list[i].(string))
		}
	}
	out, err := yaml.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	return example.Overlaid{FS: themes.FS, Over: fstest.MapFS{"words/fr.yaml": {Data: out}}}
}

// signed puts signs around the words of a phrase, not around its values.
func signed(phrase string) string {
	var out strings.Builder
	last := 0
	put := func(words string) {
		if words != "" {
			out.WriteString(opens + words + closes)
		}
	}
	for _, v := range valuePlaces.FindAllStringIndex(phrase, -1) {
		put(phrase[last:v[0]])
		out.WriteString(phrase[v[0]:v[1]])
		last = v[1]
	}
	put(phrase[last:])
	return out.String()
}

// spoken assembles the example in a language.
func spoken(t *testing.T, language string, words fs.FS) *gen.Gathered {
	t.Helper()
	content, err := example.Changed(os.DirFS(example.Content), "language: en", "language: "+language)
	if err != nil {
		t.Fatal(err)
	}
	env := example.Env(t, 0)
	env.Content, env.Themes = content, words
	res, err := gen.Gather(context.Background(), env)
	if err != nil || res.Files == nil {
		t.Fatal(err, res.Findings)
	}
	return res
}

// neverSaid is what stands in every language as it is: names of formats and of
// the program, signs of sums.
var neverSaid = map[string]bool{"atom": true, "json": true, "spruelight test": true, "spruelight": true, "log": true, "reviews": true, "awg": true, "usb": true, "mhz": true}

// Every text of every page is said by the words file or stands in the workshop's
// own files: no sentence of a computing room reaches a reader in English alone.
func TestEveryTextOfAPageIsSaid(t *testing.T) {
	own := ownText(t)
	left := map[string]string{}
	for _, f := range spoken(t, "fr", marked(t)).Files {
		if strings.HasPrefix(f.Path, "wall/") || !strings.HasSuffix(f.Path, ".html") && !strings.HasSuffix(f.Path, ".svg") {
			continue
		}
		unsaid(t, string(f.Bytes), func(words, whole string) {
			if !strings.Contains(own, words) && !neverSaid[words] {
				left[words] = f.Path + ": " + whole
			}
		})
	}
	for words, at := range left {
		t.Errorf("%q is said by no words file: %s", words, at)
	}
}

// ownText is the text of the workshop's own files.
func ownText(t *testing.T) string {
	var out strings.Builder
	err := fs.WalkDir(os.DirFS("../content-example"), ".", func(name string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(name, ".md") || strings.HasSuffix(name, ".yaml") {
			text, err := os.ReadFile("../content-example/" + name)
			if err != nil {
				return err
			}
			if strings.HasPrefix(name, "wall/") && name != "wall/about.md" {
				_, front, _ := bytes.Cut(text, []byte("---\n")) // the rest tells of the program, in its own words
				text, _, _ = bytes.Cut(front, []byte("---\n"))
			}
			out.WriteString(plain(string(text)) + "\n")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}

var (
	markup = regexp.MustCompile("[*_`\"'“”‘’\\[\\]]|\\([^)]*\\.md[^)]*\\)")
	inside = regexp.MustCompile(opens + "[^" + opens + closes + "]*(?:" + closes + "|$)|^[^" + opens + closes + "]*" + closes) // a line of a drawing may hold half a phrase
	others = regexp.MustCompile(`[^\pL ]+`)
	shown  = []string{"alt", "title", "aria-label", "content", "data-label", "data-before", "data-found", "data-none", "data-broken"}
)

func plain(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(markup.ReplaceAllString(s, ""), "-", " ")), " "))
}

// unsaid calls each for the runs of words of a page that no phrase said.
// Program text and names of rules are left out.
func unsaid(t *testing.T, text string, each func(words, whole string)) {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	put := func(s string) {
		for _, words := range others.Split(plain(inside.ReplaceAllString(s, "|")), -1) {
			if words = strings.TrimSpace(words); len([]rune(words)) > 2 {
				each(words, s)
			}
		}
	}
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		attr := map[string]string{}
		for _, a := range n.Attr {
			attr[a.Key] = a.Val
		}
		if n.Type == html.ElementNode && (slices.Contains([]string{"script", "style", "code"}, n.Data) || markedEnglish(n)) {
			return
		}
		if n.Type == html.TextNode {
			put(n.Data)
		}
		if n.Data != "meta" || slices.Contains([]string{"og:title", "og:description", "og:image:alt"}, attr["property"]) || attr["name"] == "description" {
			for _, key := range shown {
				put(attr[key])
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(doc)
}

// markedEnglish reports whether an element says that its text is English: what the
// words files do not have yet.
func markedEnglish(n *html.Node) bool {
	return slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "lang" && a.Val == "en" && n.Data == "span" })
}

// A message is printed by its form in the language, with its values in the
// language in their places.
func TestMessagesAreTranslated(t *testing.T) {
	until := source.Say("wait until %s", quantity.Moment(time.Date(2026, 1, 5, 13, 0, 0, 0, time.UTC)))
	soon := source.Say("%s: decals went over %s after %s, which wants %s", "tower", "hull-clear", quantity.Hours(3.25), source.Say("%s (assumed)", quantity.Hours(24)))
	hot := source.Say("area %q takes %s in %v: about %.0f °C inside", "hull", quantity.Amount{Value: 2.45, Unit: "W", Digits: 2}, quantity.Litres(0.4), 53.6)
	for _, c := range []struct {
		language string
		says     source.Message
		want     string
	}{
		{"en", until, "wait until Mon 5 Jan 2026 13:00"},
		{"de", until, "warten bis 5. Januar 2026, 13:00"},
		{"en", soon, "tower: decals went over hull-clear after 3 h 15 min, which wants 24 h (assumed)"},
		{"de", soon, "tower: Decals kamen auf hull-clear schon nach 3\u00a0h 15\u00a0min; nötig sind 24\u00a0h (angenommen)"},
		{"en", hot, "area \"hull\" takes 2.5 W in 400 ml: about 54 °C inside"},
		{"fr", hot, "la zone \"hull\" reçoit 2,5 W dans 400 ml\u00a0: environ 54 °C dedans"},
		{"fr", source.Say("the current of %s", "port"), "le courant de port"}, // a name stays as it is
		{"fr", source.Say("%s encloses %s and has no coat for light blocking", "hull", source.And([]string{"D1", "D2", "D3"})),
			"hull renferme D1, D2 et D3 et n’a aucune couche occultante"},
		{"ja", source.Say("not measured: %s", source.Row([]string{"fore", "aft"})), "未測定：fore、aft"},
		{"de", source.Say("At the present pace of %s a week: around %s.", quantity.Amount{Value: 2.5, Unit: "h"},
			quantity.Date(time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC))), "Beim jetzigen Tempo von 2\u00a0h 30\u00a0min je Woche: etwa am 5. Januar 2026."},
		{"fr", source.Say("The box says %s, the model measures %s: it is %s for its box", quantity.Scale{Ratio: 48}, source.Say("1/%.1f ± %.1f", 46.1, 0.3),
			source.Say("%s too large", quantity.Amount{Value: 4, Unit: "%"})),
			"La boîte annonce 1/48, le modèle mesure 1/46,1 ± 0,3\u00a0: il est 4\u00a0% trop grand pour sa boîte"},
		{"ja", source.Text(source.Word("Counts as out of the box."), source.Message{}, source.Say("It sells for %s.", quantity.Money{Minor: 9200, Currency: "EUR"})),
			"ストレート組みとみなします。販売価格は92 EURです。"},
		{"de", source.Say("nobody ever says %s of it", quantity.Volts(2.5)), "nobody ever says 2,5 V of it"},
	} {
		if got := wordsOf(t, c.language).Message(c.says); got != c.want {
			t.Errorf("%s: %q\n got %q\nwant %q", c.language, c.says, got, c.want)
		}
	}
}

// The languages have the same phrases, each with the values of its English form.
func TestPhrasesTakeTheValuesOfTheirForm(t *testing.T) {
	verb := regexp.MustCompile(`%(?:\[(\d)\])?([.\d]*[a-zA-Z])`)
	values := func(form string) []string {
		var all []string
		for i, m := range verb.FindAllStringSubmatch(strings.ReplaceAll(form, "%%", ""), -1) {
			if m[1] != "" {
				i, _ = strconv.Atoi(m[1])
				i--
			}
			all = append(all, fmt.Sprint(i, m[2]))
		}
		slices.Sort(all)
		return all
	}
	english := phrasesOf(t, "de")
	for _, language := range languages {
		phrases := phrasesOf(t, language)
		for form := range english {
			if phrases[form] == "" {
				lacking(t, "%s lacks %q", language, form)
			}
		}
		for form, text := range phrases {
			if english[form] == "" {
				t.Errorf("%s alone has %q", language, form)
			}
			if want, got := values(form), values(text); !slices.Equal(got, want) {
				t.Errorf("%s: %q takes %v, %q takes %v", language, form, want, text, got)
			}
		}
	}
	if len(english) < 1000 {
		t.Errorf("%d phrases", len(english))
	}
}

// phrasesOf are the phrases of a language as its file has them.
func phrasesOf(t *testing.T, language string) map[string]string {
	t.Helper()
	text, err := fs.ReadFile(themes.FS, "words/"+language+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Phrases map[string]string }
	if err := yaml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	return file.Phrases
}

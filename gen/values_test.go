package gen_test

import (
	"context"
	"html"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/desk"
	"spruelight/gen/quantity"
	"spruelight/testdata/example"
)

// shownValue finds a value in a text: a number with a unit of the printer's table.
// What stands behind ± is in the unit of its value, and a fraction is a rating.
var shownValue = regexp.MustCompile(`(^|[^\d./:,−-])(\d+(?:\.\d+)?)[ \x{a0}](mV|V|µA|mA|A|mΩ|ohm|kohm|Ω|kΩ|µW|mW|W|mHz|Hz|kHz|mAh|Ah|cd|mcd|cm|mm|m|mg|g|kg|µl|ml|l|µs|ms|h)([²³]|\b)`)

// unseen is what a reader does not see.
var unseen = regexp.MustCompile(`(?s)<(script|style)\b.*?</(script|style)>|<[^>]*>`)

// strange lists the values of a text that read otherwise than the one printer
// has them, those left out that stand so in the workshop's own words.
func strange(text, own string) []string {
	var found []string
	for _, at := range shownValue.FindAllStringSubmatchIndex(text, -1) {
		m := []string{"", "", text[at[4]:at[5]], text[at[6]:at[7]]}
		before := strings.TrimRight(text[:at[4]], " \u00a0")
		if at[8] < at[9] || strings.HasSuffix(before, "±") { // an area, a tolerance
			continue
		}
		seen := m[2] + " " + m[3]
		v, _ := strconv.ParseFloat(m[2], 64)
		reads := quantity.Amount{Value: v, Unit: m[3], Digits: 12}.String()
		if m[3] == "ohm" || m[3] == "kohm" || m[3] == "cm" || m[3] == "mHz" {
			reads = "no unit of the table"
		}
		if reads != seen && !strings.Contains(own, seen) {
			found = append(found, seen+" for "+reads)
		}
	}
	return found
}

// ownWords are all texts of the example's workshop.
func ownWords(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	err := fs.WalkDir(os.DirFS("../content-example"), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".md" && filepath.Ext(name) != ".yaml" || strings.HasPrefix(name, "wall/") {
			return err
		}
		text, err := os.ReadFile("../content-example/" + name)
		b.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The same value reads the same everywhere: on the example's pages, in its
// drawings and their words, in show notes and in the comments of netlists. The
// wall's pages quote what is typed, and are left out.
func TestValuesReadTheSame(t *testing.T) {
	own, site := ownWords(t), assembled(t)
	values := 0
	check := func(name, text string) {
		values += len(shownValue.FindAllString(text, -1))
		for _, s := range strange(text, own) {
			t.Errorf("%s: %s", name, s)
		}
	}
	for _, ending := range []string{".html", ".svg"} {
		for _, name := range files(t, site, ending) {
			text, err := os.ReadFile(filepath.Join(site, name))
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasPrefix(name, "wall/") {
				check(name, html.UnescapeString(unseen.ReplaceAllString(string(text), "|")))
			}
		}
	}
	for _, sitting := range []string{"marram/2026-02-28", "cairnhead/2025-11-08"} {
		notes, err := desk.NotesFor(context.Background(), example.Env(t, 1), sitting, desk.NotesOptions{})
		if err != nil || notes.Text == "" {
			t.Fatalf("%s: no notes (%v)", sitting, err)
		}
		check("show notes of "+sitting, notes.Text)
	}
	nets, _, err := desk.Netlists(context.Background(), example.Env(t, 1), "marram")
	if len(nets) == 0 {
		t.Fatalf("no netlists (%v)", err)
	}
	for _, f := range nets {
		for _, line := range strings.Split(string(f.Bytes), "\n") {
			if strings.HasPrefix(line, "*") {
				check(f.Path, line)
			}
		}
	}
	if values < 1000 {
		t.Errorf("only %d values were seen", values)
	}
}

// What the walk is to find, it finds.
func TestStrangeValues(t *testing.T) {
	for text, finds := range map[string]int{
		"draws 1500 mA": 1, "draws 1.5 A": 0, "500 µA": 1, "0.3 W": 1, "300 mW": 0, "1/16 W": 0, "1200 mm": 1, "500 mHz": 1,
		"560 ohm": 1, "560 Ω (560R)": 0, "204 ± 0.5 mm": 0, "9.4 ± 0.05 m": 0, "3.5 h": 1, "3 h 30 min": 0, "3.0 mA": 1, "14 cm across": 1,
	} {
		if got := strange(text, ""); len(got) != finds {
			t.Errorf("%q: %v", text, got)
		}
	}
}

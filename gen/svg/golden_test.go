package svg

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestGolden compares every drawing, and the table of every chart, with the file
// that was looked at and found good. A golden file that no drawing owns fails.
func TestGolden(t *testing.T) {
	owned := map[string]bool{}
	for _, c := range append(charts(), namedDrawing{name: "sample", drawing: sample()}) {
		owned[c.name+".svg"] = true
		golden(t, c.name+".svg", c.drawing.Bytes())
		if len(c.table.Head) > 0 && !strings.HasSuffix(c.name, "-phone") {
			owned[c.name+".tsv"] = true
			golden(t, c.name+".tsv", tableText(c.table))
		}
	}
	owned["stylesheet.css"] = true
	golden(t, "stylesheet.css", []byte(Properties()+Stylesheet()))
	entries, err := os.ReadDir("testdata")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !e.IsDir() && !owned[e.Name()] {
			t.Errorf("testdata/%s: no drawing owns this golden file", e.Name())
		}
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("%v (go test -update writes it)", err)
		return
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from what is drawn now, first in line %d", file, firstDifference(got, want))
	}
}

func firstDifference(a, b []byte) int {
	linesA, linesB := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(linesA), len(linesB)) {
		if !bytes.Equal(linesA[i], linesB[i]) {
			return i + 1
		}
	}
	return min(len(linesA), len(linesB)) + 1
}

func tableText(t Table) []byte {
	var b bytes.Buffer
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		b.WriteString(strings.Join(row, "\t") + "\n")
	}
	return b.Bytes()
}

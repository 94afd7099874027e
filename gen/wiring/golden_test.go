package wiring

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/svg"
)

var update = flag.Bool("update", false, "write the golden files anew")

// drawings are all drawings that were looked at and found good.
func drawings(t testing.TB) map[string]*svg.Drawing {
	all := looms(t)
	for _, c := range circuits() {
		s := solved(t, c.in)
		all["diagram-"+c.name] = Diagram("d", s, nil)
		all["diagram-"+c.name+"-phone"] = DiagramFor("d", s, Narrow, nil)
	}
	rings, err := Bands("r", 4700, 0.05, nil)
	if err != nil {
		t.Fatal(err)
	}
	all["rings"] = rings
	return all
}

// TestGolden compares every drawing, and the table of the skiff, with the file
// that was looked at. A golden file that nothing owns fails.
func TestGolden(t *testing.T) {
	owned := map[string]bool{}
	check := func(name string, got []byte) {
		owned[name] = true
		file := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Errorf("%v (go test -update writes it)", err)
		} else if !bytes.Equal(got, want) {
			t.Errorf("%s differs from what is drawn now", name)
		}
	}
	for name, d := range drawings(t) {
		check(name+".svg", d.File())
	}
	check("diagram-skiff.tsv", tableText(DiagramTable(solved(t, skiff()), nil)))
	entries, err := os.ReadDir("testdata")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !e.IsDir() && !owned[e.Name()] {
			t.Errorf("testdata/%s: nothing owns this golden file", e.Name())
		}
	}
}

func tableText(t svg.Table) []byte {
	var b bytes.Buffer
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		b.WriteString(strings.Join(row, "\t") + "\n")
	}
	return b.Bytes()
}

// The table in words has a row for every part of the netlist, with both ends.
func TestTableNamesEverything(t *testing.T) {
	s := solved(t, skiff())
	table := DiagramTable(s, nil)
	if len(table.Rows) != len(netlist.Elements(&s)) {
		t.Fatalf("%d rows for %d parts", len(table.Rows), len(netlist.Elements(&s)))
	}
	for i, e := range netlist.Elements(&s) {
		if row := table.Rows[i]; row[0] != minusSign(e.Ref) || row[4] == "" || row[5] == "" {
			t.Errorf("%s: %q", e.Ref, row)
		}
	}
	if rows := DiagramTable(circuit.Solution{}, nil).Rows; rows != nil {
		t.Error("rows for a circuit that is not solved")
	}
}

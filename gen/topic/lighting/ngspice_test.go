package lighting

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/circuit/netlist"
	"spruelight/testdata/outside"
)

var (
	resistorLine = regexp.MustCompile(`(?m)^(R\d+) (\S+) (\S+) (\S+)$`)
	printedVolts = regexp.MustCompile(`(?m)^v\((\w+)\) = (\S+)`)
)

// Every branch current of the example's circuits agrees with ngspice within
// half a percent. The program reads the netlist as it is exported; its current
// is the voltage over the branch's resistor.
func TestExampleCircuitsAgreeWithNgspice(t *testing.T) {
	ngspice := outside.Tool(t, "ngspice")
	results, _ := reckoned(os.DirFS("../../../content-example"))
	compared := 0
	for slug, r := range results {
		for i := range r.Circuits {
			s := &r.Circuits[i].Solution
			net := netlist.SPICE(s)
			resistors := resistorLine.FindAllStringSubmatch(net, -1)
			var prints strings.Builder
			for _, m := range resistors {
				fmt.Fprintf(&prints, "print v(%s)\nprint v(%s)\n", m[2], m[3])
			}
			file := filepath.Join(t.TempDir(), "circuit.cir")
			deck := strings.Replace(net, ".end\n", ".control\nop\n"+prints.String()+".endc\n.end\n", 1)
			if err := os.WriteFile(file, []byte(deck), 0o644); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command(ngspice, "-b", file).CombinedOutput()
			if err != nil {
				t.Fatalf("%s: %v\n%s", s.Name, err, out)
			}
			volts := map[string]float64{}
			for _, m := range printedVolts.FindAllStringSubmatch(string(out), -1) {
				volts[m[1]], _ = strconv.ParseFloat(m[2], 64)
			}
			currents := map[string]float64{}
			for _, m := range resistors {
				ohms, _ := strconv.ParseFloat(m[4], 64)
				from, known := volts[strings.ToLower(m[2])]
				to, also := volts[strings.ToLower(m[3])]
				if !known || !also {
					t.Fatalf("%s: ngspice printed no voltage for %s\n%s", s.Name, m[1], out)
				}
				currents[m[1]] = (from - to) / ohms
			}
			for _, b := range s.Branches {
				want, ok := currents[b.Ref]
				if !ok {
					continue // a driver, or nothing but wire
				}
				compared++
				if got := float64(b.Current.Nominal); math.Abs(got/want-1) > 0.005 {
					t.Errorf("%s, %s: %g A, ngspice %g A", slug, b.Name, got, want)
				}
			}
		}
	}
	if compared < 14 {
		t.Errorf("only %d branches were compared", compared)
	}
}

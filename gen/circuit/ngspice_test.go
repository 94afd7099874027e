package circuit_test

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/netlist"
	"spruelight/testdata/effort"
	"spruelight/testdata/outside"
)

// Every branch current within 0.1 % and every node within 1 mV of ngspice, an
// independent program, on random circuits. In a string that takes next to
// nothing the simulator's own leak (gmin) sets the voltages between its lamps,
// so those nodes are left out below 1 nA.
func TestAgainstNgspice(t *testing.T) {
	program := outside.Tool(t, "ngspice")
	count := effort.Of(100, 1000)
	r := rand.New(rand.NewPCG(3, 1))
	const batch = 100
	var currents, nodes int
	for from := 0; from < count; from += batch {
		solutions := make([]circuit.Solution, batch)
		for k := range solutions {
			s, found := circuit.Solve(circuit.RandomCircuit(r))
			if !s.Solved {
				t.Fatalf("circuit %d: %v", from+k, found)
			}
			solutions[k] = s
		}
		printed := runNgspice(t, program, solutions)
		for k := range solutions {
			i, n := compare(t, from+k, &solutions[k], printed[k])
			currents, nodes = currents+i, nodes+n
		}
	}
	t.Logf("%d circuits, %d lamp currents, %d nodes compared", count, currents, nodes)
	if currents < count*10 || nodes < count*20 {
		t.Errorf("only %d currents and %d nodes were compared", currents, nodes)
	}
}

// runNgspice finds the operating points of several circuits in one run and
// returns what was printed for each, by name.
func runNgspice(t *testing.T, program string, solutions []circuit.Solution) []map[string]float64 {
	t.Helper()
	dir := t.TempDir()
	var control strings.Builder
	control.WriteString("* batch\n.control\nset numdgt=12\n")
	for k := range solutions {
		name := filepath.Join(dir, fmt.Sprintf("c%d.cir", k))
		if err := os.WriteFile(name, []byte(netlist.SPICE(&solutions[k])), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&control, "source %s\nop\necho circuit %d\nprint all\n", name, k)
		for _, e := range netlist.Elements(&solutions[k]) {
			if e.Kind == netlist.Lamp {
				fmt.Fprintf(&control, "print @%s[id]\n", strings.ToLower(e.Ref))
			}
		}
		control.WriteString("echo done\nremcirc\n")
	}
	control.WriteString("quit\n.endc\n.end\n")
	deck := filepath.Join(dir, "batch.cir")
	if err := os.WriteFile(deck, []byte(control.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(program, "-b", deck)
	var complaints strings.Builder // apart from the results, so that lines stay whole
	command.Stderr = &complaints
	out, err := command.Output()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, complaints.String())
	}
	return parseNgspice(t, string(out), complaints.String(), len(solutions))
}

func parseNgspice(t *testing.T, out, complaints string, count int) []map[string]float64 {
	t.Helper()
	printed := make([]map[string]float64, count)
	var now map[string]float64
	lines := bufio.NewScanner(strings.NewReader(out))
	for lines.Scan() {
		line := strings.TrimSpace(lines.Text())
		if rest, ok := strings.CutPrefix(line, "circuit "); ok {
			if k, err := strconv.Atoi(rest); err == nil && k < count {
				now = map[string]float64{}
				printed[k] = now
			}
			continue
		}
		name, value, ok := strings.Cut(line, " = ")
		if v, err := strconv.ParseFloat(strings.TrimSpace(value), 64); ok && err == nil && now != nil {
			now[strings.TrimSpace(name)] = v
		}
	}
	// ngspice ends with 0 on a circuit it could not read: what it printed decides.
	for k := range printed {
		if len(printed[k]) == 0 {
			t.Errorf("ngspice printed nothing for circuit %d", k)
		}
	}
	return printed
}

// compare checks one circuit and returns how many currents and nodes were compared.
func compare(t *testing.T, k int, s *circuit.Solution, printed map[string]float64) (currents, nodes int) {
	t.Helper()
	for i := range s.Branches {
		b := &s.Branches[i]
		for _, l := range b.Lamps {
			got, ok := printed["@"+strings.ToLower(l.Ref)+"[id]"]
			if !ok {
				t.Errorf("circuit %d: ngspice gave no current of %s", k, l.Ref)
				continue
			}
			want := float64(l.Current.Nominal)
			if math.Abs(got-want) > 1e-3*math.Abs(got)+1e-9 {
				t.Errorf("circuit %d: %s of %s: %.9g A, ngspice %.9g A", k, l.Ref, b.Name, want, got)
			}
			currents++
		}
	}
	for node, volts := range nodeVolts(s) {
		got, ok := printed[node]
		if !ok {
			t.Errorf("circuit %d: ngspice has no node %q", k, node)
			continue
		}
		var branch, step int
		if n, _ := fmt.Sscanf(node, "b%dn%d", &branch, &step); n == 2 && s.Branches[branch-1].Current.Nominal < 1e-9 {
			continue
		}
		if math.Abs(got-volts) > 1e-3 {
			t.Errorf("circuit %d: node %s: %.6f V, ngspice %.6f V", k, node, volts, got)
		}
		nodes++
	}
	return currents, nodes
}

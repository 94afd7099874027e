package circuit

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

	"spruelight/gen/quantity"
	"spruelight/testdata/outside"
)

// randomCircuit declares a circuit that uses every feature: trees up to four
// deep, 1 to 40 branches, strings and lamps side by side, fixed and auto
// resistors, drivers, every kind of supply.
func randomCircuit(r *rand.Rand) Input {
	in := Input{Circuit: Circuit{Name: written("random")}, Supply: randomSupply(r), Scale: 48}
	if r.IntN(2) == 0 {
		in.Switch = written("slide switch")
	}
	if r.IntN(3) == 0 {
		in.Fuse.Rated = written(quantity.Amps(0.1 + r.Float64()))
	}
	in.Feed = randomRun(r, 22, 32, 0.6)
	depth := []int{0}
	for k := range r.IntN(8) {
		from := r.IntN(len(depth))
		if depth[from] >= 3 {
			from = 0
		}
		depth = append(depth, depth[from]+1)
		j := Junction{Name: written(fmt.Sprintf("junction %d", k+2)), Run: randomRun(r, 26, 36, 0.8)}
		if from > 0 {
			j.From = written(fmt.Sprintf("junction %d", from+1))
		}
		in.Junctions = append(in.Junctions, j)
	}
	for k := range 1 + r.IntN(40) {
		b := randomBranch(r, float64(in.Supply.Volts.V))
		b.Name = written(fmt.Sprintf("branch %d", k+1))
		if at := r.IntN(len(depth)); at > 0 {
			b.Junction = written(fmt.Sprintf("junction %d", at+1))
		}
		in.Branches = append(in.Branches, b)
	}
	in.Series = []quantity.Series{quantity.E12, quantity.E24, quantity.E96}[r.IntN(3)]
	return in
}

func randomRun(r *rand.Rand, thick, thin int, longest float64) Run {
	if r.IntN(6) == 0 {
		return Run{}
	}
	run := awg(thick+r.IntN(thin-thick+1), quantity.Metres(0.02+r.Float64()*longest))
	switch tenths := int(run.Length.V * 1e4); tenths % 6 {
	case 0: // a connector, its contacts reckoned with
		run.Connector.Resistance = written(quantity.Ohms(tenths%500) / 1000)
		fallthrough
	case 1:
		run.Connector.Kind = written("2-pin plug")
	}
	return run
}

func randomSupply(r *rand.Rand) Supply {
	s := Supply{Volts: written([]quantity.Volts{3, 4.5, 5, 6, 9, 12}[r.IntN(6)])}
	switch r.IntN(4) {
	case 0:
		s.Kind = written("usb")
		s.Volts.V = 5
	case 1:
		s.Kind, s.Inside = written("battery"), written(quantity.Ohms(r.Float64()*5))
	case 2:
		s.Kind, s.Regulated = written("mains adapter"), written(false)
		s.Limit = written(quantity.Amps(0.2 + r.Float64()))
	default:
		s.Kind = written("mains adapter")
	}
	return s
}

func randomLamp(r *rand.Rand) Fitted {
	l := Fitted{Lamp: written("lamp"), Type: Lamp{Colour: written(TypicalColours[r.IntN(len(TypicalColours))])}}
	base := 1.7 + 1.3*r.Float64()
	switch r.IntN(4) {
	case 0:
		l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base), Amps: 0.01}))
	case 1:
		for k, i := range []quantity.Amps{0.002, 0.02} {
			l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base + float64(k)*(0.1+0.3*r.Float64())), Amps: i}))
		}
	case 2:
		for k, i := range []quantity.Amps{0.002, 0.01, 0.02} {
			l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base + float64(k)*(0.15+0.1*r.Float64())), Amps: i}))
		}
	}
	return l
}

func randomBranch(r *rand.Rand, volts float64) Branch {
	b := Branch{Lead: randomRun(r, 30, 40, 0.4), Current: written(quantity.Amps(0.001 + 0.02*r.Float64()))}
	for range 1 + r.IntN(max(1, int(volts/2.2))) {
		b.Lamps = append(b.Lamps, randomLamp(r))
	}
	if len(b.Lamps) > 1 && r.IntN(6) == 0 {
		b.Parallel = written(true)
	}
	switch r.IntN(8) {
	case 0:
		b.Resistor = written(Limiter{Kind: Fixed, Ohms: quantity.Ohms(20 + 1000*r.Float64())})
	case 1:
		b.Driver = driver(b.Current.V, quantity.Volts(0.1+r.Float64()))
	case 2:
		b.Parallel = written(true)
		for len(b.Lamps) < 2 {
			b.Lamps = append(b.Lamps, randomLamp(r))
		}
	}
	return b
}

// Every branch current within 0.1 % and every node within 1 mV of ngspice, an
// independent program, on random circuits. In a string that takes next to
// nothing the simulator's own leak (gmin) sets the voltages between its lamps,
// so those nodes are left out below 1 nA.
func TestAgainstNgspice(t *testing.T) {
	program := outside.Tool(t, "ngspice")
	count := 100
	if outside.Required() {
		count = 1000
	}
	r := rand.New(rand.NewPCG(3, 1))
	const batch = 100
	var currents, nodes int
	for from := 0; from < count; from += batch {
		solutions := make([]Solution, batch)
		for k := range solutions {
			s, found := Solve(randomCircuit(r))
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
func runNgspice(t *testing.T, program string, solutions []Solution) []map[string]float64 {
	t.Helper()
	dir := t.TempDir()
	var control strings.Builder
	control.WriteString("* batch\n.control\nset numdgt=12\n")
	for k := range solutions {
		name := filepath.Join(dir, fmt.Sprintf("c%d.cir", k))
		if err := os.WriteFile(name, []byte(solutions[k].Netlist()), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&control, "source %s\nop\necho circuit %d\nprint all\n", name, k)
		for _, e := range solutions[k].Elements() {
			if e.Kind == LampElement {
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
func compare(t *testing.T, k int, s *Solution, printed map[string]float64) (currents, nodes int) {
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
	for node, volts := range s.nodeVolts() {
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

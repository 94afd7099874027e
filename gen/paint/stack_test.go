package paint

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

// rowsOf prints a stack as "paint state" lines.
func rowsOf(a Area) string {
	var out []string
	for _, r := range a.Stack(Shelf{}) {
		out = append(out, fmt.Sprintf("%d %s %s", r.Number, r.Name, r.State))
	}
	return strings.Join(out, "; ")
}

func TestStackShowsPlanAndBench(t *testing.T) {
	p := func(names ...string) (out []Coat) {
		for _, n := range names {
			out = append(out, Coat{Paint: word(n)})
		}
		return out
	}
	for _, c := range []struct{ plan, laid, want string }{
		{"black silver white", "", "1 black not yet laid; 2 silver not yet laid; 3 white not yet laid"},
		{"black silver white", "black", "1 black laid; 2 silver not yet laid; 3 white not yet laid"},
		{"black silver white", "black black silver", "1 black laid; 2 silver laid; 3 white not yet laid"},
		{"black silver white", "black white", "1 black laid; 2 silver skipped; 3 white laid"},
		{"black silver white", "silver black", "1 silver laid; 2 black laid out of order; 3 white not yet laid"},
		{"primer grey", "primer grey gloss", "1 primer laid; 2 grey laid; 3 gloss laid, not planned"},
		{"grey grey", "grey", "1 grey laid; 2 grey not yet laid"},
		{"grey grey", "grey grey grey", "1 grey laid; 2 grey laid"},
		{"", "grey grey", "1 grey laid, not planned"},
	} {
		a := Area{Planned: p(strings.Fields(c.plan)...)}
		for i, n := range strings.Fields(c.laid) {
			a.Laid = append(a.Laid, Laid{Coat: Coat{Paint: word(n)}, When: on(1, 10+i, 0)})
		}
		if got := rowsOf(a); got != c.want {
			t.Errorf("planned %q, laid %q:\n%s\nwant:\n%s", c.plan, c.laid, got, c.want)
		}
	}
}

// A coat of another purpose is another coat: white for light blocking is not
// the white of the panel.
func TestStackKeepsPurposesApart(t *testing.T) {
	a := Area{Planned: plan(coat("white", LightBlocking), coat("white", Base))}
	a.Laid = []Laid{lay("white", Base, on(1, 10, 0))}
	if got, want := rowsOf(a), "1 white skipped; 2 white laid"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// What the sitting wrote of how it was done goes before the plan.
func TestFactsOfACoat(t *testing.T) {
	planned, laid := coat("white", Base), lay("white", Base, on(1, 10, 0))
	planned.Passes, planned.Method, laid.Passes = w(3, "3"), word("airbrush"), w(5, "5")
	a := Area{Planned: plan(planned), Laid: []Laid{laid}}
	if f := a.Stack(nil)[0].Facts(); f.Passes.V != 5 || f.Method.V != "airbrush" || a.Planned[0].Passes.V != 3 {
		t.Errorf("%+v", f)
	}
}

// Whatever was planned and laid, each planned coat stands in exactly one row
// and each laid one too, and laid layers keep the order of time within a row.
func TestStackLosesNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	names := []string{"a", "b", "c"}
	for range 3000 {
		var a Area
		for range random.IntN(6) {
			a.Planned = append(a.Planned, Coat{Paint: word(names[random.IntN(3)])})
		}
		for range random.IntN(7) {
			a.Laid = append(a.Laid, Laid{Coat: Coat{Paint: word(names[random.IntN(3)])}, When: on(1, 0, 0).Add(time.Duration(random.IntN(1000)) * time.Minute)})
		}
		planned, laid := map[*Coat]int{}, map[*Laid]int{}
		for _, r := range a.Stack(nil) {
			if r.Plan != nil {
				planned[r.Plan]++
			}
			for _, l := range r.Laid {
				laid[l]++
			}
			if !slices.IsSortedFunc(r.Laid, func(x, y *Laid) int { return x.When.Compare(y.When) }) {
				t.Fatalf("layers out of time: %+v", r)
			}
			if (r.Plan == nil) != (r.State == Extra) || (len(r.Laid) == 0) != (r.State == Waiting || r.State == Skipped) {
				t.Fatalf("state %s of %+v", r.State, r)
			}
		}
		if len(planned) != len(a.Planned) || len(laid) != len(a.Laid) {
			t.Fatalf("%d of %d planned and %d of %d laid coats stand in rows", len(planned), len(a.Planned), len(laid), len(a.Laid))
		}
		for _, n := range planned {
			if n != 1 {
				t.Fatal("a planned coat stands in two rows")
			}
		}
	}
}

package wiring

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Slack is what a piece of wire gets beyond the way it goes.
type Slack struct {
	End   quantity.Metres // at each end, to strip and to solder
	Share quantity.Share  // of the length, for bends
}

// UsualSlack is 15 mm an end and 5 % of the length (common practice, no source).
var UsualSlack = Slack{0.015, 0.05}

// Cut is one piece of wire to cut.
type Cut struct {
	Circuit  string
	Ref      string // W2+, L5−; numbered within the circuit
	From, To source.Message
	Length   quantity.Metres // as it lies in the model
	Cut      quantity.Metres // with slack, rounded up to a full millimetre
}

// Spool is all pieces of one gauge and colour.
type Spool struct {
	Wire   source.Message // 34 AWG
	Colour string         // empty: not said
	copper quantity.Metres
	Cuts   []Cut // longest first
	Total  quantity.Metres
}

// All is how much of the wire all pieces take.
func (s Spool) All() quantity.Amount { return quantity.About(s.Total) }

// pieceLength is the length to cut: 1.05·length + 2·15 mm by UsualSlack.
func (s Slack) pieceLength(length quantity.Metres) quantity.Metres {
	mm := (length*quantity.Metres(1+s.Share) + 2*s.End).Millimetres()
	return quantity.Metres(math.Ceil(mm-1e-6) / 1000)
}

// CutList lists every piece of wire of circuits, grouped by gauge and colour,
// thick wire first. Runs without a length are named in the second result.
func CutList(all []circuit.Solution, slack Slack) (spools []Spool, unknown []source.Message) {
	c := cutter{slack: slack}
	for i := range all {
		s := &all[i]
		if !s.Solved {
			continue
		}
		for k, j := range s.Junctions {
			from := source.Word("the base")
			if k > 0 {
				from = s.JunctionName(j.From)
			}
			c.run(s.Name, wireRef("W", k), j.Feed, from, s.JunctionName(k))
		}
		for k := range s.Branches {
			b := &s.Branches[k]
			c.run(s.Name, wireRef("L", k), b.Lead, s.JunctionName(b.Junction), as(b.Name))
		}
	}
	for k := range c.spools {
		slices.SortStableFunc(c.spools[k].Cuts, func(a, b Cut) int { return cmp.Compare(b.Cut, a.Cut) })
	}
	slices.SortStableFunc(c.spools, func(a, b Spool) int {
		return cmp.Or(cmp.Compare(b.copper, a.copper), cmp.Compare(a.Wire.String(), b.Wire.String()), cmp.Compare(a.Colour, b.Colour))
	})
	return c.spools, c.unknown
}

// wireRef names the k-th run of a kind: W1, L3.
func wireRef(letter string, k int) string { return fmt.Sprintf("%s%d", letter, k+1) }

// cutter collects pieces on their spools.
type cutter struct {
	slack   Slack
	spools  []Spool
	unknown []source.Message
}

// run adds the pieces of a pair of wires. A connector parts each wire in two,
// with slack at either end of both; one at the beginning is where the wire begins.
func (c *cutter) run(name, ref string, result circuit.RunResult, from, to source.Message) {
	r, plug := result.Run, as(result.Plug)
	if !r.Length.Set || !(r.Length.V > 0) {
		c.unknown = append(c.unknown, source.Say("%s, %s to %s", ref, from, to))
		return
	}
	plus, minus := pairColours(r.Colour.V)
	for i, colour := range []string{plus, minus} {
		s, sign := c.spool(r, colour), []string{"+", "−"}[i]
		add := func(ref string, from, to source.Message, length quantity.Metres) {
			cut := Cut{name, ref + sign, from, to, length, c.slack.pieceLength(length)}
			s.Cuts = append(s.Cuts, cut)
			s.Total += cut.Cut
		}
		switch after := r.Connector.After.V; {
		case plug.Empty():
			add(ref, from, to, r.Length.V)
		case after <= 0:
			add(ref, joined(from, plug), to, r.Length.V)
		case after >= r.Length.V:
			add(ref, from, joined(plug, to), r.Length.V)
		default:
			add(ref+"a", from, plug, after)
			add(ref+"b", plug, to, r.Length.V-after)
		}
	}
}

func (c *cutter) spool(r circuit.Run, colour string) *Spool {
	wire := sizeText(r)
	if wire.Empty() {
		wire = source.Word("wire")
	}
	at := slices.IndexFunc(c.spools, func(s Spool) bool { return s.Wire.String() == wire.String() && s.Colour == colour })
	if at < 0 {
		at = len(c.spools)
		c.spools = append(c.spools, Spool{Wire: wire, Colour: colour, copper: r.Size.V.Copper})
	}
	return &c.spools[at]
}

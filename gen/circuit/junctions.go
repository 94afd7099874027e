package circuit

import (
	"spruelight/gen/source"
)

var ruleJunctionName = &source.Rule{Name: "junction-name", Severity: source.Stop, Source: arithmetic,
	Reason: "Every branch and feed hangs on one junction, known by its name.",
	Keys:   "build circuits[]: junction; build circuits[].junctions[]: name, from; build circuits[].branches[]: junction"}

// readJunctions looks up the tree and puts it in an order in which each
// junction follows the one that feeds it.
func (p *plan) readJunctions() {
	first := p.in.Junction.Or("first junction")
	p.junctions = []JunctionResult{{Name: first, From: -1, Feed: p.run(p.in.Feed, source.Word("the feed"))}}
	index := map[string]int{first: 0}
	for _, j := range p.in.Junctions {
		if _, twice := index[j.Name.V]; twice || j.Name.V == "" {
			p.found.Add(ruleJunctionName.At(j.Name.At, "give every junction a name of its own",
				"junction %q is named twice or not at all", j.Name.V))
			return
		}
		index[j.Name.V] = len(p.junctions)
		p.junctions = append(p.junctions, JunctionResult{Name: j.Name.V, Feed: p.run(j.Run, source.Say("the feed to %s", j.Name.V))})
	}
	for i, j := range p.in.Junctions {
		if at, ok := p.junction(j.From, index); ok {
			p.junctions[i+1].From = at
		}
	}
	if !p.found.Stops() {
		p.orderJunctions()
	}
}

// junction looks up a name; nothing written means the first one.
func (p *plan) junction(name source.Value[string], index map[string]int) (int, bool) {
	if name.V == "" {
		return 0, true
	}
	at, ok := index[name.V]
	if !ok {
		names := make([]string, len(p.junctions))
		for i := range p.junctions {
			names[i] = p.junctions[i].Name
		}
		p.found.Add(ruleJunctionName.At(name.At, source.Say("write one of %s", source.Row(names)), "there is no junction %q", name.V))
	}
	return at, ok
}

var ruleJunctionLoop = &source.Rule{Name: "junction-loop", Severity: source.Stop, Source: arithmetic,
	Reason: "Junctions are fed one from another, beginning at the first; none can feed itself.",
	Keys:   "build circuits[].junctions[]: name, from"}

func (p *plan) orderJunctions() {
	placed := make([]bool, len(p.junctions))
	placed[0], p.order = true, []int{0}
	for progress := true; progress; {
		progress = false
		for i := range p.junctions {
			if !placed[i] && placed[p.junctions[i].From] {
				placed[i], progress = true, true
				p.order = append(p.order, i)
			}
		}
	}
	for i, ok := range placed {
		if !ok {
			j := p.in.Junctions[i-1]
			p.found.Add(ruleJunctionLoop.At(j.From.At, source.Say("let the chain begin at %s", p.junctions[0].Name),
				"junction %q is fed from itself, by way of %q", j.Name.V, j.From.V))
		}
	}
}

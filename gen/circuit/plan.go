package circuit

import (
	"fmt"
	"math"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// written wraps a value that has no place of its own.
func written[T any](v T) source.Value[T] { return source.Value[T]{V: v, Set: true} }

// Limits on the size of one circuit.
const (
	maxJunctions = 60
	maxBranches  = 400
	maxLamps     = 40 // in one branch
)

// Limits lists the bounds of this package for the guide.
var Limits = []source.Limit{
	{Of: "junctions of a circuit, the first counted", Most: fmt.Sprint(maxJunctions), Why: "The work grows with the cube of them; two circuits are worked out as readily.", Rule: ruleCircuitSize.Name},
	{Of: "branches of a circuit", Most: fmt.Sprint(maxBranches), Why: "A diagram of more cannot be read.", Rule: ruleCircuitSize.Name},
	{Of: "lamps of a branch", Most: fmt.Sprint(maxLamps), Why: "No supply at the bench lights more in series.", Rule: ruleBranchEmpty.Name},
}

// defaultCurrent is what a lamp gets when nothing is written: 2 to 5 mA suit
// most lamps inside a model (common practice, no source).
const defaultCurrent quantity.Amps = 0.005

// plan is a circuit with every name looked up and every default filled in.
type plan struct {
	in        *Input
	found     source.Findings
	assumed   assumptions
	series    quantity.Series
	tolerance quantity.Share
	supply    supplyPlan
	fuse      *Contact
	switched  *Contact
	feed      RunResult
	junctions []junctionPlan // the first one is the feed's end
	order     []int          // of junctions, each after the one that feeds it
	branches  []branchPlan
}

type junctionPlan struct {
	name   string
	parent int // -1 for the first
	feed   RunResult
}

type branchPlan struct {
	in       *Branch
	name     string
	junction int
	lamps    []lampPlan
	parallel bool
	wanted   quantity.Amps
	assumed  bool // wanted is a default
	limiter  limiter
	exact    quantity.Ohms
	lead     RunResult
	control  Control
}

// limiter is what limits a branch's current, settled.
type limiter struct {
	Limiter
	current quantity.Amps  // of a driver
	dropout quantity.Volts // of a driver: what it needs over itself
}

type lampPlan struct {
	in      *Fitted
	ref     string
	fibres  []*FibreBundle // that it feeds
	curve   Curve
	spread  float64 // V to either side of the curve
	rated   quantity.Amps
	limit   quantity.Amps
	reverse quantity.Volts
	bright  quantity.Brightness
}

// assumptions collects what was taken for granted: each once, with whom it
// concerns.
type assumptions struct {
	texts []string
	about map[string][]string
}

func (a *assumptions) add(about, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if a.about == nil {
		a.about = map[string][]string{}
	}
	list, known := a.about[text]
	if !known {
		a.texts = append(a.texts, text)
	}
	if about != "" && (len(list) == 0 || list[len(list)-1] != about) {
		list = append(list, about)
	}
	a.about[text] = list
}

func (a *assumptions) list() []string {
	var all []string
	for _, text := range a.texts {
		if about := a.about[text]; len(about) > 0 {
			text += " (" + strings.Join(about, ", ") + ")"
		}
		all = append(all, text)
	}
	return all
}

// newPlan reads an input. The plan can be solved if its findings do not stop.
func newPlan(in *Input) *plan {
	p := &plan{in: in, series: in.Series}
	if p.series.Name == "" {
		p.series = quantity.E24
	}
	p.tolerance = in.Tolerance.Or(p.series.Tolerance)
	if p.tolerance < 0 || p.tolerance > 0.5 {
		p.found.Add(ruleBranchValue.At(in.Tolerance.At, "write a tolerance from 0 % to 50 %, like 5 %", "a resistor tolerance of %v cannot be", p.tolerance))
		return p
	}
	if len(in.Junctions) >= maxJunctions || len(in.Branches) > maxBranches {
		p.found.Add(ruleCircuitSize.At(in.place(), "split it into several circuits", "circuit %q has %d junctions and %d branches; at most %d and %d are worked out",
			in.Name.V, len(in.Junctions)+1, len(in.Branches), maxJunctions, maxBranches))
		return p
	}
	p.readSupply()
	p.readContacts()
	p.readJunctions()
	p.readBranches()
	return p
}

// contact checks a run's connector and returns the resistance of one contact.
func (p *plan) contact(r *Run) quantity.Ohms {
	c := &r.Connector
	if c.After.Set && (c.After.V < 0 || c.After.V > r.Length.V) {
		p.found.Add(ruleConnector.At(c.After.At, "measure along the wire from the supply's side", "the connector sits %v along a wire of %v", c.After.V, r.Length.V))
		c.After = source.Value[quantity.Metres]{}
	}
	if c.Resistance.Set && !(c.Resistance.V >= 0 && c.Resistance.V <= mostContact) {
		p.found.Add(ruleConnector.At(c.Resistance.At, "write the resistance of one contact, like 20 mohm", "a contact of %v cannot be", c.Resistance.V))
		c.Resistance = source.Value[quantity.Ohms]{}
	}
	return c.Resistance.V
}

// mostContact is a contact so bad that it is none.
const mostContact = 1000.0

// NoWire begins the assumption about runs of which nothing is written.
const NoWire = "no wire is written, so none is reckoned with"

// run works out a pair of wires, saying so where only half of it is written.
func (p *plan) run(r Run, what string) RunResult {
	switch {
	case r.Size.Set && r.Length.Set:
		ohms := WireOhms(r.Size.V, 2*r.Length.V)
		if r.Length.V < 0 || !(ohms < 1e6) {
			p.found.Add(ruleBranchValue.At(r.Length.At, "write the length one way, like 180 mm", "a wire of %v cannot be", r.Length.V))
			return RunResult{Run: r}
		}
		ohms += 2 * p.contact(&r)
		return RunResult{Run: r, Ohms: ohms}
	case r.Size.Set:
		p.found.Add(ruleRunIncomplete.At(r.Size.At, "add the length one way, like length: 180 mm", "the wire of %s has no length", what))
	case r.Length.Set:
		p.found.Add(ruleRunIncomplete.At(r.Length.At, "add the wire, like wire: 34 AWG", "the length of %s names no wire", what))
	default:
		p.assumed.add(what, "%s", NoWire)
	}
	return RunResult{Run: r}
}

func (p *plan) readContacts() {
	in := p.in
	if f := in.Fuse; f.Rated.Set || f.Text.Set || f.Resistance.Set {
		p.fuse = &Contact{Text: f.Text.V, Ohms: f.Resistance.V}
		if f.Text.V == "" && f.Rated.V > 0 {
			p.fuse.Text = f.Rated.V.String()
		}
		if !f.Resistance.Set && f.Rated.V > 0 {
			// Small cartridge fuses drop about 0.1 V cold at their rated
			// current (common practice, no source).
			p.fuse.Ohms = quantity.Ohms(0.1 / float64(f.Rated.V))
			p.assumed.add("", "fuse of %s ohm cold", quantity.Round(float64(p.fuse.Ohms), 2))
		}
	}
	if in.Switch.Set {
		p.switched = &Contact{Text: in.Switch.V}
	}
	p.feed = p.run(in.Feed, "the feed")
}

// readJunctions looks up the tree and puts it in an order in which each
// junction follows the one that feeds it.
func (p *plan) readJunctions() {
	first := p.in.Junction.Or("first junction")
	p.junctions = []junctionPlan{{name: first, parent: -1}}
	index := map[string]int{first: 0}
	for _, j := range p.in.Junctions {
		if _, twice := index[j.Name.V]; twice || j.Name.V == "" {
			p.found.Add(ruleJunctionName.At(j.Name.At, "give every junction a name of its own", "junction %q is named twice or not at all", j.Name.V))
			return
		}
		index[j.Name.V] = len(p.junctions)
		p.junctions = append(p.junctions, junctionPlan{name: j.Name.V, feed: p.run(j.Run, "the feed to "+j.Name.V)})
	}
	for i, j := range p.in.Junctions {
		if at, ok := p.junction(j.From, index); ok {
			p.junctions[i+1].parent = at
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
			names[i] = p.junctions[i].name
		}
		p.found.Add(ruleJunctionName.At(name.At, "write one of "+strings.Join(names, ", "), "there is no junction %q", name.V))
	}
	return at, ok
}

func (p *plan) orderJunctions() {
	placed := make([]bool, len(p.junctions))
	placed[0], p.order = true, []int{0}
	for progress := true; progress; {
		progress = false
		for i := range p.junctions {
			if !placed[i] && placed[p.junctions[i].parent] {
				placed[i], progress = true, true
				p.order = append(p.order, i)
			}
		}
	}
	for i, ok := range placed {
		if !ok {
			j := p.in.Junctions[i-1]
			p.found.Add(ruleJunctionLoop.At(j.From.At, "let the chain begin at "+p.junctions[0].name, "junction %q is fed from itself, by way of %q", j.Name.V, j.From.V))
		}
	}
}

func (p *plan) readBranches() {
	in := p.in
	if len(in.Branches) == 0 {
		p.found.Add(ruleCircuitEmpty.At(in.place(), "add a branch with its lamps", "circuit %q has no branches", in.Name.V))
	}
	index := map[string]int{}
	for i, j := range p.junctions {
		index[j.name] = i
	}
	lamp := max(in.First.Lamp, 1)
	p.branches = make([]branchPlan, len(in.Branches))
	for i := range in.Branches {
		b := &p.branches[i]
		b.in = &in.Branches[i]
		b.name = b.in.Name.V
		if b.name == "" {
			b.name = fmt.Sprintf("branch %d", i+1)
		}
		b.junction, _ = p.junction(b.in.Junction, index)
		b.parallel = b.in.Parallel.V && len(b.in.Lamps) > 1
		b.control = readControl(b.in.Control)
		b.lead = p.run(b.in.Lead, "the lead of "+b.name)
		p.readLamps(b, &lamp)
		if !p.found.Stops() {
			p.readLimiter(b)
		}
	}
}

func (p *plan) readLamps(b *branchPlan, number *int) {
	if n := len(b.in.Lamps); n == 0 || n > maxLamps {
		p.found.Add(ruleBranchEmpty.At(b.in.place(), fmt.Sprintf("give it 1 to %d lamps", maxLamps), "branch %q has %d lamps", b.name, n))
		return
	}
	for i := range b.in.Lamps {
		l := p.readLamp(&b.in.Lamps[i], b.name)
		l.ref = LampRef(*number)
		l.fibres = p.in.fedBy(l.ref)
		*number++
		b.lamps = append(b.lamps, l)
	}
}

// readLamp fits a lamp's curve, filling in from the typical lamp of its colour
// what is not written.
func (p *plan) readLamp(in *Fitted, branch string) lampPlan {
	model, sheet := in.Lamp.V, &in.Type
	if model == "" {
		model = sheet.Colour.V + " lamp"
	}
	base, err := Typical(sheet.Colour.V)
	forward := sheet.known()
	if len(forward) == 0 {
		if err != nil {
			p.found.Add(ruleLampUnknown.At(in.Lamp.At, "write the lamp's forward voltage from its data sheet, like forward: 2.0 V @ 20 mA; colours with a typical lamp are "+strings.Join(TypicalColours, ", "), "lamp %q of %s: %v", model, branch, err))
			return lampPlan{in: in}
		}
		forward = base.Forward
		p.assumed.add(model, "typical curve of a %s lamp", ColourFamily(sheet.Colour.V))
	}
	points := make([]quantity.Point, len(forward))
	for i, f := range forward {
		points[i] = f.V
	}
	curve, err := FitCurve(points)
	if err != nil {
		p.found.Add(ruleLampCurve.At(forward[len(forward)-1].At, "write points from the data sheet with rising current and voltage, like [2.75 V @ 2 mA, 3.2 V @ 20 mA]", "lamp %q: %v", model, err))
		return lampPlan{in: in}
	}
	if curve.Assumed != "" {
		p.assumed.add(model, "%s", curve.Assumed)
	}
	l := lampPlan{in: in, curve: curve, spread: math.Abs(float64(sheet.Spread.V)), rated: sheet.Rated.V, limit: sheet.Limit.V, reverse: sheet.Reverse.V,
		bright: sheet.Intensity.V}
	p.fillLamp(&l, base, model)
	return l
}

// otherSpread is taken where neither the lamp nor its colour says more.
const otherSpread = 0.2

func (p *plan) fillLamp(l *lampPlan, base Lamp, model string) {
	if !l.in.Type.Spread.Set {
		l.spread = otherSpread
		if base.Spread.V > 0 {
			l.spread = float64(base.Spread.V)
		}
		p.assumed.add(model, "forward voltages up to %s V apart from the curve", quantity.Round(l.spread, 2))
	}
	if l.rated <= 0 {
		l.rated = base.Rated.V
	}
	if l.rated <= 0 || l.limit > 0 && l.rated > l.limit {
		l.rated = l.limit
	}
	if l.limit <= 0 && base.Limit.V > 0 {
		l.limit = max(base.Limit.V, l.rated)
		p.assumed.add(model, "absolute limit %s", l.limit)
	}
	if l.reverse <= 0 {
		l.reverse = base.Reverse.V
	}
}

// readLimiter settles what limits a branch's current and what is wanted.
func (p *plan) readLimiter(b *branchPlan) {
	b.limiter = limiter{Limiter: b.in.Resistor.V}
	r := &b.limiter
	if d := b.in.Driver; d.Current.Set {
		*r = limiter{Limiter{Kind: ConstantCurrent, Tolerance: d.Tolerance.V}, d.Current.V, d.Dropout.V}
	}
	if r.Kind == Fixed && r.Ohms == 0 {
		r.Kind = None
	}
	if bad := r.Ohms < 0 || r.Ohms > 1e9 || r.Kind == ConstantCurrent && !(r.current > 0 && r.current <= 10 && r.dropout >= 0 && r.dropout < 100); bad || r.Tolerance < 0 || r.Tolerance > 0.5 {
		p.found.Add(ruleBranchValue.At(b.in.limiterAt(), "write auto, a value like 470 ohm, or driver: {current: 10 mA, dropout: 0.5 V}", "what limits the current of branch %q lies outside what can be", b.name))
		return
	}
	if r.Tolerance == 0 {
		r.Tolerance = p.tolerance
		if !p.in.Tolerance.Set && r.Kind != None {
			p.assumed.add("", "resistors within %v, as the %s series is made for", p.tolerance, p.series.Name)
		}
	}
	b.wanted = b.in.Current.V
	switch {
	case b.in.Current.Set:
		if !(b.wanted > 0) || b.wanted > 10 {
			p.found.Add(ruleBranchValue.At(b.in.Current.At, "write the current each lamp shall get, like 5 mA", "branch %q wants %v", b.name, b.wanted))
		}
	case r.Kind == ConstantCurrent:
		b.wanted = r.current
	case r.Kind == Auto:
		b.wanted, b.assumed = defaultCurrent, true
		for _, l := range b.lamps {
			if l.rated > 0 {
				b.wanted = min(b.wanted, l.rated)
			}
		}
		p.assumed.add(b.name, "wanted current %v", b.wanted)
	}
}

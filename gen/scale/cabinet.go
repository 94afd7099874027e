package scale

import (
	"cmp"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Cabinet is a place to show models: one or more shelves of one size.
type Cabinet struct {
	Name    source.Value[string]
	Width   source.Value[quantity.Metres] // clear, between the side walls
	Depth   source.Value[quantity.Metres] // clear, from glass to back
	Height  source.Value[quantity.Metres] // clear, above one shelf
	Holds   source.Value[quantity.Kilograms]
	Shelves source.Value[int] // 1 where nothing is said
}

// Exhibit is a finished model as it will stand: with its base.
type Exhibit struct {
	ID, Name string
	At       source.Span
	Size     Size               // footprint: length along the shelf, width into it; and height
	Weight   quantity.Kilograms // 0: not known
	Piece    *Piece             // for its silhouette on the plan; may be nil
}

// Clearance is how much air a model wants around it.
type Clearance struct {
	Around quantity.Metres // to walls, glass and neighbours
	Above  quantity.Metres
}

// UsualClearance is room for two fingers at the sides and a hand's breadth
// above for lifting out. Common practice, no source; shown as assumed.
var UsualClearance = Clearance{Around: 0.020, Above: 0.030}

// Fit says whether a model stands on one empty shelf of a cabinet.
type Fit struct {
	Cabinet string
	Fits    bool
	Turned  bool            // a quarter turn, its length into the shelf
	Beside  quantity.Metres // air left at both sides together, beyond nothing at all
	Behind  quantity.Metres // air left in the depth
	Over    quantity.Metres // air left above
	Why     source.Message  // what is in the way, where it does not fit
}

// FitOn works out how a model stands on an empty shelf of a cabinet, turned
// only where it must be.
func FitOn(e Exhibit, c Cabinet, air Clearance) Fit {
	straight := fitOne(e, c, air, false)
	if straight.Fits || e.Size.Length == e.Size.Width {
		return straight
	}
	if turned := fitOne(e, c, air, true); turned.Fits {
		return turned
	}
	return straight
}

// eps forgives the last bits of a sum of metres.
const eps = 1e-9

func fitOne(e Exhibit, c Cabinet, air Clearance, turned bool) Fit {
	across, into := e.Size.Length, e.Size.Width
	if turned {
		across, into = into, across
	}
	f := Fit{Cabinet: c.Name.V, Turned: turned, Beside: c.Width.V - across, Behind: c.Depth.V - into, Over: c.Height.V - e.Size.Height}
	switch {
	case f.Beside < 2*air.Around-eps:
		f.Why = source.Say("too long by %s", quantity.About(2*air.Around-f.Beside))
	case f.Behind < 2*air.Around-eps:
		f.Why = source.Say("too deep by %s", quantity.About(2*air.Around-f.Behind))
	case f.Over < air.Above-eps:
		f.Why = source.Say("too high by %s", quantity.About(air.Above-f.Over))
	case c.Holds.Set && e.Weight > c.Holds.V:
		f.Why = source.Say("too heavy by %s", quantity.About(e.Weight-c.Holds.V))
	default:
		f.Fits = true
	}
	return f
}

// PackingRule is the rule by which shelves are filled, for the page.
const PackingRule = "Longest first, each on the first shelf with room for it in the order the cabinets are written; " +
	"one row to a shelf, turned a quarter only where no shelf has room for it straight."

// Shelf is one shelf with what stands on it.
type Shelf struct {
	Cabinet Cabinet
	Number  int // from 1, within its cabinet
	Places  []Place
	Load    quantity.Kilograms
	Unknown int // models on it whose weight is not known
	Free    quantity.Metres
}

// Place is where a model stands: its left front corner from the shelf's.
type Place struct {
	Exhibit
	X, Y         quantity.Metres
	Across, Into quantity.Metres
	Turned       bool
}

// Plan is a full arrangement.
type Plan struct {
	Shelves  []Shelf
	Fits     [][]Fit // for each exhibit in the order given, each cabinet
	Left     []Unplaced
	Findings []source.Finding
}

// Unplaced is a model for which no shelf was found.
type Unplaced struct {
	Exhibit
	Why  source.Message
	full bool // every shelf that might take it
}

var (
	ruleNoRoom = &source.Rule{Name: "cabinet-too-small", Severity: source.Warn,
		Reason: "A model that fits no declared cabinet, with the air it wants around it, has no place to be shown.",
		Source: "arithmetic; clearance common practice, no source",
		Keys: "build: name, display; shelf <name>: name, display; workshop cabinets[]: width, depth, height; " +
			"workshop: clearance"}
	ruleShelvesFull = &source.Rule{Name: "cabinet-full", Severity: source.Note,
		Reason: "A model that would fit an empty shelf finds none with room left.",
		Source: "arithmetic",
		Keys:   "build: name, display; shelf <name>: name, display; workshop cabinets[]: shelves, width"}
	ruleWeight = &source.Rule{Name: "cabinet-weight-unknown", Severity: source.Note,
		Reason: "A shelf's limit can only be held where the weights are known; weights not known count as nothing.",
		Source: "arithmetic",
		Keys:   "build display: weight; shelf <name>.display: weight; workshop cabinets[]: holds"}
)

// Arrange puts models on shelves by PackingRule and says of each cabinet
// whether it fits there.
func Arrange(exhibits []Exhibit, cabinets []Cabinet, air Clearance) Plan {
	p := Plan{Fits: make([][]Fit, len(exhibits))}
	for _, c := range cabinets {
		for n := range max(c.Shelves.Or(1), 1) {
			p.Shelves = append(p.Shelves, Shelf{Cabinet: c, Number: n + 1, Free: c.Width.V - air.Around})
		}
	}
	for i, e := range exhibits {
		for _, c := range cabinets {
			p.Fits[i] = append(p.Fits[i], FitOn(e, c, air))
		}
	}
	order := make([]int, len(exhibits))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := exhibits[a].Size, exhibits[b].Size
		return cmp.Or(cmp.Compare(max(y.Length, y.Width), max(x.Length, x.Width)), cmp.Compare(exhibits[a].Name, exhibits[b].Name))
	})
	for _, i := range order {
		p.place(exhibits[i], air)
	}
	p.judge(exhibits)
	return p
}

// place puts a model on the first shelf that takes it.
func (p *Plan) place(e Exhibit, air Clearance) {
	if e.Size.Length <= 0 || e.Size.Width <= 0 || e.Size.Height <= 0 {
		p.Left = append(p.Left, Unplaced{Exhibit: e, Why: source.Word("its footprint and height are not all known")})
		return
	}
	for _, turned := range []bool{false, true} {
		for i := range p.Shelves {
			if p.Shelves[i].take(e, air, turned) {
				return
			}
		}
	}
	p.Left = append(p.Left, Unplaced{Exhibit: e, Why: source.Word("no shelf has room left"), full: true})
}

// take puts a model at the right end of what stands on the shelf already.
func (s *Shelf) take(e Exhibit, air Clearance, turned bool) bool {
	across, into := e.Size.Length, e.Size.Width
	if turned {
		across, into = into, across
	}
	heavy := s.Cabinet.Holds.Set && s.Load+e.Weight > s.Cabinet.Holds.V
	if !fitOne(e, s.Cabinet, air, turned).Fits || heavy || across+air.Around > s.Free+eps {
		return false
	}
	at := s.Cabinet.Width.V - s.Free
	s.Places = append(s.Places, Place{Exhibit: e, X: at, Y: (s.Cabinet.Depth.V - into) / 2, Across: across, Into: into, Turned: turned})
	s.Free -= across + air.Around
	s.Load += e.Weight
	if e.Weight == 0 {
		s.Unknown++
	}
	return true
}

// judge reports models without a place, and shelves whose load is not known.
func (p *Plan) judge(exhibits []Exhibit) {
	for i := range p.Left {
		left := &p.Left[i]
		if !left.full {
			continue
		}
		fits := p.Fits[slices.IndexFunc(exhibits, func(e Exhibit) bool { return e.ID == left.ID })]
		best := nearestFit(fits)
		if best == nil {
			continue // no cabinet at all: nothing to say
		}
		if best.Fits {
			p.Findings = append(p.Findings, ruleShelvesFull.At(left.At, "add a shelf, or show it elsewhere",
				"%s fits %s, but no shelf has room left", left.Name, best.Cabinet))
			continue
		}
		left.Why = source.Say("%s for %s", best.Why, best.Cabinet)
		p.Findings = append(p.Findings, ruleNoRoom.At(left.At, "declare a larger cabinet, or show it elsewhere",
			"%s fits no cabinet: it is %s", left.Name, left.Why))
	}
	for _, s := range p.Shelves {
		if s.Unknown > 0 && s.Cabinet.Holds.Set {
			p.Findings = append(p.Findings, ruleWeight.At(s.Cabinet.Holds.At, "weigh them and write it under display",
				"%s: the weight of %d on it is not known", s.Name(), s.Unknown))
		}
	}
}

// nearestFit returns the cabinet that fits, else the one that misses by least.
func nearestFit(fits []Fit) *Fit {
	var best *Fit
	for i := range fits {
		if best == nil || fits[i].Fits && !best.Fits || fits[i].Fits == best.Fits && fits[i].spare() > best.spare() {
			best = &fits[i]
		}
	}
	return best
}

// spare is the tightest of the three clearances.
func (f Fit) spare() quantity.Metres { return min(f.Beside, f.Behind, f.Over) }

// Name returns how the shelf is called: by its cabinet, with a number where
// that has several.
func (s Shelf) Name() source.Message {
	if s.Cabinet.Shelves.Or(1) <= 1 {
		return source.Say("%s", s.Cabinet.Name.V)
	}
	return source.Say("%s, shelf %d", s.Cabinet.Name.V, s.Number)
}

// LoadText says what the shelf carries of what it may.
func (s Shelf) LoadText() source.Message {
	load := source.Say("%s", quantity.About(s.Load))
	if s.Cabinet.Holds.Set {
		load = source.Say("%s of %s", quantity.About(s.Load), s.Cabinet.Holds.V)
	}
	if s.Unknown > 0 {
		load = source.Say("%s, %d not weighed", load, s.Unknown)
	}
	return load
}

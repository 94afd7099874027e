package paint

import (
	"slices"
	"time"
)

// Advice says whether something may be done to an area, and if not, when.
type Advice struct {
	Stage   Stage
	Known   bool // false: a coat's data sheet would have to say
	Now     bool
	From    time.Time // the earliest moment from now on
	Until   time.Time // the end of a recoat window that is open now; zero where there is none
	Again   time.Time // when it opens again
	Late    bool      // the only recoat window has closed: sand first
	Because string    // the coat that decides
	Assumed bool
}

// advised are the stages that the table of an area shows.
var advised = []Stage{Handle, Recoat, Other, Mask, Apply, Soak, Cured}

// Advise says what may be done to an area at a moment, from its laid coats.
// Nothing is said of an area without any.
func Advise(curings []Curing, moment time.Time) []Advice {
	if len(curings) == 0 {
		return nil
	}
	out := make([]Advice, 0, len(advised))
	for _, s := range advised {
		if s == Recoat {
			out = append(out, adviseRecoat(&curings[len(curings)-1], moment))
			continue
		}
		out = append(out, adviseStage(s, deciding(s, curings), moment))
	}
	return out
}

// deciding returns the coats that decide about a stage. Tape, fingers and
// solvents of another family reach every coat; decals and washes the top one.
func deciding(s Stage, curings []Curing) []Curing {
	if s == Apply || s == Soak {
		return curings[len(curings)-1:]
	}
	return curings
}

// Next is the next planned coat of an area and when it may be laid.
type Next struct {
	Row *Row
	Advice
}

// nextCoat finds the first planned coat that is not laid, and nil where all
// are. On bare plastic it may be laid at once.
func nextCoat(rows []Row, curings []Curing, moment time.Time) *Next {
	i := slices.IndexFunc(rows, func(r Row) bool { return r.State == Waiting })
	if i < 0 {
		return nil
	}
	n := &Next{Row: &rows[i]}
	if len(curings) == 0 {
		n.Advice = Advice{Known: true, Now: true, From: moment}
		return n
	}
	top := &curings[len(curings)-1]
	switch stage, known := bears(top.Paint, n.Row); {
	case !known:
		n.Advice = Advice{Because: top.Name()}
	case stage == Recoat:
		n.Advice = adviseRecoat(top, moment)
	default:
		n.Advice = adviseStage(stage, deciding(stage, curings), moment)
	}
	return n
}

// bears returns the stage that a coat must have reached to bear another one.
func bears(top *Paint, over *Row) (Stage, bool) {
	switch {
	case over.For == Decals:
		return Apply, true
	case over.Paint == nil, over.Paint.Family.V == UnknownFamily, top.Family.V == UnknownFamily:
		return 0, false
	case over.For == Wash:
		return Soak, true
	case over.Paint.Family.V == top.Family.V:
		return Recoat, true
	case over.Paint.Family.V == Lacquer:
		return Cured, true
	}
	return Other, true
}

func adviseStage(s Stage, curings []Curing, moment time.Time) Advice {
	a := Advice{Stage: s, Known: true}
	for i := range curings {
		r := curings[i].Ready[s]
		if !r.Known {
			return Advice{Stage: s, Because: curings[i].Name()}
		}
		if a.Because == "" || r.From.After(a.From) {
			a.From, a.Because, a.Assumed = r.From, curings[i].Name(), r.Assumed
		}
	}
	a.Now = !moment.Before(a.From)
	return a
}

func adviseRecoat(top *Curing, moment time.Time) Advice {
	r := top.Ready[Recoat]
	a := Advice{Stage: Recoat, Known: r.Known, From: r.From, Because: top.Name(), Assumed: r.Assumed}
	if !r.Known {
		return a
	}
	switch top.Recoat(moment) {
	case RecoatNow:
		a.Now = true
		if top.Until.Known && !moment.After(top.Until.From) {
			a.Until, a.Again = top.Until.From, top.Again.From
		}
	case TooSoon:
		a.Until, a.Again = top.Until.From, top.Again.From
	case InGap:
		a.From = top.Again.From
	case TooLate:
		a.Late = true
	}
	return a
}

// Name names the coat.
func (c *Curing) Name() string { return c.Laid.Paint.V }

// AllNow reports whether everything may be done, with no window closing.
func AllNow(advice []Advice) bool {
	for _, a := range advice {
		if !a.Now || !a.Until.IsZero() {
			return false
		}
	}
	return len(advice) > 0
}

// Due is what becomes possible on an area at one time after the moment.
type Due struct {
	When    time.Time
	Area    string
	Stages  []Stage
	Because string // the coat
	Assumed bool   // one of them rests on an assumed time
	Closes  bool   // a recoat window closes instead of something opening
}

// Agenda lists what becomes possible after the moment, soonest first.
func Agenda(areas []AreaResult, moment time.Time) []Due {
	var due []Due
	add := func(d Due, s Stage) {
		for i := range due {
			if x := &due[i]; x.When.Equal(d.When) && x.Area == d.Area && x.Because == d.Because && x.Closes == d.Closes {
				x.Stages, x.Assumed = append(x.Stages, s), x.Assumed || d.Assumed
				return
			}
		}
		d.Stages = []Stage{s}
		due = append(due, d)
	}
	for i := range areas {
		for _, x := range areas[i].Now {
			d := Due{When: x.From, Area: areas[i].Name, Because: x.Because, Assumed: x.Assumed}
			if x.Known && !x.Now && !x.Late {
				add(d, x.Stage)
			}
			if x.Until.After(moment) {
				d.When, d.Closes = x.Until, true
				add(d, x.Stage)
			}
		}
	}
	slices.SortStableFunc(due, func(a, b Due) int { return a.When.Compare(b.When) })
	return due
}

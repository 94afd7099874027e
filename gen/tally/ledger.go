package tally

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"spruelight/gen/source"
)

// Row is what the ledger knows of one part.
//
// Loose parts are what is neither fitted nor gone; a spare is a loose one that
// no place is waiting for. A spare used stands in for one that is broken or
// lost: where the journal names none, one is taken to be spoiled (Implied).
type Row struct {
	Part, What string
	At         source.Span
	HaveKnown  bool // else Left and Spares mean nothing
	NeedKnown  bool // else ToFit and Spares mean nothing

	Have, Need int
	Got        int // from outside the kit: got or made
	Used       int // fitted, spares among them
	SparesUsed int
	Broken     int // Implied ones among them
	Implied    int
	Lost       int
	Elsewhere  int

	Left    int // loose, never below zero
	Missing int // logged beyond what there was
	ToFit   int // places that still wait for one; none once the build is finished
	Spares  int // Left - ToFit where that is above zero
	Short   int // ToFit - Left where that is above zero

	Entries []Entry
}

// Entry is one line of a part's history.
type Entry struct {
	Date    time.Time
	Sitting string
	Event   Event
	Count   int
	Left    int // loose ones afterwards; may be below zero, see Row.Missing
	To, Why string
	At      source.Span
}

var (
	rulePartEvent = &source.Rule{Name: "part-event", Severity: source.Stop,
		Reason: "What became of a part decides whether it is still there. A word outside the list would be counted nowhere.",
		Source: "this program's own words",
		Keys:   "sitting parts[]: part, event"}
	rulePartCount = &source.Rule{Name: "part-count", Severity: source.Warn,
		Reason: "A count of parts is a whole number of one or more.", Source: "arithmetic",
		Keys: "build parts[]: have, need; sitting parts[]: count"}
	rulePartTwice = &source.Rule{Name: "part-twice", Severity: source.Warn,
		Reason: "Two lines for one part would be two truths about how many there are.", Source: "arithmetic",
		Keys: "build parts[]: part"}
	rulePartUnlisted = &source.Rule{Name: "part-unlisted", Severity: source.Note,
		Reason: "How many are left of a part can be told only when the build says how many it had.", Source: "arithmetic",
		Keys: "sitting parts[]: part; build: parts"}
	rulePartOverdrawn = &source.Rule{Name: "part-overdrawn", Severity: source.Warn, Source: "arithmetic",
		Reason: "More of a part cannot be used, broken or lost than there were: either the count in the box or a sitting is wrong.",
		Keys:   "build parts[]: part, have; sitting parts[]: part, event, count"}
	rulePartShortPacked = &source.Rule{Name: "part-short-packed", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A kit that packs fewer than its instructions want is best claimed from its maker before work begins.",
		Keys:   "build parts[]: part, have, need"}
	rulePartShort = &source.Rule{Name: "part-short", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A missing part stops the work at the step that wants it; known early it can be asked for, cast or built meanwhile.",
		Keys:   "build parts[]: part, have, need; sitting parts[]: event"}
	rulePartLast = &source.Rule{Name: "part-no-spare", Severity: source.Note,
		Reason: "When the last spare is gone the next loss stops the work.", Source: "common practice, no source",
		Keys: "build parts[]: part, have, need"}
)

// Ledger keeps the account of a build's parts: first those of its list in
// their order, then others as the sittings name them.
func Ledger(b Build, parts []Part) ([]Row, source.Findings) {
	l := &ledger{finished: b.State == Shelf, index: map[string]int{}}
	for _, p := range parts {
		l.list(p)
	}
	for _, s := range inOrder(b.Sittings) {
		for _, e := range gainsFirst(s.Parts) {
			l.book(s, e)
		}
	}
	for i := range l.rows {
		l.close(i)
	}
	return l.rows, l.findings
}

type ledger struct {
	finished bool
	rows     []Row
	state    []account
	index    map[string]int
	findings source.Findings
}

// account is what a row needs while it is being kept.
type account struct {
	awaiting int         // broken or lost, not yet replaced by a spare
	short    source.Span // where it first became short, and still is
	overdraw source.Span // where it first fell below zero
	shortAt  bool
	overAt   bool
}

func (l *ledger) list(p Part) {
	name := p.Part.V
	if i, twice := l.index[name]; twice {
		l.findings.Add(rulePartTwice.At(p.Part.At, "keep one of the two lines",
			"part %s is listed twice", name).With(l.rows[i].At, "the first line"))
		return
	}
	l.checkCount(name, "have", p.Have)
	l.checkCount(name, "need", p.Need)
	l.open(Row{Part: name, What: p.What.V, At: p.Part.At, HaveKnown: p.Have.Set, NeedKnown: p.Need.Set,
		Have: max(p.Have.V, 0), Need: max(p.Need.V, 0)})
	if short := p.Need.V - p.Have.V; p.Have.Set && p.Need.Set && short > 0 && !l.finished {
		l.findings.Add(rulePartShortPacked.At(p.Have.At, "count again, then ask the maker for the missing ones",
			"the box holds %d of %s and %d are needed: %d short", p.Have.V, name, p.Need.V, short))
	}
}

func (l *ledger) checkCount(part, what string, n source.Value[int]) {
	if n.V < 0 {
		l.findings.Add(rulePartCount.At(n.At, "write zero or more", "part %s has %s: %d", part, what, n.V))
	}
}

func (l *ledger) open(r Row) int {
	l.index[r.Part] = len(l.rows)
	l.rows = append(l.rows, r)
	l.state = append(l.state, account{})
	return len(l.rows) - 1
}

// gainsFirst orders the events of one sitting, whose hours nobody wrote down:
// what came in, then what was spoiled, then what was fitted. So a spare that
// replaces a part broken the same evening is not counted as a second loss.
func gainsFirst(events []PartEvent) []PartEvent {
	rank := func(e PartEvent) int {
		switch Event(e.Event.V) {
		case Got, Made, Found, Repaired, TakenOff:
			return 0
		case Broken, Lost:
			return 1
		}
		return 2
	}
	sorted := slices.Clone(events)
	slices.SortStableFunc(sorted, func(a, b PartEvent) int { return cmp.Compare(rank(a), rank(b)) })
	return sorted
}

func (l *ledger) book(s Sitting, e PartEvent) {
	event, n := Event(e.Event.V), e.Count.Or(1)
	switch {
	case !slices.Contains(Events, event):
		l.findings.Add(rulePartEvent.At(e.Event.At, source.Say("write one of: %s", source.Or(Events)),
			"%q is not something that becomes of a part", e.Event.V))
		return
	case n < 1:
		l.findings.Add(rulePartCount.At(e.Count.At, "write how many, from 1", "part %s has count: %d", e.Part.V, n))
		return
	}
	i, known := l.index[e.Part.V]
	if !known {
		if event == Filled || event == Straightened {
			return // evidence only: nobody needs to count such a part
		}
		l.findings.Add(rulePartUnlisted.At(e.Part.At, "add it to parts in build.md with have and need",
			"part %s is not in the build's parts list", e.Part.V))
		i = l.open(Row{Part: e.Part.V, At: e.Part.At})
	}
	r, a := &l.rows[i], &l.state[i]
	r.apply(a, event, n)
	left := r.loose()
	r.Entries = append(r.Entries, Entry{Date: s.Date, Sitting: s.Slug, Event: event, Count: n, Left: left,
		To: e.To.V, Why: e.Why.V, At: e.Part.At})
	a.watch(r, left, e.Part.At, l.finished)
}

// apply counts one event.
func (r *Row) apply(a *account, event Event, n int) {
	switch event {
	case Used:
		r.Used += n
	case SpareUsed:
		r.Used += n
		r.SparesUsed += n
		implied := max(n-a.awaiting, 0)
		r.Implied += implied
		r.Broken += implied
		a.awaiting = max(a.awaiting-n, 0)
	case Broken:
		r.Broken += n
		a.awaiting += n
	case Lost:
		r.Lost += n
		a.awaiting += n
	case Found:
		r.Lost -= n
		a.awaiting = max(a.awaiting-n, 0)
	case Repaired:
		r.Broken -= n
		a.awaiting = max(a.awaiting-n, 0)
	case TakenOff:
		r.Used -= n
	case Elsewhere:
		r.Elsewhere += n
	case Got, Made:
		r.Got += n
	}
}

// loose counts what is neither fitted nor gone; below zero when more was
// logged than there was.
func (r *Row) loose() int { return r.Have + r.Got - r.Used - r.Broken - r.Lost - r.Elsewhere }

// watch remembers where a row ran into the red or became short.
func (a *account) watch(r *Row, left int, at source.Span, finished bool) {
	if !r.HaveKnown {
		return
	}
	if left >= 0 {
		a.overAt = false
	} else if !a.overAt {
		a.overAt, a.overdraw = true, at
	}
	short := r.NeedKnown && !finished && max(left, 0) < r.Need-r.Used
	if !short {
		a.shortAt = false
	} else if !a.shortAt {
		a.shortAt, a.short = true, at
	}
}

// close works out what a row comes to, and says what is wrong with it.
func (l *ledger) close(i int) {
	r, a := &l.rows[i], &l.state[i]
	l.clamp(r)
	if l.finished { // a finished model has every part it needs in place, logged or not
		r.Used = max(r.Used, r.Need)
	}
	if !r.HaveKnown {
		return
	}
	left := r.loose()
	r.Left, r.Missing = max(left, 0), max(-left, 0)
	if r.NeedKnown && !l.finished {
		r.ToFit = max(r.Need-r.Used, 0)
	}
	r.Spares, r.Short = max(r.Left-r.ToFit, 0), max(r.ToFit-r.Left, 0)
	l.judge(r, a)
}

// clamp refuses to find more than was lost, and its like.
func (l *ledger) clamp(r *Row) {
	for _, c := range []struct {
		n         *int
		said, was Event
	}{{&r.Lost, Found, Lost}, {&r.Broken, Repaired, Broken}, {&r.Used, TakenOff, Used}} {
		if *c.n < 0 {
			l.findings.Add(rulePartOverdrawn.At(r.at(c.said), "check the counts of both",
				"%d more of %s were %s than %s", -*c.n, r.Part, source.Word(string(c.said)), source.Word(string(c.was))))
			*c.n = 0
		}
	}
}

// at returns where the last event of a kind was written.
func (r *Row) at(event Event) source.Span {
	for _, e := range slices.Backward(r.Entries) {
		if e.Event == event {
			return e.At
		}
	}
	return r.At
}

func (l *ledger) judge(r *Row, a *account) {
	switch {
	case r.Missing > 0 && a.overAt:
		l.findings.Add(rulePartOverdrawn.At(a.overdraw,
			"correct have in build.md or the counts in the sittings, or log the extra ones as got or made",
			"%d more of %s used, broken or lost than the %d there were", r.Missing, r.Part, r.Have+r.Got).With(r.At, "the count in the box"))
	case r.Missing > 0: // only a finished build gets here: its need outweighs what was left
		l.findings.Add(rulePartOverdrawn.At(r.At, "say how it was replaced: got, made or repaired; or lower need if the place stayed empty",
			"the build is finished with %d fewer of %s than its need of %d", r.Missing, r.Part, r.Need))
	case r.Short > 0 && a.shortAt:
		l.findings.Add(rulePartShort.At(a.short, "ask the maker, cast or build a replacement, and log it as got or made",
			"%d of %s left and %d still to fit: %d short", r.Left, r.Part, r.ToFit, r.Short).With(r.At, "%s", r.account()))
	case r.NeedKnown && r.ToFit > 0 && r.Spares == 0 && r.Short == 0 && r.Have > r.Need:
		l.findings.Add(rulePartLast.At(r.at(r.lastLoss()), "handle the rest with care; cast a copy while there is one to copy",
			"no spare of %s is left and %d are still to fit", r.Part, r.ToFit))
	}
}

func (r *Row) lastLoss() Event {
	if len(r.Entries) == 0 {
		return Used
	}
	return r.Entries[len(r.Entries)-1].Event
}

// account is the row's sum in words: "8 packed, 3 lost, 5 left".
func (r *Row) account() source.List {
	all := []source.Message{source.Say("%d packed", r.Have)}
	for _, x := range []struct {
		n    int
		form string
	}{{r.Got, "%d got besides"}, {r.Used, "%d fitted"}, {r.Broken, "%d broken"}, {r.Lost, "%d lost"}, {r.Elsewhere, "%d used elsewhere"}} {
		if x.n > 0 {
			all = append(all, source.Say(x.form, x.n))
		}
	}
	return source.Row(append(all, source.Say("%d left", r.Left)))
}

// counted is a number of things: "1 part", "2 parts", "no parts".
func counted(n int, noun string) fmt.Stringer {
	if n == 0 {
		return source.Word("no " + noun + "s")
	}
	return source.Count{N: n, Noun: noun}
}

package paint

import (
	"slices"
	"time"

	"spruelight/gen/source"
)

// State says how a row of the stack stands between plan and bench.
type State int

// The states.
const (
	Done    State = iota // planned and laid
	Waiting              // planned, not yet laid
	Skipped              // planned, not laid, and a later coat is already on
	Extra                // laid, not planned
	Moved                // planned and laid, but not at its place in the order
)

var stateNames = [...]string{"laid", "not yet laid", "skipped", "laid, not planned", "laid out of order"}

// String names the state for a reader.
func (s State) String() string { return stateNames[s] }

// Row is one coat of an area's stack: what was planned, what was laid.
type Row struct {
	Number int // from the plastic outward, from 1
	Plan   *Coat
	Laid   []*Laid // the layers of this coat, in the order of time
	State  State
	For    Purpose
	Paint  *Paint // nil for decals and for a name that is not known
	Name   string
}

// Title is the coat's name; only that of decals is a word of the language.
func (r *Row) Title() source.Message {
	if r.Paint == nil && r.For == Decals {
		return source.Word(r.Name)
	}
	return source.Say("%s", r.Name)
}

// First returns the facts to show: the plan's, or the first layer's.
func (r *Row) First() *Coat {
	if r.Plan != nil {
		return r.Plan
	}
	return &r.Laid[0].Coat
}

// Facts returns how the coat was laid: the plan's facts, and over them those
// that a sitting wrote.
func (r *Row) Facts() *Coat {
	out := *r.First()
	for _, l := range r.Laid {
		over(&out.Thinned, l.Thinned)
		over(&out.Method, l.Method)
		over(&out.Passes, l.Passes)
		over(&out.Pressure, l.Pressure)
		over(&out.Nozzle, l.Nozzle)
	}
	return &out
}

func over[T any](into *source.Value[T], written source.Value[T]) {
	if written.Set {
		*into = written
	}
}

// When returns when the last layer was laid, and false where none was.
func (r *Row) When() (time.Time, bool) {
	if len(r.Laid) == 0 {
		return time.Time{}, false
	}
	return r.Laid[len(r.Laid)-1].When, true
}

// Stack lines the laid coats of an area up with the planned ones, from the
// plastic outward. A coat that was laid again right away is one row.
func (a *Area) Stack(paints Shelf) []Row {
	laid := byTime(a.Laid)
	pairs := align(a.Planned, laid)
	rows := make([]Row, 0, len(a.Planned)+len(laid))
	next := 0
	waiting := func(upTo int) {
		for ; next < upTo; next++ {
			rows = append(rows, Row{Plan: &a.Planned[next], State: Waiting})
		}
	}
	for i, l := range laid {
		if pairs[i] >= 0 {
			waiting(pairs[i])
			rows = append(rows, Row{Plan: &a.Planned[pairs[i]], Laid: []*Laid{l}, State: Done})
			next = pairs[i] + 1
			continue
		}
		if n := len(rows); n > 0 && len(rows[n-1].Laid) > 0 && sameCoat(rows[n-1].First(), &l.Coat) {
			rows[n-1].Laid = append(rows[n-1].Laid, l)
			continue
		}
		rows = append(rows, Row{Laid: []*Laid{l}, State: Extra})
	}
	waiting(len(a.Planned))
	return number(markSkipped(marry(rows)), paints)
}

func byTime(coats []Laid) []*Laid {
	laid := make([]*Laid, len(coats))
	for i := range coats {
		laid[i] = &coats[i]
	}
	slices.SortStableFunc(laid, func(a, b *Laid) int { return a.When.Compare(b.When) })
	return laid
}

// sameCoat reports whether a laid coat may be the planned one: the same paint,
// and no other purpose where the sitting names one.
func sameCoat(plan, laid *Coat) bool {
	return plan.Paint.V == laid.Paint.V && (!laid.For.Set || !plan.For.Set || laid.For.V == plan.For.V)
}

// align matches laid coats with planned ones by the longest common sequence and
// returns for each laid coat the index of its plan, or -1.
func align(plan []Coat, laid []*Laid) []int {
	best := make([][]int, len(plan)+1)
	for i := range best {
		best[i] = make([]int, len(laid)+1)
	}
	for i := len(plan) - 1; i >= 0; i-- {
		for j := len(laid) - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if sameCoat(&plan[i], &laid[j].Coat) {
				best[i][j] = max(best[i][j], best[i+1][j+1]+1)
			}
		}
	}
	pairs := make([]int, len(laid))
	i := 0
	for j := range laid {
		pairs[j] = -1
		for k := i; k < len(plan); k++ {
			if sameCoat(&plan[k], &laid[j].Coat) && best[k+1][j+1]+1 == best[i][j] {
				pairs[j], i = k, k+1
				break
			}
		}
	}
	return pairs
}

// marry joins a laid coat that found no place in the order with its own plan.
func marry(rows []Row) []Row {
	for i := range rows {
		if rows[i].State != Extra {
			continue
		}
		for j := range rows {
			if rows[j].State == Waiting && rows[j].Plan != nil && sameCoat(rows[j].Plan, &rows[i].Laid[0].Coat) {
				rows[i].Plan, rows[i].State, rows[j].Plan = rows[j].Plan, Moved, nil
				break
			}
		}
	}
	return slices.DeleteFunc(rows, func(r Row) bool { return r.Plan == nil && len(r.Laid) == 0 })
}

// markSkipped marks planned coats that others already cover.
func markSkipped(rows []Row) []Row {
	covered := false
	for i := len(rows) - 1; i >= 0; i-- {
		if len(rows[i].Laid) > 0 {
			covered = true
		} else if covered {
			rows[i].State = Skipped
		}
	}
	return rows
}

func number(rows []Row, paints Shelf) []Row {
	for i := range rows {
		r := &rows[i]
		r.Number, r.Name = i+1, r.First().Paint.V
		r.Paint = paints[r.Name]
		r.For = r.First().For.V
		for _, l := range r.Laid {
			if r.For == NoPurpose {
				r.For = l.For.V
			}
		}
		if r.For == NoPurpose && r.Paint == nil && r.Name == Decals.String() {
			r.For = Decals
		}
	}
	return rows
}

// layer is one layer as it lies on the plastic, or as the plan would lay it.
type layer struct {
	row    *Row
	coat   *Coat
	laid   *Laid   // nil: planned
	curing *Curing // nil: planned
}

// layers lists what lies on the plastic in the order of time and then what the
// plan still wants. Skipped coats can no longer come under what covers them.
func layers(rows []Row, clock func(*Row, *Laid) *Curing) []layer {
	var out, planned []layer
	for i := range rows {
		r := &rows[i]
		for _, l := range r.Laid {
			out = append(out, layer{row: r, coat: &l.Coat, laid: l, curing: clock(r, l)})
		}
		if r.State == Waiting {
			planned = append(planned, layer{row: r, coat: r.Plan})
		}
	}
	slices.SortStableFunc(out, func(a, b layer) int { return a.laid.When.Compare(b.laid.When) })
	return append(out, planned...)
}

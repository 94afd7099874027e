package scale

import (
	"cmp"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Answer is yes, no, or a matter of whom one believes.
type Answer int

const (
	No Answer = iota
	Depends
	Yes
)

// String returns the word: no, depends or yes.
func (a Answer) String() string { return [...]string{"no", "depends", "yes"}[a] }

// MarshalText writes the word, for JSON.
func (a Answer) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// Member is a model in the table of pairs.
type Member struct {
	ID        string // the caller's own
	Name      string
	Estimates []Estimate // one for each account; a single one where they agree
	Stated    bool       // rests on the box alone
	Crew      bool       // rests on its figures alone: the scales at which they are adults
}

// MemberOf returns a judged model for the table, and false where neither box
// nor measurement says anything about its scale.
func MemberOf(j Judgement) (Member, bool) {
	m := Member{Name: j.Name}
	switch {
	case j.Disputed:
		for _, b := range j.Believed {
			m.Estimates = append(m.Estimates, b.Estimate)
		}
	case len(j.Believed) > 0:
		m.Estimates = []Estimate{j.Best}
	case m.crew(j):
	case j.Box.Ratio > 0:
		m.Estimates, m.Stated = []Estimate{Stated(j.Box)}, true
	}
	return m, len(m.Estimates) > 0
}

// Pair says whether two models may share one scale.
type Pair struct {
	A, B   Member
	Share  Answer
	Larger string   // which one is too large for the other; "" where they may share
	Off    Interval // by how much, as shares: 0.02 to 0.06
	Text   source.Message
}

// crew goes by a model's figures where no length was measured and its box does
// not suit them: side by side it is the figures that are seen.
func (m *Member) crew(j Judgement) bool {
	if len(j.Figures) == 0 {
		return false
	}
	adults, man, woman := Interval{0, math.Inf(1)}, 1.0, 1.0
	for _, f := range j.Figures {
		var overlap bool
		if adults, overlap = adults.Intersect(f.Adults); !overlap || f.Man == 0 {
			return false
		}
		man, woman = f.Man, f.Woman
	}
	if j.Box.Ratio > 0 && adults.Contains(j.Box.Ratio) {
		return false
	}
	m.Estimates, m.Crew = []Estimate{{Ratio: math.Sqrt(man * woman), Span: adults, From: len(j.Figures)}}, true
	return true
}

// worthwhile is how far two models may be off before nobody would stand them
// side by side as of one scale: common practice, no source.
const worthwhile = 0.25

// Near reports whether the two may share a scale, or miss it by so little that
// the question arises.
func (p Pair) Near() bool { return p.Share != No || p.Off.Low < worthwhile }

// Split parts pairs into those worth a look, those that may share a scale
// first, and the rest; each by how far they are off.
func Split(pairs []Pair) (near, far []Pair) {
	for _, p := range pairs {
		if p.Near() {
			near = append(near, p)
		} else {
			far = append(far, p)
		}
	}
	for _, list := range [][]Pair{near, far} {
		slices.SortStableFunc(list, func(a, b Pair) int { return cmp.Or(cmp.Compare(b.Share, a.Share), cmp.Compare(a.Off.Low, b.Off.Low)) })
	}
	return near, far
}

// Pairs returns every pair of models, in the order given. Two may share a scale
// where the ranges of their ratios overlap.
func Pairs(members []Member) []Pair {
	var out []Pair
	for i, a := range members {
		for _, b := range members[i+1:] {
			out = append(out, pair(a, b))
		}
	}
	return out
}

// Beside returns the pairs of one model with those nearest to it in scale, at
// most so many, in the order given: for a shelf too large to compare each with
// all.
func Beside(own Member, members []Member, most int) []Pair {
	others := slices.DeleteFunc(slices.Clone(members), func(m Member) bool { return m.ID == own.ID })
	distance := func(m Member) float64 { return math.Abs(math.Log(m.middle() / own.middle())) }
	slices.SortStableFunc(others, func(a, b Member) int { return cmp.Compare(distance(a), distance(b)) })
	var out []Pair
	for _, m := range others[:min(most, len(others))] {
		out = append(out, pair(own, m))
	}
	return out
}

// middle is the ratio a model is sorted by; figures alone give only a range.
func (m Member) middle() float64 {
	if e := m.Estimates[0]; e.Ratio > 0 {
		return e.Ratio
	}
	return m.Estimates[0].Span.Low
}

func pair(a, b Member) Pair {
	p := Pair{A: a, B: b}
	overlaps, all := 0, 0
	for _, x := range a.Estimates {
		for _, y := range b.Estimates {
			all++
			if _, ok := x.Span.Intersect(y.Span); ok {
				overlaps++
			}
		}
	}
	switch overlaps {
	case 0:
		p.Share = No
	case all:
		p.Share = Yes
	default:
		p.Share = Depends
	}
	if p.Share != Yes {
		p.compare(a.Estimates[0], b.Estimates[0])
	}
	p.Text = p.text()
	return p
}

// compare finds which of two is too large for the other and by how much, going
// by each one's first account.
func (p *Pair) compare(a, b Estimate) {
	p.Larger = p.A.Name
	if a.Ratio > b.Ratio {
		p.Larger = p.B.Name
		a, b = b, a
	}
	off := b.Span.Over(a.Span)
	p.Off = Interval{max(off.Low-1, 0), off.High - 1}
}

func (p Pair) text() source.Message {
	switch p.Share {
	case Yes:
		return source.Word("may share one scale")
	case Depends:
		return source.Say("may share one scale, depending on whose sizes one believes; else %s", p.offText())
	}
	return p.offText()
}

func (p Pair) offText() source.Message {
	if p.Off.Low >= 1 { // beyond twice the size percents say nothing
		return source.Say("%s is too large by a factor of %s", p.Larger, quantity.Amount{Value: 1 + (p.Off.Low+p.Off.High)/2, Digits: 2})
	}
	low, high := percent(p.Off.Low), percent(p.Off.High)
	by := source.Say("%s to %s", low, high)
	if low.String() == high.String() {
		by = low
	} else if whole := math.Round(p.Off.Low * 100); p.Off.Low >= 0.0095 {
		by = source.Say("%s to %s", quantity.Amount{Value: whole, Digits: 6}, high)
	}
	return source.Say("%s is too large by %s", p.Larger, by)
}

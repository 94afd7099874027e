package scale

import (
	"fmt"
	"math"

	"spruelight/gen/quantity"
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
	Text   string
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

func (p Pair) text() string {
	switch p.Share {
	case Yes:
		return "may share one scale"
	case Depends:
		return "may share one scale, depending on whose sizes one believes; else " + p.offText()
	}
	return p.offText()
}

func (p Pair) offText() string {
	low, high := percent(p.Off.Low), percent(p.Off.High)
	by := low + " to " + high
	if low == high {
		by = low
	} else if whole := math.Round(p.Off.Low * 100); p.Off.Low >= 0.0095 {
		by = quantity.Round(whole, 6) + " to " + high
	}
	return fmt.Sprintf("%s is too large by %s", p.Larger, by)
}

// Package scale judges the scale of a model: what its measured lengths say
// against what the box prints, whether figures and models may stand side by
// side, how large something is at another scale; and it draws models side by
// side at true relative size and plans where they stand.
//
// It serves the build page, the line-up page and `reckon scale`. A scale is
// held as its ratio, 48 for 1/48; lengths are metres, real ones and those of
// the model alike; drawings count millimetres of the model times one factor.
//
// Lengths are limits: "204 mm ± 0.5 mm" means nowhere outside 203.5 to
// 204.5 mm, and a length without ± is taken as rounded to its last written
// place, which is marked as assumed.
//
// # Sources
//
//   - JCGM 100:2008, Guide to the expression of uncertainty in measurement:
//     4.3.7 (limits as a rectangular distribution), 5.1.6 (products),
//     6.3.3 (k = 2), F.2.2.1 (last place of a reading)
//   - R. T. Birge, Physical Review 40 (1932) 207: weighted mean of several
//     results, and the ratio that shows whether they agree
//   - NATICK/TR-15/007 (December 2014), Anthropometric Survey of U.S. Army
//     Personnel (ANSUR II): stature and sitting height
package scale

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Model is a model, or a figure on a base, as its owner describes it.
type Model struct {
	Name     string                       // what findings and sentences call it
	Box      source.Value[quantity.Scale] // the scale printed on the box, if any
	Measured source.Entries[Length]       // the model's lengths by name ("length", "beam")
	Accounts []Account                    // the real sizes, by source; the first is gone by where they disagree
	Figures  []Figure                     // figures that came with it
}

// Length is a length with the limits it was written with.
type Length = source.Value[quantity.Measured]

// Account is one source's word on the subject's real lengths.
type Account struct {
	Source source.Value[string]
	Real   source.Entries[Length] // by the names of Model.Measured
}

// name returns how sentences call the account.
func (a Account) name() source.Message {
	if a.Source.V == "" {
		return source.Word("a source not named")
	}
	return source.Say("%s", a.Source.V)
}

// Judgement is all that the measurements say about one model.
type Judgement struct {
	Name     string
	Box      quantity.Scale // ratio 0 where the box says nothing
	Believed []Believed     // one for each account that shares a length with the model
	Disputed bool           // the accounts lead to scales that exclude one another
	Best     Estimate       // of the first account; the weighted mean of all where they agree
	Verdict  source.Message // for a reader, without a full stop
	Sentence source.Message // the verdict as a sentence
	Figures  []FigureCheck
	Findings []source.Finding
}

// Believed is what follows if one account is true.
type Believed struct {
	Source    source.Message
	At        source.Span
	Implied   []Implied
	Estimate  Estimate
	Agreement Agreement
	BoxInside bool // the box's scale lies inside the estimate's interval
	Sentence  source.Message
}

// Judge works out what a model's measured lengths and figures say about its
// scale. Lengths that only one side names are reported and left out.
func Judge(m Model) Judgement {
	j := Judgement{Name: m.Name, Box: m.Box.V}
	for _, a := range m.Accounts {
		implied, found := implied(m, a)
		j.Findings = append(j.Findings, found...)
		if len(implied) > 0 {
			j.Believed = append(j.Believed, believe(m, a, implied))
		}
	}
	j.combine()
	for _, f := range m.Figures {
		check, found := CheckFigure(f, m.Box.V)
		j.Figures = append(j.Figures, check)
		j.Findings = append(j.Findings, found...)
	}
	j.Verdict = verdict(j)
	j.Sentence = source.Say("%s.", j.Verdict)
	j.Findings = append(j.Findings, unpaired(m)...)
	j.Findings = append(j.Findings, judgementFindings(m, j)...)
	return j
}

func believe(m Model, a Account, implied []Implied) Believed {
	b := Believed{Source: a.name(), At: a.Source.At, Implied: implied}
	b.Estimate, b.Agreement = Combine(implied)
	b.BoxInside = m.Box.Set && b.Estimate.Span.Contains(m.Box.V.Ratio)
	b.Sentence = believedSentence(m.Box.V, b)
	return b
}

// combine finds the estimate to go by. Accounts that exclude one another are
// never averaged: two answers of which one is wrong have no middle.
func (j *Judgement) combine() {
	if len(j.Believed) == 0 {
		return
	}
	common := j.Believed[0].Estimate.Span
	estimates := make([]Estimate, len(j.Believed))
	for i, b := range j.Believed {
		estimates[i] = b.Estimate
		var overlap bool
		if common, overlap = common.Intersect(b.Estimate.Span); !overlap {
			j.Disputed = true
			j.Best = j.Believed[0].Estimate
			return
		}
	}
	j.Best = mean(estimates)
}

// Ratio returns the ratio to draw the model by, and whether it was measured:
// the best estimate, else what the box says, else 0.
func (j Judgement) Ratio() (ratio float64, measured bool) {
	if len(j.Believed) > 0 {
		return j.Best.Ratio, true
	}
	return j.Box.Ratio, false
}

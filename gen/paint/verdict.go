package paint

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Verdict says in plain words whether two colours look different.
type Verdict int

// The verdicts.
const (
	Same     Verdict = iota // the same to the eye
	Subtle                  // seen side by side by those who look for it
	Distinct                // seen at once
)

var verdictNames = [...]string{"same to the eye", "subtle difference", "clear difference"}

// String names the verdict.
func (v Verdict) String() string { return verdictNames[v] }

// Thresholds of the verdict, in CIEDE2000 units. Half of 175 observers saw a
// difference of 0.8 side by side in a viewing booth, and half of them would
// not have taken 1.8 for a match. From 3.5 on an unpractised observer notices
// a clear difference; that last one was stated for the 1976 difference, which
// near grey comes close to CIEDE2000.
const (
	seenByHalf   = 0.8
	matchForHalf = 1.8
	seenAtOnce   = 3.5
)

const verdictSource = "0.8 and 1.8: Paravina and others (2015); 3.5: Mokrzycki and Tatol, " +
	"Color difference Delta E: a survey (2011), stated there for ΔE*ab"

// Comparison is two colours side by side.
type Comparison struct {
	One, Two   Colour
	Difference quantity.Figure // CIEDE2000
	Verdict    Verdict
	Match      bool // good enough for a touch-up beside the old paint
}

// Compare compares two colours by CIEDE2000.
func Compare(one, two Colour) Comparison {
	d := Difference(LabOf(one), LabOf(two))
	c := Comparison{One: one, Two: two, Match: d <= matchForHalf}
	c.Difference = quantity.Figure{Symbol: "ΔE00", Name: "colour difference", Value: d, Digits: 2,
		Working: source.Say("CIEDE2000 of %s and %s", one, two), Source: verdictSource}
	switch {
	case d < seenByHalf:
		c.Verdict = Same
	case d < seenAtOnce:
		c.Verdict = Subtle
	default:
		c.Verdict = Distinct
	}
	return c
}

// Meeting is two coats that meet on the model.
type Meeting struct {
	With        string // the other area; the same one where a panel tone lies on its base
	Mine, Other string // the coats
	Comparison
}

// visible lists the coats of an area whose colour is to be seen.
func visible(rows []Row) []*Row {
	var out []*Row
	for i := range rows {
		r := &rows[i]
		if r.Paint != nil && r.Paint.Colour.Set && (r.For == Base || r.For == PanelTone) {
			out = append(out, r)
		}
	}
	return out
}

// meetings compares the visible coats within each area and between areas that
// meet. A pair of areas is compared once, under the one that names the other.
func meetings(areas []AreaResult) {
	byName := map[string]*AreaResult{}
	for i := range areas {
		byName[areas[i].Name] = &areas[i]
	}
	done := map[[2]string]bool{}
	for i := range areas {
		a := &areas[i]
		mine := visible(a.Rows)
		for j := range mine {
			a.Meets = append(a.Meets, pairs(a.Name, mine[j:j+1], mine[j+1:])...)
		}
		for _, other := range a.Area.Meets {
			b := byName[other.V]
			if b == nil || done[[2]string{b.Name, a.Name}] {
				continue
			}
			done[[2]string{a.Name, b.Name}] = true
			a.Meets = append(a.Meets, pairs(b.Name, mine, visible(b.Rows))...)
		}
	}
}

func pairs(with string, mine, others []*Row) []Meeting {
	var out []Meeting
	for _, m := range mine {
		for _, o := range others {
			if m.Name != o.Name {
				out = append(out, Meeting{With: with, Mine: m.Name, Other: o.Name, Comparison: Compare(m.Paint.Colour.V, o.Paint.Colour.V)})
			}
		}
	}
	return out
}

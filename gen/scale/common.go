package scale

import (
	"cmp"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Common are the scales in which kits and figures are commonly sold, the
// largest models first. Common practice, no source.
var Common = commonScales(6, 8, 9, 10, 12, 16, 18, 20, 22.5, 24, 25, 32, 35, 43, 45, 48, 50, 56, 60, 64, 72, 76, 87, 96, 100,
	120, 125, 144, 150, 160, 192, 200, 220, 250, 288, 300, 350, 400, 426, 450, 500, 550, 570, 600, 700, 720, 1000, 1200, 1250, 2400)

func commonScales(ratios ...float64) []quantity.Scale {
	out := make([]quantity.Scale, len(ratios))
	for i, r := range ratios {
		out[i].Ratio = r
	}
	return out
}

// Offer is a commonly sold scale beside the one that is wanted.
type Offer struct {
	Scale quantity.Scale
	Off   float64         // how much larger its model is than wanted: 0.04 for 4 % too large, negative for too small
	Model quantity.Metres // the subject's length at that scale
}

// Text says how far the offer is off, "4 % too large".
func (o Offer) Text() source.Message {
	if math.Abs(o.Off) < 0.0005 {
		return source.Word("exact")
	}
	return offBy(1+o.Off, 1)
}

// Companion is a subject of known size that is to stand beside a model.
type Companion struct {
	Subject  quantity.Metres // real length
	Beside   Estimate        // the model's scale
	Wanted   quantity.Metres // length of a matching model
	Offers   []Offer         // nearest commonly sold scales, nearest first
	Sentence source.Message
}

// nearestOffers is how many commonly sold scales are worth showing.
const nearestOffers = 4

// StandBeside works out which scale a subject needs to stand beside a model,
// and which commonly sold ones come near. Subject and ratio are above zero.
func StandBeside(subject quantity.Metres, beside Estimate) Companion {
	c := Companion{Subject: subject, Beside: beside, Wanted: subject / quantity.Metres(beside.Ratio)}
	c.Offers = Nearest(beside.Ratio, subject)
	best := c.Offers[0]
	c.Sentence = source.Say("It needs %s; the nearest commonly sold scale is %s, %s.", beside.Text(), best.Scale, best.Text())
	return c
}

// Nearest returns the commonly sold scales nearest to a ratio, nearest first,
// and how large a subject is in each.
func Nearest(ratio float64, subject quantity.Metres) []Offer {
	offers := make([]Offer, len(Common))
	for i, s := range Common {
		offers[i] = Offer{Scale: s, Off: ratio/s.Ratio - 1, Model: s.Model(subject)}
	}
	slices.SortStableFunc(offers, func(a, b Offer) int {
		return cmp.Compare(math.Abs(math.Log1p(a.Off)), math.Abs(math.Log1p(b.Off)))
	})
	return offers[:nearestOffers]
}

// Stated returns the estimate that a printed scale stands for: itself, exactly.
func Stated(s quantity.Scale) Estimate {
	return Estimate{Ratio: s.Ratio, Span: Interval{s.Ratio, s.Ratio}}
}

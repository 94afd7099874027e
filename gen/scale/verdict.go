package scale

import (
	"math"
	"strings"

	"spruelight/gen/quantity"
)

// offBy says how far a model of the true ratio is off for a stated one:
// "4 % too large". A model at 1/46 is larger than one at 1/48.
func offBy(stated, true float64) string {
	off := stated/true - 1
	word := "too large"
	if off < 0 {
		word = "too small"
		off = -off
	}
	return percent(off) + " " + word
}

// percent prints a share in whole percents, below one percent with one more figure.
func percent(share float64) string {
	p := share * 100
	switch {
	case p >= 0.95:
		return quantity.Round(math.Round(p), 6) + " %"
	case p >= 0.05:
		return quantity.Round(p, 1) + " %"
	}
	return "less than 0.1 %"
}

// believedSentence is the verdict if one account is true.
func believedSentence(box quantity.Scale, b Believed) string {
	if !b.Agreement.Agree {
		return "By " + b.Source + " the lengths do not agree on a scale: " + listImplied(b.Implied) + "."
	}
	start := "By " + b.Source + " the model is " + b.Estimate.Text()
	switch {
	case box.Ratio == 0:
		return start + "."
	case b.BoxInside:
		return start + ": the box's " + box.String() + " holds."
	}
	return start + ": it is " + offBy(box.Ratio, b.Estimate.Ratio) + " for the box's " + box.String() + "."
}

// verdict is the one plain sentence on the box's scale.
func verdict(j Judgement) string {
	if b, ok := disagreeing(j.Believed); ok && !j.Disputed {
		return disagreementVerdict(j, b)
	}
	switch {
	case len(j.Believed) == 0 && j.Box.Ratio == 0:
		return "Nothing is known of its scale: the box names none and no length was measured beside a real one."
	case len(j.Believed) == 0:
		return "The box says " + j.Box.String() + "; no measured length has a real one beside it, so this is not tested."
	case j.Box.Ratio == 0 && !j.Disputed:
		return "The model is " + j.Best.Text() + "; the box names no scale."
	case j.Box.Ratio == 0:
		return "The model is " + listBelieved(j.Believed) + ", depending on whose size one believes; the box names no scale."
	case j.Disputed:
		return disputedVerdict(j)
	case j.Best.Span.Contains(j.Box.Ratio):
		return "The box's " + j.Box.String() + " holds: the model measures " + j.Best.Text() + "."
	}
	return "The box says " + j.Box.String() + ", the model measures " + j.Best.Text() + ": it is " +
		offBy(j.Box.Ratio, j.Best.Ratio) + " for its box."
}

func disputedVerdict(j Judgement) string {
	var holds []string
	for _, b := range j.Believed {
		if b.BoxInside {
			holds = append(holds, b.Source)
		}
	}
	start := "The box says " + j.Box.String() + ", the model measures " + listBelieved(j.Believed) + ": "
	if len(holds) > 0 {
		return start + "the box is right if one believes " + strings.Join(holds, " or ") + "."
	}
	return start + "the box is wrong whichever one believes."
}

// disagreeing returns the first account by which the lengths follow no one scale.
func disagreeing(believed []Believed) (Believed, bool) {
	for _, b := range believed {
		if !b.Agreement.Agree {
			return b, true
		}
	}
	return Believed{}, false
}

func disagreementVerdict(j Judgement, b Believed) string {
	start := "The model's lengths do not agree on a scale"
	if j.Box.Ratio > 0 {
		start = "The box says " + j.Box.String() + ", but the model's lengths do not agree on a scale"
	}
	return start + ": by " + b.Source + " " + listImplied(b.Implied) + "; their weighted mean is " + b.Estimate.Text() + "."
}

func listBelieved(believed []Believed) string {
	parts := make([]string, len(believed))
	for i, b := range believed {
		parts[i] = b.Estimate.Text() + " by " + b.Source
	}
	return strings.Join(parts, " or ")
}

func listImplied(implied []Implied) string {
	parts := make([]string, len(implied))
	for i, p := range implied {
		parts[i] = p.Name + " " + p.Text()
	}
	return strings.Join(parts, ", ")
}

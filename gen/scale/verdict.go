package scale

import (
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// offBy says how far a model of the true ratio is off for a stated one:
// "4 % too large". A model at 1/46 is larger than one at 1/48.
func offBy(stated, true float64) source.Message {
	off := stated/true - 1
	if off < 0 {
		return source.Say("%s too small", percent(-off))
	}
	return source.Say("%s too large", percent(off))
}

// percent prints a share in whole percents, below one percent with one more figure.
func percent(share float64) source.Message {
	p := share * 100
	switch {
	case p >= 0.95:
		return source.Say("%s", quantity.Amount{Value: math.Round(p), Unit: "%", Digits: 6})
	case p >= 0.05:
		return source.Say("%s", quantity.Amount{Value: p, Unit: "%", Digits: 1})
	}
	return source.Word("less than 0.1 %")
}

// believedSentence is the verdict if one account is true.
func believedSentence(box quantity.Scale, b Believed) source.Message {
	switch is := b.Estimate.Text(); {
	case !b.Agreement.Agree:
		return source.Say("By %s the lengths do not agree on a scale: %s.", b.Source, listImplied(b.Implied))
	case box.Ratio == 0:
		return source.Say("By %s the model is %s.", b.Source, is)
	case b.BoxInside:
		return source.Say("By %s the model is %s: the box's %s holds.", b.Source, is, box)
	default:
		return source.Say("By %s the model is %s: it is %s for the box's %s.", b.Source, is, offBy(box.Ratio, b.Estimate.Ratio), box)
	}
}

// verdict is the one plain sentence on the box's scale, without its full stop.
func verdict(j Judgement) source.Message {
	if b, ok := disagreeing(j.Believed); ok && !j.Disputed {
		return disagreementVerdict(j, b)
	}
	switch {
	case len(j.Believed) == 0 && j.Box.Ratio == 0:
		return source.Word("Nothing is known of its scale: the box names none and no length was measured beside a real one")
	case len(j.Believed) == 0:
		return source.Say("The box says %s; no measured length has a real one beside it, so this is not tested", j.Box)
	case j.Box.Ratio == 0 && !j.Disputed:
		return source.Say("The model is %s; the box names no scale", j.Best.Text())
	case j.Box.Ratio == 0:
		return source.Say("The model is %s, depending on whose size one believes; the box names no scale", listBelieved(j.Believed))
	case j.Disputed:
		return disputedVerdict(j)
	case j.Best.Span.Contains(j.Box.Ratio):
		return source.Say("The box's %s holds: the model measures %s", j.Box, j.Best.Text())
	}
	return source.Say("The box says %s, the model measures %s: it is %s for its box", j.Box, j.Best.Text(), offBy(j.Box.Ratio, j.Best.Ratio))
}

func disputedVerdict(j Judgement) source.Message {
	var holds []source.Message
	for _, b := range j.Believed {
		if b.BoxInside {
			holds = append(holds, b.Source)
		}
	}
	measures := listBelieved(j.Believed)
	if len(holds) > 0 {
		return source.Say("The box says %s, the model measures %s: the box is right if one believes %s", j.Box, measures, source.Or(holds))
	}
	return source.Say("The box says %s, the model measures %s: the box is wrong whichever one believes", j.Box, measures)
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

func disagreementVerdict(j Judgement, b Believed) source.Message {
	if j.Box.Ratio > 0 {
		return source.Say("The box says %s, but the model's lengths do not agree on a scale: by %s %s; their weighted mean is %s",
			j.Box, b.Source, listImplied(b.Implied), b.Estimate.Text())
	}
	return source.Say("The model's lengths do not agree on a scale: by %s %s; their weighted mean is %s",
		b.Source, listImplied(b.Implied), b.Estimate.Text())
}

func listBelieved(believed []Believed) source.List {
	parts := make([]source.Message, len(believed))
	for i, b := range believed {
		parts[i] = source.Say("%s by %s", b.Estimate.Text(), b.Source)
	}
	return source.Or(parts)
}

func listImplied(implied []Implied) source.List {
	parts := make([]source.Message, len(implied))
	for i, p := range implied {
		parts[i] = source.Say("%s %s", source.Word(p.Name), p.Text())
	}
	return source.Row(parts)
}

package scale

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// UsualSizes are things whose size a modeller knows, at a model's own scales.
type UsualSizes struct {
	Scales []UsualScale // the box's, then the measured one where it is another
	Rows   []UsualSize
}

// UsualScale is one of a model's own scales: "1/48", "1/46.1 ± 0.3".
type UsualScale struct {
	quantity.Scale
	Says source.Message
}

// UsualSize is one such thing.
type UsualSize struct {
	Name   string
	Real   quantity.Metres
	Models []quantity.Metres // one for each scale
	Source string
}

// usual are the things shown, with the source of each size.
var usual = []UsualSize{
	{Name: "man of median height", Real: quantity.Metres(men[Standing].p50), Source: SurveySource},
	{Name: "woman of median height", Real: quantity.Metres(women[Standing].p50), Source: SurveySource},
	{Name: "man of median height, seat to crown", Real: quantity.Metres(men[Seated].p50), Source: SurveySource},
	{Name: "shoe of a man, sole", Real: 0.271, Source: SurveySource},
	{Name: "one metre", Real: 1, Source: "the metre"},
	{Name: "one foot", Real: 0.3048, Source: "international foot, exact"},
}

// AtScale returns usual sizes at the scale of a model's box, and at the one it
// measures where the box's is excluded.
func AtScale(j Judgement) UsualSizes {
	var u UsualSizes
	if j.Box.Ratio > 0 {
		u.Scales = append(u.Scales, UsualScale{Scale: j.Box, Says: source.Say("%s", j.Box)})
	}
	if len(j.Believed) > 0 && !j.Best.Span.Contains(j.Box.Ratio) {
		u.Scales = append(u.Scales, UsualScale{Scale: quantity.Scale{Ratio: j.Best.Ratio}, Says: j.Best.Text()})
	}
	for _, row := range usual {
		for _, s := range u.Scales {
			row.Models = append(row.Models[:len(row.Models):len(row.Models)], s.Model(row.Real))
		}
		u.Rows = append(u.Rows, row)
	}
	return u
}

// Copy says how a drawing at another scale is to be enlarged.
type Copy struct {
	From    quantity.Scale
	Percent quantity.Figure
}

// drawingScales are scales in which drawings are commonly published. Common
// practice, no source.
var drawingScales = commonScales(24, 32, 35, 48, 72, 96, 100, 144)

// Copies returns how drawings at usual scales are enlarged to a model's scale.
func Copies(to quantity.Scale) []Copy {
	out := make([]Copy, len(drawingScales))
	for i, from := range drawingScales {
		out[i] = Copy{From: from, Percent: Enlargement(from, to)}
	}
	return out
}

package scale

import "spruelight/gen/quantity"

// The sums by which figures are made.
var (
	impliedScale = &quantity.Formula{Name: "implied scale", Sum: "S = L / l", Digits: 4,
		Where:  []string{"S: the ratio that one length leads to", "L: length of the real thing", "l: the same length on the model"},
		Source: "proportion"}
	lowScale = &quantity.Formula{Name: "its lowest", Sum: "S_low = L_low / l_high", Digits: 4,
		Where:  []string{"L_low, l_high: limits of both lengths, from what stands after ±; where nothing does, half of the last written place"},
		Source: intervalSource}
	highScale = &quantity.Formula{Name: "its highest", Sum: "S_high = L_high / l_low", Digits: 4,
		Where: []string{"L_high, l_low: limits of both lengths"}, Source: intervalSource}
	lengthOnModel = &quantity.Formula{Name: "length on the model", Sum: "l = L / S", Unit: "m", Digits: 4,
		Where: []string{"L: real length", "S: ratio of the scale"}, Source: byProportion}
	lengthInTruth = &quantity.Formula{Name: "length in truth", Sum: "L = l · S", Unit: "m", Digits: 4,
		Where: []string{"l: length on the model", "S: ratio of the scale"}, Source: byProportion}
	lengthBetween = &quantity.Formula{Name: "length at another scale", Sum: "l₂ = l₁ · S₁ / S₂", Unit: "m", Digits: 4,
		Where: []string{"l₁: length at the first scale", "S₁, S₂: ratios of both"}, Source: byProportion}
	copying = &quantity.Formula{Name: "copying a drawing", Sum: "m = 100 % · S₁ / S₂", Unit: "share", Digits: 4,
		Where: []string{"m: setting of the copier", "S₁: ratio of the drawing", "S₂: ratio of the model"}, Source: byProportion}
	areas = &quantity.Formula{Name: "areas at another scale", Sum: "k = (S₁ / S₂)²",
		Where: []string{"S₁, S₂: ratios of the smaller and the larger model"}, Source: "areas go with the square of lengths"}
	volumes = &quantity.Formula{Name: "volumes at another scale", Sum: "k = (S₁ / S₂)³",
		Where: []string{"S₁, S₂: ratios of the smaller and the larger model"}, Source: "volumes go with the cube of lengths"}
)

const intervalSource = "limits of both lengths, JCGM 100:2008"

// Formulas are the sums of this room, for the guide.
var Formulas = []*quantity.Formula{
	impliedScale,
	lowScale,
	highScale,
	{Name: "several lengths", Sum: "ln S = Σ (ln S_i / u_i²) / Σ (1 / u_i²)", Where: []string{"S_i: the ratios", "u_i: their relative uncertainties, half width over √3 for each length, added as squares"}, Source: AgreementMethod},
	{Name: "real height of a figure", Sum: "H = h · S", Where: []string{"h: height of the figure", "S: ratio of the box"}, Source: SurveySource},
	lengthOnModel,
	lengthInTruth,
	lengthBetween,
	copying,
	areas,
	volumes,
	{Name: "standing beside", Sum: "l = L / S", Where: []string{"l: how long a model of another subject must be", "L: real length of that subject", "S: ratio of the model it stands beside"}, Source: "proportion"},
}

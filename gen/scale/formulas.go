package scale

import "spruelight/gen/quantity"

// Formulas are the sums of this room, for the guide.
var Formulas = []*quantity.Formula{
	{Name: "implied scale", Sum: "S = L / l", Where: []string{"S: the ratio that one length leads to", "L: length of the real thing", "l: the same length on the model"}, Source: "proportion"},
	{Name: "its interval", Sum: "S_low = L_low / l_high, S_high = L_high / l_low", Where: []string{"low, high: limits of both lengths, from what stands after ±; where nothing does, half of the last written place"}, Source: "limits of both lengths, JCGM 100:2008"},
	{Name: "several lengths", Sum: "ln S = Σ (ln S_i / u_i²) / Σ (1 / u_i²)", Where: []string{"S_i: the ratios", "u_i: their relative uncertainties, half width over √3 for each length, added as squares"}, Source: AgreementMethod},
	{Name: "real height of a figure", Sum: "H = h · S", Where: []string{"h: height of the figure", "S: ratio of the box"}, Source: SurveySource},
	{Name: "copying a drawing", Sum: "m = 100 % · S₁ / S₂", Where: []string{"m: setting of the copier", "S₁: ratio of the drawing", "S₂: ratio of the model"}, Source: byProportion},
	{Name: "areas and volumes", Sum: "A grows with (S₁ / S₂)², V with (S₁ / S₂)³", Where: []string{"S₁, S₂: ratios of the smaller and the larger model"}, Source: "geometry"},
	{Name: "standing beside", Sum: "l = L / S", Where: []string{"l: how long a model of another subject must be", "L: real length of that subject", "S: ratio of the model it stands beside"}, Source: "proportion"},
}

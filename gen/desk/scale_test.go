package desk

import (
	"strings"
	"testing"
)

// Each question and the sentence or figure it must come to; the sums
// themselves are checked where they are made.
func TestScale(t *testing.T) {
	for name, c := range map[string]struct {
		q    ScaleQuestion
		want string
	}{
		"a scale":              {ScaleQuestion{Scale: "1/72"}, "1/72 is 1/6 in to the foot."},
		"a real length":        {ScaleQuestion{Scale: "1/72", Reals: []string{"13.2 m"}}, "model length  183.3 mm  l = 13.2 m / 72 = 183.3 mm"},
		"a model's length":     {ScaleQuestion{Scale: "N", Models: []string{"1 in"}}, "4.064 m"},
		"pairs":                {ScaleQuestion{Reals: []string{"13.2 m"}, Models: []string{"184 mm ± 0.5 mm"}}, "The model is 1/71.7 ± 0.5; the box names no scale."},
		"pairs that disagree":  {ScaleQuestion{Reals: []string{"9.4 m", "3.1 m"}, Models: []string{"204 mm ± 0.5 mm", "60 mm ± 0.5 mm"}}, "do not agree on a scale"},
		"a seated figure":      {ScaleQuestion{Scale: "1/72", Seated: "12.5 mm"}, "At 1/72 the seated figure is 900 mm"},
		"a figure alone":       {ScaleQuestion{Figure: "54 mm"}, "As a man of median height the standing figure is 1/32.5"},
		"to another scale":     {ScaleQuestion{Scale: "1/48", To: "1/72", Models: []string{"150 mm"}}, "length at 1/72"},
		"beside another model": {ScaleQuestion{Beside: "1/76", Reals: []string{"10 m"}}, "the nearest commonly sold scale is 1/76, exact"},
	} {
		a, err := Scale(c.q)
		if err != nil || !strings.Contains(a.Text(), c.want) {
			t.Errorf("%s: %v\n%s", name, err, a.Text())
		}
		if json, err := a.MarshalJSON(); err != nil || !strings.Contains(string(json), `"figures":[`) {
			t.Errorf("%s: %s, %v", name, json, err)
		}
	}
	for want, q := range map[string]ScaleQuestion{
		"--beside needs one --real":      {Beside: "1/48"},
		"alone needs a scale":            {Reals: []string{"9.4 m"}},
		"not a scale":                    {Scale: "48"},
		"--figure: \"x\" is not":         {Scale: "1/48", Figure: "x"},
		"--seated: \"0 mm\" is not a le": {Scale: "1/48", Seated: "0 mm"},
	} {
		if _, err := Scale(q); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", q, err, want)
		}
	}
}

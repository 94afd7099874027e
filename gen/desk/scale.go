package desk

import (
	"errors"
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
)

// ScaleQuestion is what `reckon scale` is asked, as it was typed.
type ScaleQuestion struct {
	Scale  string   // "1/48"; may be empty
	To     string   // another scale
	Beside string   // the scale of a model that the subject is to stand beside
	Reals  []string // real lengths
	Models []string // lengths of the model; with as many real ones they are pairs
	Figure string   // height of a standing figure
	Seated string   // height of a seated figure
}

// scaleAsked is a question whose values are read.
type scaleAsked struct {
	scale, to, beside source.Value[quantity.Scale]
	reals, models     []scale.Length
	figures           []scale.Figure
}

// Scale answers a question about scale. An error is a wrong question.
func Scale(q ScaleQuestion) (Answer, error) {
	in, err := readScaleQuestion(q)
	if err != nil {
		return Answer{}, err
	}
	var a Answer
	switch {
	case len(in.reals) > 0 && len(in.models) > 0:
		answerImplied(&a, in)
	case in.beside.Set:
		answerBeside(&a, in)
	case len(in.reals)+len(in.models) > 0:
		answerLengths(&a, in)
	}
	for _, f := range in.figures {
		check, _ := scale.CheckFigure(f, in.scale.V)
		a.say("%s", check.Sentence)
		answerFigureFits(&a, check)
	}
	if in.to.Set {
		answerTo(&a, in)
	}
	if len(a.Says)+len(a.Figures) == 0 {
		answerAlone(&a, in.scale.V)
	}
	return a, nil
}

func readScaleQuestion(q ScaleQuestion) (in scaleAsked, err error) {
	var all [7]error
	in.scale, all[0] = asked[quantity.Scale]("the scale", q.Scale)
	in.to, all[1] = asked[quantity.Scale]("--to", q.To)
	in.beside, all[2] = asked[quantity.Scale]("--beside", q.Beside)
	in.reals, all[3] = askedLengths("--real", q.Reals)
	in.models, all[4] = askedLengths("--model", q.Models)
	for i, f := range []struct {
		flag, text, name string
		posture          scale.Posture
	}{{"--figure", q.Figure, "standing figure", scale.Standing}, {"--seated", q.Seated, "seated figure", scale.Seated}} {
		if f.text == "" {
			continue
		}
		height, err := askedLengths(f.flag, []string{f.text})
		all[5+i] = err
		if err == nil {
			in.figures = append(in.figures, scale.Figure{Name: f.name, Posture: f.posture, Height: height[0]})
		}
	}
	if err := errors.Join(all[:]...); err != nil {
		return in, err
	}
	return in, in.sensible()
}

// askedLengths reads lengths above zero.
func askedLengths(flag string, texts []string) (out []scale.Length, err error) {
	for _, text := range texts {
		l, err := asked[quantity.Measured](flag, text)
		if err != nil {
			return nil, err
		}
		if l.V.Value <= 0 || l.V.Low <= 0 {
			return nil, fmt.Errorf("%s: %q is not a length above zero", flag, text)
		}
		out = append(out, l)
	}
	return out, nil
}

// sensible reports what is missing in a question.
func (in scaleAsked) sensible() error {
	lengths := len(in.reals) + len(in.models)
	switch {
	case len(in.reals) > 0 && len(in.models) > 0 && len(in.reals) != len(in.models):
		return fmt.Errorf("%d real lengths and %d of the model: give them in pairs", len(in.reals), len(in.models))
	case in.beside.Set && (len(in.reals) != 1 || len(in.models) > 0):
		return errors.New("--beside needs one --real length: that of the subject to be placed")
	case in.to.Set && !in.scale.Set:
		return errors.New("--to needs the scale to go from, like: reckon scale 1/72 --to 1/48")
	case !in.scale.Set && !in.beside.Set && (len(in.reals) == 0 || len(in.models) == 0) && lengths > 0:
		return errors.New("one kind of length alone needs a scale, like: reckon scale 1/48 --real \"9.4 m\"")
	case !in.scale.Set && lengths+len(in.figures) == 0:
		return errors.New("give a scale, or lengths; reckon scale --help shows examples")
	}
	return nil
}

// answerImplied judges a scale by pairs of lengths.
func answerImplied(a *Answer, in scaleAsked) {
	m := scale.Model{Name: "the model", Box: in.scale}
	account := scale.Account{Source: source.Value[string]{V: "the real lengths given", Set: true}}
	for i := range in.reals {
		name := source.Value[string]{V: fmt.Sprintf("length %d", i+1), Set: true}
		if len(in.reals) == 1 {
			name.V = "length"
		}
		m.Measured = append(m.Measured, source.Entry[scale.Length]{Name: name, Value: in.models[i]})
		account.Real = append(account.Real, source.Entry[scale.Length]{Name: name, Value: in.reals[i]})
	}
	m.Accounts = []scale.Account{account}
	j := scale.Judge(m)
	a.say("%s", j.Sentence)
	for _, i := range j.Believed[0].Implied {
		a.add(quantity.Figure{Symbol: "S", Name: "ratio by " + i.Name, Value: i.Ratio, Low: i.Span.Low, High: i.Span.High, Digits: 4,
			Working: source.Say("%s / %s", i.InTruth(), i.OnModel()), Source: "limits of both lengths, JCGM 100:2008",
			Assumed: i.RealAssumed || i.ModelAssumed})
	}
	if n := len(in.reals); n > 1 {
		a.add(quantity.Figure{Symbol: "S", Name: "ratio, together", Value: j.Best.Ratio, Low: j.Best.Span.Low, High: j.Best.Span.High,
			Digits:  4,
			Working: source.Say("weighted mean of %d; chance of such scatter %.2f", n, j.Believed[0].Agreement.Chance),
			Source:  scale.AgreementMethod})
	}
	answerNearest(a, j.Best.Ratio)
}

func answerNearest(a *Answer, ratio float64) {
	var offers []source.Message
	for _, o := range scale.Nearest(ratio, 1) {
		offers = append(offers, source.Say("%s (%s)", o.Scale, o.Text()))
	}
	a.say("Nearest scales on sale: %s.", source.Row(offers))
}

func answerBeside(a *Answer, in scaleAsked) {
	real := in.reals[0].V.Value
	c := scale.StandBeside(real, scale.Stated(in.beside.V))
	a.say("%s", c.Sentence)
	a.add(scale.ToModel(real, in.beside.V))
	for _, o := range c.Offers {
		f := scale.ToModel(real, o.Scale)
		f.Name = "at " + o.Scale.String() + ", " + o.Text().String()
		a.add(f)
	}
}

func answerLengths(a *Answer, in scaleAsked) {
	for _, l := range in.reals {
		a.add(scale.ToModel(l.V.Value, in.scale.V))
	}
	for _, l := range in.models {
		a.add(scale.ToReal(l.V.Value, in.scale.V))
	}
}

func answerFigureFits(a *Answer, c scale.FigureCheck) {
	a.say("It is an adult, from the 5th percentile of women to the 95th of men, between 1/%s and 1/%s.",
		quantity.Amount{Value: c.Adults.Low, Digits: 3}, quantity.Amount{Value: c.Adults.High, Digits: 3})
	a.add(quantity.Figure{Symbol: "S", Name: "ratio as a man of median height", Value: c.Man, Digits: 3, Source: scale.SurveySource},
		quantity.Figure{Symbol: "S", Name: "ratio as a woman of median height", Value: c.Woman, Digits: 3, Source: scale.SurveySource})
}

// answerTo goes from one scale to another.
func answerTo(a *Answer, in scaleAsked) {
	from, to := in.scale.V, in.to.V
	if from.Ratio != to.Ratio {
		a.say("Beside a model at %s, one at %s is %s.", to, from, scale.Offer{Off: to.Ratio/from.Ratio - 1}.Text())
	}
	a.add(scale.Enlargement(from, to))
	for _, l := range in.models {
		a.add(scale.Between(l.V.Value, from, to))
	}
	a.add(scale.AreaFactor(from, to), scale.VolumeFactor(from, to))
}

// answerAlone says what a scale means.
func answerAlone(a *Answer, s quantity.Scale) {
	a.say("%s is %s.", s, s.Fraction())
	for _, row := range scale.AtScale(scale.Judgement{Box: s}).Rows {
		f := scale.ToModel(row.Real, s)
		f.Name, f.Source = row.Name, row.Source
		a.add(f)
	}
	one := scale.ToReal(0.001, s)
	one.Name = "one millimetre of the model"
	a.add(one)
}

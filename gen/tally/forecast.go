package tally

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// leastFinished is how few finished builds a forecast can stand on: with two,
// leaving one out leaves a single build, whose error says nothing.
const leastFinished = 3

// Forecast is what finished builds let one expect of a build in work.
//
// Each finished build is taken as a pattern: what would be left, stage by
// stage, if this build took the same hours. The median of these with its
// quartiles is the forecast. Where parts counts are known and the finished
// builds show that scaling by them helps, the pattern's hours are scaled.
type Forecast struct {
	TooFew   bool // fewer than three finished builds: nothing below holds
	Finished int

	Done    quantity.Hours
	Left    Span // hours left: quartile, median, quartile
	ByStage []StageLeft

	Scaled       bool           // hours scaled by parts count
	Error        quantity.Hours // mean absolute leave-one-out error of the total
	ErrorShare   quantity.Share // and as a share of the true total
	ErrorScaled  quantity.Share // of the scaled way; NaN where parts are unknown
	ErrorPlain   quantity.Share // of the way without scaling
	Finish       time.Time      // the day at the present pace; zero where there is no pace
	FinishEarly  time.Time
	FinishLate   time.Time
	Pace         Pace
	WithoutPlace []string // finished builds left out for want of hours
}

// Span is a median of hours with the quarters about it.
type Span struct{ Low, Median, High quantity.Hours }

// Rounded returns the span without false precision: to the half hour below ten
// hours, to the hour above.
func (s Span) Rounded() Span {
	return Span{roundHours(s.Low), roundHours(s.Median), roundHours(s.High)}
}

func roundHours(h quantity.Hours) quantity.Hours {
	step := quantity.Hours(1)
	if h < 10 {
		step = 0.5
	}
	return quantity.Hours(math.Round(float64(h/step))) * step
}

// StageLeft is what is left of one stage. The stages' medians need not add up
// to the whole's.
type StageLeft struct {
	Stage string
	Done  quantity.Hours
	Left  Span
	Over  bool // the build's stages done say that nothing is left
}

// Outlook forecasts a build from finished ones as of a day. Stages that the
// build calls done have nothing left.
func Outlook(now Sum, sittings []Sitting, finished []Sum, stages, done []string, today time.Time) Forecast {
	f := Forecast{Done: now.Hours, Pace: PaceOf(sittings, today)}
	var past []Sum
	for _, s := range finished {
		if s.Slug == now.Slug {
			continue
		}
		if s.Hours <= 0 || s.Unhoured > 0 {
			f.WithoutPlace = append(f.WithoutPlace, s.Name)
			continue
		}
		past = append(past, s)
	}
	f.Finished = len(past)
	if len(past) < leastFinished {
		f.TooFew = true
		return f
	}
	f.judge(now, past)
	f.addLeft(now, past, stages, done)
	f.addDates(today)
	return f
}

// judge decides whether to scale, by what the finished builds show.
func (f *Forecast) judge(now Sum, past []Sum) {
	plain, plainHours := leaveOneOut(past, false)
	f.ErrorPlain, f.ErrorScaled = plain, quantity.Share(math.NaN())
	f.Error, f.ErrorShare = plainHours, plain
	if now.Parts <= 0 {
		return
	}
	for _, s := range past {
		if s.Parts <= 0 {
			return
		}
	}
	scaled, scaledHours := leaveOneOut(past, true)
	f.ErrorScaled = scaled
	if scaled < plain {
		f.Scaled, f.Error, f.ErrorShare = true, scaledHours, scaled
	}
}

// leaveOneOut forecasts the total of each finished build from the others and
// returns the mean absolute error, as a share of the true total and in hours.
// Scaling by a build's own parts leaves the order of the others as it is, so
// that they are sorted once and not again for every build.
func leaveOneOut(past []Sum, scale bool) (share quantity.Share, hours quantity.Hours) {
	order := make([]*Sum, len(past))
	for i := range past {
		order[i] = &past[i]
	}
	scaled := func(s, to *Sum) float64 { return float64(s.Hours) * ratio(to, s, scale) }
	slices.SortStableFunc(order, func(a, b *Sum) int { return cmp.Compare(scaled(a, &past[0]), scaled(b, &past[0])) })
	for i, left := range order {
		others := func(n int) float64 {
			if n >= i {
				n++
			}
			return scaled(order[n], left)
		}
		off := math.Abs(quantileOf(len(order)-1, 0.5, others) - float64(left.Hours))
		share += quantity.Share(off / float64(left.Hours))
		hours += quantity.Hours(off)
	}
	n := float64(len(past))
	return share / quantity.Share(n), hours / quantity.Hours(n)
}

// ratio is how much larger one build is than another, by parts.
func ratio(of, than *Sum, scale bool) float64 {
	if !scale {
		return 1
	}
	return float64(of.Parts) / float64(than.Parts)
}

func (f *Forecast) addLeft(now Sum, past []Sum, stages, done []string) {
	names := newSlices(stages)
	for _, s := range append([]Sum{now}, past...) {
		names.merge(s.ByStage)
	}
	over := map[string]bool{}
	for _, stage := range done {
		over[stage] = true
	}
	whole := make([]float64, len(past))
	for _, x := range names.list(0) {
		spent := HoursOf(now.ByStage, x.Name)
		left := make([]float64, len(past))
		for i, s := range past {
			if !over[x.Name] {
				left[i] = max(float64(HoursOf(s.ByStage, x.Name))*ratio(&now, &past[i], f.Scaled)-float64(spent), 0)
			}
			whole[i] += left[i]
		}
		f.ByStage = append(f.ByStage, StageLeft{Stage: x.Name, Done: spent, Left: spanOf(left), Over: over[x.Name]})
	}
	f.Left = spanOf(whole)
}

func spanOf(hours []float64) Span {
	q := QuartilesOf(hours)
	return Span{tidy(quantity.Hours(q.Low)), tidy(quantity.Hours(q.Median)), tidy(quantity.Hours(q.High))}
}

// furthestDays bounds a finish date: beyond ten years a pace says nothing.
const furthestDays = 3653

func (f *Forecast) addDates(today time.Time) {
	day := func(left quantity.Hours) time.Time {
		n := math.Ceil(float64(left) / float64(f.Pace.PerWeek) * 7)
		if f.Pace.PerWeek <= 0 || n > furthestDays {
			return time.Time{}
		}
		return today.AddDate(0, 0, int(n))
	}
	f.FinishEarly, f.Finish, f.FinishLate = day(f.Left.Low), day(f.Left.Median), day(f.Left.High)
}

// Says is the forecast in sentences, with its own past error beside it.
func (f Forecast) Says() source.Message {
	if f.TooFew {
		return source.Text(source.Say("Too few finished builds for a forecast: %s with hours written down, %d are needed.",
			counted(f.Finished, "build"), leastFinished), f.leftOut())
	}
	left := source.Say("About %s left (half of the finished builds say %s to %s).", round(f.Left.Median), round(f.Left.Low),
		round(f.Left.High))
	return source.Text(left, f.end(), f.pastError(), f.leftOut())
}

// end says when the build will be finished.
func (f Forecast) end() source.Message {
	switch {
	case f.Pace.PerWeek <= 0:
		return source.Say("No sitting in the last %d weeks, so no date.", paceWeeks)
	case f.Finish.IsZero():
		return source.Word("At the present pace that is more than ten years away.")
	}
	return source.Say("At the present pace of %s a week: around %s.", round(f.Pace.PerWeek), quantity.Date(f.Finish))
}

// pastError says how far off forecasts of the finished builds would have been.
func (f Forecast) pastError() source.Message {
	how := "not scaled by parts count, which would not have helped"
	if f.Scaled {
		how = "hours scaled by parts count"
	} else if math.IsNaN(float64(f.ErrorScaled)) {
		how = "not scaled, since a parts count is missing"
	}
	return source.Say("Forecasting each of the %d finished builds from the others was off by %s on average, %.0f %% of its hours (%s).",
		f.Finished, round(f.Error), 100*float64(f.ErrorShare), source.Word(how))
}

// leftOut names the finished builds that cannot serve as patterns.
func (f Forecast) leftOut() source.Message {
	if len(f.WithoutPlace) == 0 {
		return source.Message{}
	}
	return source.Say("Left out, since hours are missing: %s.", source.And(f.WithoutPlace))
}

// round returns forecast hours without false precision: "17 h", "2.5 h".
func round(h quantity.Hours) fmt.Stringer {
	rounded := roundHours(h)
	if rounded == quantity.Hours(math.Trunc(float64(rounded))) {
		return rounded
	}
	return quantity.Amount{Value: float64(rounded), Unit: "h"}
}

package tally

import (
	"cmp"
	"math"
	"slices"
	"time"

	"spruelight/gen/quantity"
)

// Sum is what one build adds up to.
type Sum struct {
	Slug, Name string
	State      State

	Sittings  int
	Hours     quantity.Hours // bench time
	Unhoured  int            // sittings with no hours written: Hours is then a lower bound
	BySitting []Slice        // in order of date
	ByStage   []Slice        // in the workshop's order, then as met
	ByMonth   []Slice        // "2026-02", in order, months without a sitting left out
	Apart     []Slice        // time beside the bench, by what it was for

	First, Last time.Time // days of the first and last sitting; zero without one
	Elapsed     int       // calendar days from First to Last, both counted
	BenchDays   int       // different days with a sitting

	Kit     Purse // the kit's price
	Spent   Purse // what was bought besides
	Cost    Purse // kit and spent: what the model would cost a reader
	Outlay  Purse // what the builder paid: Cost without a kit that was not bought
	ByStep  []Step
	PerHour []Rate // Cost by bench hour, one a currency

	Lamps, Resistors, Lit int // lamps and resistors declared; lamps seen to light
	Parts, Decals         int // in the kit, as its maker counts them; 0 where unknown
	PartsUsed, PartsHurt  int // parts logged as used; as broken or lost
	DecalsApplied         int
	DecalsFailed          int
	Readings              int
}

// Slice is a share of the hours.
type Slice struct {
	Name     string
	Title    string // of a sitting; else as Name
	Hours    quantity.Hours
	Sittings int
	Share    quantity.Share // of the build's hours; zero where there are none
}

// Step is the money laid out up to and including a day.
type Step struct {
	Date  time.Time // zero for what was bought for the build as a whole
	On    string
	Price quantity.Money
	Total Purse // running total of all that was spent, the kit included
}

// Totals adds up a build. The stages give the order of ByStage.
func Totals(b Build, stages []string) Sum {
	s := Sum{
		Slug: b.Slug, Name: b.Name, State: b.State, Sittings: len(b.Sittings),
		Lamps: len(b.Lamps), Resistors: b.Resistors,
		Parts: b.Kit.Parts.V, Decals: b.Decals.V,
	}
	sittings := inOrder(b.Sittings)
	s.addHours(sittings, stages)
	s.addDays(sittings)
	s.addCost(b, sittings)
	s.addCounts(b, sittings)
	return s
}

// inOrder returns the sittings by date, and by slug within a day.
func inOrder(sittings []Sitting) []Sitting {
	sorted := slices.Clone(sittings)
	slices.SortStableFunc(sorted, func(a, b Sitting) int {
		if c := a.Date.Compare(b.Date); c != 0 {
			return c
		}
		return cmp.Compare(a.Slug, b.Slug)
	})
	return sorted
}

func (s *Sum) addHours(sittings []Sitting, stages []string) {
	byStage, byMonth, apart := newSlices(stages), newSlices(nil), newSlices(nil)
	for _, x := range sittings {
		h := x.Hours.V
		if !x.Hours.Set {
			s.Unhoured++
		}
		s.BySitting = append(s.BySitting, Slice{Name: x.Slug, Title: x.Title, Hours: h, Sittings: 1})
		byStage.add(x.Stage.Or(noStage), h)
		byMonth.add(x.Date.Format("2006-01"), h)
		for _, a := range x.Apart {
			apart.add(a.Name.V, a.Value.V)
		}
		s.Hours += h
	}
	s.Hours = tidy(s.Hours)
	s.ByStage, s.ByMonth, s.Apart = byStage.list(s.Hours), byMonth.list(s.Hours), apart.list(0)
	setShares(s.BySitting, s.Hours)
}

// noStage is what a sitting without a stage is counted under.
const noStage = "no stage"

func (s *Sum) addDays(sittings []Sitting) {
	if len(sittings) == 0 {
		return
	}
	s.First, s.Last = sittings[0].Date, sittings[len(sittings)-1].Date
	s.Elapsed = days(s.First, s.Last) + 1
	seen := map[time.Time]bool{}
	for _, x := range sittings {
		seen[x.Date] = true
	}
	s.BenchDays = len(seen)
}

// days counts calendar days from one midnight UTC to another.
func days(from, to time.Time) int { return int(math.Round(to.Sub(from).Hours() / 24)) }

func (s *Sum) addCost(b Build, sittings []Sitting) {
	spend := func(day time.Time, on string, m quantity.Money) {
		s.Cost = s.Cost.Add(m)
		s.ByStep = append(s.ByStep, Step{Date: day, On: on, Price: m, Total: s.Cost})
	}
	if b.Kit.Price.Set {
		s.Kit = s.Kit.Add(b.Kit.Price.V)
		spend(time.Time{}, "the kit", b.Kit.Price.V)
	}
	each := func(day time.Time, list []Spend) {
		for _, x := range list {
			if x.Price.Set {
				s.Spent = s.Spent.Add(x.Price.V)
				spend(day, x.On.V, x.Price.V)
			}
		}
	}
	each(time.Time{}, b.Spent)
	for _, x := range sittings {
		each(x.Date, x.Spent)
	}
	s.Outlay = s.Spent
	if Obtained(b.Kit.Obtained.V).Paid() {
		s.Outlay = s.Cost
	}
	s.PerHour = perHour(s.Cost, s.Hours)
}

func (s *Sum) addCounts(b Build, sittings []Sitting) {
	lamps := map[string]bool{}
	for _, ref := range b.Lamps {
		lamps[ref] = false
	}
	for _, x := range sittings {
		s.Readings += x.Readings
		for _, ref := range x.Lit {
			if lit, known := lamps[ref.V]; known && !lit {
				lamps[ref.V] = true
				s.Lit++
			}
		}
		for _, e := range x.Parts {
			switch n := e.Count.Or(1); Event(e.Event.V) {
			case Used, SpareUsed:
				s.PartsUsed += n
			case Broken, Lost:
				s.PartsHurt += n
			}
		}
		s.DecalsApplied += max(x.Decals.Applied.V, 0)
		s.DecalsFailed += max(x.Decals.Failed.V, 0)
	}
}

// Overall is what a whole workshop adds up to.
type Overall struct {
	Builds    map[State]int
	Sittings  int
	Hours     quantity.Hours
	Unhoured  int
	ByStage   []Slice
	ByMonth   []Slice
	ByBuild   []Slice // in the order given
	First     time.Time
	Last      time.Time
	Cost      Purse
	Outlay    Purse
	PerHour   []Rate // cost of the builds that have bench hours, by those hours
	Lamps     int
	Resistors int
	Lit       int
	Parts     int
	Decals    int
}

// All adds up builds for the front page. The stages, where given, order ByStage.
func All(sums []Sum, stages ...string) Overall {
	o := Overall{Builds: map[State]int{}}
	byStage, byMonth := newSlices(stages), newSlices(nil)
	var begun Purse
	for _, s := range sums {
		o.Builds[s.State]++
		o.Sittings += s.Sittings
		o.Hours += s.Hours
		o.Unhoured += s.Unhoured
		o.Lamps += s.Lamps
		o.Resistors += s.Resistors
		o.Lit += s.Lit
		o.Parts += s.Parts
		o.Decals += s.Decals
		o.Cost = o.Cost.Add(s.Cost...)
		o.Outlay = o.Outlay.Add(s.Outlay...)
		if s.Hours > 0 { // a kit in the stash has cost money and no hours: it must not spoil the rate
			begun = begun.Add(s.Cost...)
		}
		byStage.merge(s.ByStage)
		byMonth.merge(s.ByMonth)
		o.ByBuild = append(o.ByBuild, Slice{Name: s.Slug, Title: s.Name, Hours: s.Hours, Sittings: s.Sittings})
		o.addDays(s)
	}
	o.Hours = tidy(o.Hours)
	o.ByStage, o.ByMonth = byStage.list(o.Hours), byMonth.list(o.Hours)
	slices.SortFunc(o.ByMonth, func(a, b Slice) int { return cmp.Compare(a.Name, b.Name) })
	setShares(o.ByBuild, o.Hours)
	o.PerHour = perHour(begun, o.Hours)
	return o
}

func (o *Overall) addDays(s Sum) {
	if s.First.IsZero() {
		return
	}
	if o.First.IsZero() || s.First.Before(o.First) {
		o.First = s.First
	}
	if s.Last.After(o.Last) {
		o.Last = s.Last
	}
}

package tally

import (
	"math"
	"time"

	"spruelight/gen/quantity"
)

// tidy returns hours as the whole minutes they are within rounding, so that a
// sum of 3 h 20 min and 40 min prints as 4 h; what is no whole number of
// minutes stays as it is.
func tidy(h quantity.Hours) quantity.Hours {
	minutes := math.Round(float64(h) * 60)
	if math.Abs(float64(h)*60-minutes) > 1e-6 {
		return h
	}
	whole := math.Floor(minutes / 60)
	// The same arithmetic as quantity.Hours.String, which then finds whole minutes.
	return quantity.Hours(whole) + quantity.Hours((minutes-60*whole)*(1.0/60))
}

// WholeMinutes returns hours rounded to the minute: "3 h 20 min".
func WholeMinutes(h quantity.Hours) quantity.Hours {
	return tidy(quantity.Hours(math.Round(float64(h)*60) / 60))
}

// slicing collects hours under names, in the order in which they are met.
type slicing struct {
	order []string
	sums  map[string]*Slice
}

// newSlices starts a collection whose first names are given.
func newSlices(names []string) *slicing {
	s := &slicing{sums: map[string]*Slice{}}
	for _, name := range names {
		s.slot(name)
	}
	return s
}

func (s *slicing) slot(name string) *Slice {
	if s.sums[name] == nil {
		s.order = append(s.order, name)
		s.sums[name] = &Slice{Name: name, Title: name}
	}
	return s.sums[name]
}

func (s *slicing) add(name string, h quantity.Hours) {
	x := s.slot(name)
	x.Hours += h
	x.Sittings++
}

func (s *slicing) merge(slices []Slice) {
	for _, more := range slices {
		x := s.slot(more.Name)
		x.Hours += more.Hours
		x.Sittings += more.Sittings
	}
}

// list returns the slices that hold anything, with their share of the whole.
func (s *slicing) list(whole quantity.Hours) []Slice {
	var out []Slice
	for _, name := range s.order {
		if x := s.sums[name]; x.Sittings > 0 {
			x.Hours = tidy(x.Hours)
			out = append(out, *x)
		}
	}
	setShares(out, whole)
	return out
}

func setShares(slices []Slice, whole quantity.Hours) {
	for i := range slices {
		if whole > 0 {
			slices[i].Share = quantity.Share(slices[i].Hours / whole)
		}
	}
}

// HoursOf returns the hours of the slice that bears a name, zero where none does.
func HoursOf(slices []Slice, name string) quantity.Hours {
	for _, x := range slices {
		if x.Name == name {
			return x.Hours
		}
	}
	return 0
}

// Grown is the bench time up to and including a day.
type Grown struct {
	Date  time.Time
	Hours quantity.Hours
}

// Growth returns how the bench time grew, one entry for each day with a sitting.
func Growth(sittings []Sitting) []Grown {
	var out []Grown
	total := quantity.Hours(0)
	for _, s := range inOrder(sittings) {
		total = tidy(total + s.Hours.V)
		if n := len(out); n > 0 && out[n-1].Date.Equal(s.Date) {
			out[n-1].Hours = total
		} else {
			out = append(out, Grown{s.Date, total})
		}
	}
	return out
}

// Worked is the bench time with its working, the sum over the stages.
func (s Sum) Worked() quantity.Figure {
	var stages []quantity.Hours
	for _, slice := range s.ByStage {
		stages = append(stages, slice.Hours)
	}
	return summed.Figure("bench time", quantity.Let{"h_i": quantity.Each(stages)})
}

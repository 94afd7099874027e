package tally

import (
	"cmp"
	"fmt"
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// usualNoun is what is compared where a problem does not say.
const usualNoun = "part"

// sentence is the result for a reader.
func (s *study) sentence(r Isolation) source.Message {
	noun := cmp.Or(s.problem.Noun.V, usualNoun)
	if len(r.Affected) == 0 || len(r.Sound) == 0 {
		return source.Say("There is nothing to compare yet: %s affected, %s sound.", counted(len(r.Affected), noun), counted(len(r.Sound), noun))
	}
	text := []source.Message{s.outcome(r, noun)}
	if len(r.Suspects) > 0 {
		text = append(text, r.weight())
	}
	if r.Next != nil {
		text = append(text, r.Next.says(noun, r.Suspects))
	}
	return source.Text(text...)
}

// outcome says which pieces show the symptom and what sets them apart.
func (s *study) outcome(r Isolation, noun string) source.Message {
	clause := suspicion(r)
	if len(r.Suspects) == 0 {
		clause = undecided(r)
	}
	symptom := source.Word("are affected")
	if s.problem.Symptom.Set {
		symptom = source.Say("%s", s.problem.Symptom.V)
	}
	all, affected := len(r.Affected)+len(r.Sound), source.And(r.Affected)
	var common []source.Message
	for _, t := range r.Common {
		common = append(common, said(t))
	}
	switch {
	case noun == usualNoun && len(common) == 0:
		return source.Say("Of %d parts, %s %s; %s.", all, affected, symptom, clause)
	case noun == usualNoun:
		return source.Say("Of %d parts %s, %s %s; %s.", all, source.And(common), affected, symptom, clause)
	case len(common) == 0:
		return source.Say("Of %s, %s %s; %s.", counted(all, noun), affected, symptom, clause)
	}
	return source.Say("Of %s %s, %s %s; %s.", counted(all, noun), source.And(common), affected, symptom, clause)
}

// suspicion says what only the affected pieces were.
func suspicion(r Isolation) source.Message {
	var all source.Message
	for i, x := range r.Suspects {
		clause := onlyThose(len(r.Affected), x)
		if i == 0 {
			all = clause
			continue
		}
		all = source.Say("%s, and %s", all, clause)
	}
	return all
}

func onlyThose(n int, x Suspect) source.Message {
	says := x.Says()
	if len(x.Factors) == 2 {
		says = source.Say("both %s and %s", x.Factors[0].Says(), x.Factors[1].Says())
	}
	switch n {
	case 1:
		return source.Say("only that one was %s", says)
	case 2:
		return source.Say("only those two were %s", says)
	}
	return source.Say("only those %s were %s", countWord(n), says)
}

// undecided says what comes nearest where nothing separates the pieces.
func undecided(r Isolation) source.Message {
	if len(r.Leads) == 0 {
		return source.Word("no treatment written down sets them apart from the sound ones")
	}
	x := r.Leads[0]
	t := x.Table
	return source.Say("no treatment, single or in pairs, sets them apart. The nearest is %s: "+
		"%d of %d affected and %d of %d sound (P = %s by Fisher's exact test)",
		x.Says(), t.AffectedWith, t.AffectedWith+t.AffectedWithout, t.SoundWith, t.SoundWith+t.SoundWithout, chance(x.P))
}

// weight says what chance alone could do.
func (r Isolation) weight() source.Message {
	p := r.Suspects[0].P
	switch {
	case !r.Carries:
		return source.Say("So few parts do not carry a proof: chance alone would do this once in %s.", odds(p))
	case r.Compared > 1:
		return source.Say("By chance alone this would come about once in %s (Fisher's exact test, P = %s); "+
			"with %d comparisons made, allow for %s.", odds(p), chance(p), r.Compared, chance(min(1, p*float64(r.Compared))))
	}
	return source.Say("By chance alone this would come about once in %s (Fisher's exact test, P = %s).", odds(p), chance(p))
}

// odds are a probability as the number of times in which it happens once.
func odds(p float64) fmt.Stringer {
	switch n := 1 / p; {
	case n < 10:
		return quantity.Amount{Value: math.Round(n*10) / 10, Digits: 2}
	case n > 1e6:
		return source.Word("more than a million")
	default:
		return quantity.Amount{Value: math.RoundToEven(n)}
	}
}

// chance is a probability with two figures, as in papers.
func chance(p float64) fmt.Stringer {
	if p < 0.0001 {
		return source.Word("less than 0.0001")
	}
	return quantity.Amount{Value: p, Digits: 2}
}

func countWord(n int) fmt.Stringer {
	words := []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return source.Word(words[n])
	}
	return source.Say("%d", n)
}

package tally

import (
	"cmp"
	"fmt"
	"strings"
)

// sentence puts the result into words for a reader.
func (s *study) sentence(r Isolation) string {
	noun := cmp.Or(s.problem.Noun.V, "part")
	symptom := s.problem.Symptom.Or("are affected")
	if len(r.Affected) == 0 || len(r.Sound) == 0 {
		return "There is nothing to compare yet: " + plural(len(r.Affected), noun) + " affected, " + plural(len(r.Sound), noun) + " sound."
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Of %s%s, %s %s; ",
		plural(len(r.Affected)+len(r.Sound), noun), lead(" ", list(r.Common, "and")), list(r.Affected, "and"), symptom)
	switch {
	case len(r.Suspects) == 0:
		b.WriteString(undecided(r))
	default:
		b.WriteString(suspicion(r))
	}
	if len(r.Suspects) > 0 {
		b.WriteString(" " + r.weight())
	}
	if r.Next != nil {
		b.WriteString(" " + r.Next.says(noun, r.Suspects))
	}
	return b.String()
}

func lead(space, text string) string {
	if text == "" {
		return ""
	}
	return space + text
}

// suspicion says what only the affected pieces were.
func suspicion(r Isolation) string {
	only := "only those " + countWord(len(r.Affected)) + " were "
	if len(r.Affected) == 1 {
		only = "only that one was "
	}
	var clauses []string
	for _, x := range r.Suspects {
		both := ""
		if len(x.Factors) > 1 {
			both = "both "
		}
		clauses = append(clauses, only+both+x.Says())
	}
	return strings.Join(clauses, ", and ") + "."
}

// undecided says what comes nearest where nothing separates the pieces.
func undecided(r Isolation) string {
	if len(r.Leads) == 0 {
		return "no treatment written down sets them apart from the sound ones."
	}
	x := r.Leads[0]
	t := x.Table
	return fmt.Sprintf("no treatment, single or in pairs, sets them apart. "+
		"The nearest is %s: %d of %d affected and %d of %d sound (P = %s by Fisher's exact test).",
		x.Says(), t.AffectedWith, t.AffectedWith+t.AffectedWithout, t.SoundWith, t.SoundWith+t.SoundWithout, chance(x.P))
}

// weight says what chance alone could do.
func (r Isolation) weight() string {
	p := r.Suspects[0].P
	if !r.Carries {
		return fmt.Sprintf("So few parts do not carry a proof: chance alone would do this once in %s.", odds(p))
	}
	text := fmt.Sprintf("By chance alone this would come about once in %s (Fisher's exact test, P = %s)", odds(p), chance(p))
	if r.Compared > 1 {
		text += fmt.Sprintf("; with %d comparisons made, allow for %s", r.Compared, chance(min(1, p*float64(r.Compared))))
	}
	return text + "."
}

// odds writes a probability as the number of times in which it happens once.
func odds(p float64) string {
	n := 1 / p
	if n < 10 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", n), ".0")
	}
	if n > 1e6 {
		return "more than a million"
	}
	return fmt.Sprintf("%.0f", n)
}

// chance writes a probability with two figures, as papers do.
func chance(p float64) string {
	if p < 0.0001 {
		return "less than 0.0001"
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.*f", decimalsFor(p), p), "0"), ".")
}

// decimalsFor returns how many decimals show two figures of a probability.
func decimalsFor(p float64) int {
	n := 2
	for p < 0.1 && n < 6 {
		p *= 10
		n++
	}
	return n
}

func countWord(n int) string {
	words := []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

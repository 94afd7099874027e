package tally

import (
	"fmt"
	"math/bits"
	"slices"
	"strings"
)

// NextTest is the smallest set of test pieces that parts the suspects.
type NextTest struct {
	Pieces []TestPiece
}

// TestPiece is a part to treat on purpose. It gets what the affected parts
// had, but for the factors turned the other way.
type TestPiece struct {
	With    []Factor // as on the affected parts
	Changed []Factor // the other way round
	Blames  []int    // suspects that are to blame if it shows the symptom
	Clears  []int    // and those if it stays sound
}

// maxFactors bounds the search over all ways to treat a test piece.
const maxFactors = 12

// next finds the pieces. Each piece splits the suspects that are still
// confused; the one is taken that leaves the smallest groups, and among those
// the one that changes the least. For single factors that is the smallest
// number there can be: the logarithm of their count to base two, rounded up.
func next(suspects []Suspect) *NextTest {
	factors := factorsOf(suspects)
	if len(suspects) < 2 || len(factors) > maxFactors {
		return nil
	}
	test := &NextTest{}
	group := make([]int, len(suspects)) // which suspects are still confused
	for groups := 1; groups < len(suspects); {
		changed, ok := bestPiece(suspects, factors, group)
		if !ok {
			return nil
		}
		piece := makePiece(suspects, factors, changed)
		test.Pieces = append(test.Pieces, piece)
		groups = split(group, piece)
	}
	return test
}

// factorsOf lists the factors of all suspects, each once.
func factorsOf(suspects []Suspect) []Factor {
	var factors []Factor
	for _, s := range suspects {
		for _, f := range s.Factors {
			if !slices.Contains(factors, f) {
				factors = append(factors, f)
			}
		}
	}
	return factors
}

// bestPiece tries every set of factors to turn (a bit each).
func bestPiece(suspects []Suspect, factors []Factor, group []int) (changed uint, ok bool) {
	best, least := confusion(group, nil), 0
	for set := uint(1); set < 1<<len(factors); set++ {
		c, work := confusion(group, predictions(suspects, factors, set)), effort(factors, set)
		if c < best || ok && c == best && work < least {
			best, least, changed, ok = c, work, set, true
		}
	}
	return changed, ok
}

// effort weighs how much a piece differs from the affected parts. Where two
// pieces part them as well, the one is easier whose other way is known to be at
// hand ("primed from the old can").
func effort(factors []Factor, changed uint) int {
	work := 3 * bits.OnesCount(changed)
	for j, f := range factors {
		if changed&(1<<j) != 0 && (f.instead != "" || f.Without) {
			work--
		}
	}
	return work
}

// predictions says of each suspect whether, if it is the cause, the piece
// shows the symptom: it does where none of the suspect's factors was turned.
func predictions(suspects []Suspect, factors []Factor, changed uint) []bool {
	out := make([]bool, len(suspects))
	for i, s := range suspects {
		out[i] = true
		for j, f := range factors {
			if changed&(1<<j) != 0 && slices.Contains(s.Factors, f) {
				out[i] = false
			}
		}
	}
	return out
}

// confusion is the sum of the squares of the sizes of the groups that a
// prediction leaves: smallest when they are many and even.
func confusion(group []int, predicted []bool) int {
	sizes := map[[2]int]int{}
	for i, g := range group {
		key := [2]int{g, 0}
		if predicted != nil && predicted[i] {
			key[1] = 1
		}
		sizes[key]++
	}
	sum := 0
	for _, n := range sizes {
		sum += n * n
	}
	return sum
}

func makePiece(suspects []Suspect, factors []Factor, changed uint) TestPiece {
	var p TestPiece
	for j, f := range factors {
		if changed&(1<<j) != 0 {
			p.Changed = append(p.Changed, f.opposite())
		} else {
			p.With = append(p.With, f)
		}
	}
	for i, affected := range predictions(suspects, factors, changed) {
		if affected {
			p.Blames = append(p.Blames, i)
		} else {
			p.Clears = append(p.Clears, i)
		}
	}
	return p
}

// split renumbers the groups by the piece's outcome and returns how many there are.
func split(group []int, p TestPiece) int {
	names := map[[2]int]int{}
	for i, g := range group {
		key := [2]int{g, 0}
		if slices.Contains(p.Blames, i) {
			key[1] = 1
		}
		if _, known := names[key]; !known {
			names[key] = len(names)
		}
		group[i] = names[key]
	}
	return len(names)
}

// says what to do next, in the imperative.
func (t *NextTest) says(noun string, suspects []Suspect) string {
	if len(t.Pieces) == 1 {
		p := t.Pieces[0]
		apart := "to tell them apart"
		if len(suspects) == 2 {
			apart = "to tell the two apart"
		}
		return fmt.Sprintf("Try one %s %s %s: if it shows the same, suspect %s; if it stays sound, %s.",
			noun, p.Says(), apart, quoted(suspects, p.Blames), quoted(suspects, p.Clears))
	}
	var pieces []string
	for i, p := range t.Pieces {
		pieces = append(pieces, fmt.Sprintf("(%d) %s", i+1, p.Says()))
	}
	return fmt.Sprintf("To tell the %s apart, try %s %ss: %s.",
		countWord(len(suspects)), countWord(len(t.Pieces)), noun, strings.Join(pieces, "; "))
}

// Says how the piece is to be treated, what it has first.
func (p TestPiece) Says() string {
	var has, lacks []string
	for _, f := range append(slices.Clone(p.With), p.Changed...) {
		if text := f.Says(); strings.HasPrefix(text, "not ") {
			lacks = append(lacks, text)
		} else {
			has = append(has, text)
		}
	}
	if len(has) == 0 {
		return list(lacks, "and")
	}
	if len(lacks) == 0 {
		return list(has, "and")
	}
	return list(has, "and") + " but " + list(lacks, "and")
}

// quoted names suspects: “cast in resin” or “not washed”.
func quoted(suspects []Suspect, which []int) string {
	var says []string
	for _, i := range which {
		says = append(says, "“"+suspects[i].Says()+"”")
	}
	return list(says, "or")
}

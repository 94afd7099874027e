package tally

import (
	"math/bits"
	"slices"

	"spruelight/gen/source"
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
		if changed&(1<<j) != 0 && (f.Treatment.Value.Instead.V != "" || f.Without) {
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

// says is what to do next, in the imperative.
func (t *NextTest) says(noun string, suspects []Suspect) source.Message {
	if len(t.Pieces) == 1 {
		return t.Pieces[0].says(noun, suspects)
	}
	var pieces []source.Message
	for i, p := range t.Pieces {
		pieces = append(pieces, source.Say("(%d) %s", i+1, p.Says()))
	}
	list := source.List{Of: source.Anys(pieces), Sep: "; "}
	if noun == usualNoun {
		return source.Say("To tell the %s apart, try %s parts: %s.", countWord(len(suspects)), countWord(len(t.Pieces)), list)
	}
	return source.Say("To tell the %s apart, try %s %ss: %s.", countWord(len(suspects)), countWord(len(t.Pieces)), source.Word(noun), list)
}

// says is what to do with a single piece.
func (p TestPiece) says(noun string, suspects []Suspect) source.Message {
	blamed, cleared := quoted(suspects, p.Blames), quoted(suspects, p.Clears)
	switch two := len(suspects) == 2; {
	case noun == usualNoun && two:
		return source.Say("Try one part %s to tell the two apart: if it shows the same, suspect %s; if it stays sound, %s.",
			p.Says(), blamed, cleared)
	case noun == usualNoun:
		return source.Say("Try one part %s to tell them apart: if it shows the same, suspect %s; if it stays sound, %s.",
			p.Says(), blamed, cleared)
	case two:
		return source.Say("Try one %s %s to tell the two apart: if it shows the same, suspect %s; if it stays sound, %s.",
			source.Word(noun), p.Says(), blamed, cleared)
	}
	return source.Say("Try one %s %s to tell them apart: if it shows the same, suspect %s; if it stays sound, %s.",
		source.Word(noun), p.Says(), blamed, cleared)
}

// Says is how the piece is to be treated, what it has first.
func (p TestPiece) Says() source.Message {
	var has, lacks []Factor
	for _, f := range append(slices.Clone(p.With), p.Changed...) {
		if f.lacks() {
			lacks = append(lacks, f)
		} else {
			has = append(has, f)
		}
	}
	switch {
	case len(has) == 0:
		return together(lacks)
	case len(lacks) == 0:
		return together(has)
	}
	return source.Say("%s but %s", together(has), together(lacks))
}

// quoted names suspects: “cast in resin” or “not washed”.
func quoted(suspects []Suspect, which []int) source.List {
	var says []source.Message
	for _, i := range which {
		says = append(says, source.Say("“%s”", suspects[i].Says()))
	}
	return source.Or(says)
}

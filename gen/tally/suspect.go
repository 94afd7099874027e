package tally

import (
	"cmp"
	"slices"
	"strings"

	"spruelight/gen/source"
)

// Factor is a treatment that a part had, or (Without) did not have.
type Factor struct {
	Treatment *source.Entry[Treatment]
	Without   bool
}

// Says is the factor as one says it of a part: "cast in resin", "not washed".
func (f Factor) Says() source.Message {
	t := &f.Treatment.Value
	switch {
	case !f.Without:
		return said(f.Treatment)
	case !t.InsteadSays.Empty():
		return t.InsteadSays
	case t.Instead.V != "":
		return source.Say("%s", t.Instead.V)
	}
	return source.Say("not %s", said(f.Treatment))
}

// lacks reports whether the factor reads "not …".
func (f Factor) lacks() bool { return strings.HasPrefix(f.Says().String(), "not ") }

// said is what a part is that had a treatment.
func said(t *source.Entry[Treatment]) source.Message {
	if t.Value.Says.Empty() {
		return source.Say("%s", t.Name.V)
	}
	return t.Value.Says
}

// opposite is the same treatment, the other way round.
func (f Factor) opposite() Factor {
	f.Without = !f.Without
	return f
}

// Suspect is a factor, or two together, with what the counts say of it.
type Suspect struct {
	Factors []Factor // one or two
	Table   Fourfold
	P       float64 // Fisher's exact test, two-sided
}

// Says joins the suspect's factors: "cast in resin and primed from the new can".
func (s Suspect) Says() source.Message { return together(s.Factors) }

// together joins factors with "and".
func together(factors []Factor) source.Message {
	says := make([]source.Message, len(factors))
	for i, f := range factors {
		says[i] = f.Says()
	}
	if len(says) == 1 {
		return says[0]
	}
	return source.Say("%s", source.And(says))
}

// Isolation is what can be said of a problem's cause.
type Isolation struct {
	Affected, Sound []string                   // tests counted in, in the order met
	Common          []*source.Entry[Treatment] // treatments that every one had: no difference, hence no suspect
	Table           []Suspect                  // every treatment with its counts, in the order listed
	Suspects        []Suspect
	Pairs           bool           // no single factor separates them, these pairs do
	Leads           []Suspect      // where nothing separates them: the factors that come nearest
	Compared        int            // factors, or pairs, that were compared
	Carries         bool           // whether the counts are enough for chance to be ruled out at 5 %
	Next            *NextTest      // nil when nothing is left to separate
	Says            source.Message // one paragraph for readers
}

// maxTreatments bounds the pairs that are compared; nobody lists more.
const maxTreatments = 60

// significant is the level under which chance is commonly ruled out.
const significant = 0.05

var (
	ruleProblemBoth = &source.Rule{Name: "problem-both", Severity: source.Warn,
		Reason: "A part that counts as affected and as sound hides the very difference that is looked for.", Source: "logic",
		Keys: "build problems[]: affected, sound"}
	ruleProblemStranger = &source.Rule{Name: "problem-stranger", Severity: source.Note,
		Reason: "A treated part that is neither affected nor sound cannot be counted on either side.", Source: "logic",
		Keys: "build problems[]: treatments, affected, sound"}
	ruleProblemEmpty = &source.Rule{Name: "problem-no-comparison", Severity: source.Note, Source: "logic",
		Reason: "A cause can be told only by comparing affected parts with sound ones that were handled in part the same way.",
		Keys:   "build problems[]: affected, sound"}
	ruleProblemTest = &source.Rule{Name: "problem-test", Severity: source.Warn,
		Reason: "A test counts only with its result and with treatments that the problem names.", Source: "logic",
		Keys: "build problems[].tests[]: treatments"}
	ruleProblemMany = &source.Rule{Name: "problem-many", Severity: source.Note,
		Reason: "Among very many treatments some pair separates any parts by chance.", Source: "common practice, no source",
		Keys: "build problems[]: affected, sound, treatments"}
)

// Isolate compares affected and sound parts and names the treatments, single
// or else in pairs, that all affected ones share and no sound one had.
func Isolate(p Problem) (Isolation, source.Findings) {
	s := newStudy(p)
	r := Isolation{Affected: s.names(true), Sound: s.names(false)}
	for i := range s.treatments {
		r.Table = append(r.Table, s.suspect(column{i, false}))
	}
	if len(r.Affected) > 0 && len(r.Sound) > 0 {
		r.Common = s.common()
		s.compare(&r)
		r.Next = next(r.Suspects)
	} else {
		s.findings.Add(ruleProblemEmpty.At(p.At, "list parts as affected and others as sound", "%s affected, %s sound: nothing to compare",
			counted(len(r.Affected), "part"), counted(len(r.Sound), "part")))
	}
	r.Says = s.sentence(r)
	return r, s.findings
}

// study is a problem as a table: pieces in rows, treatments in columns.
type study struct {
	problem    Problem
	pieces     []piece
	index      map[string]int
	treatments source.Entries[Treatment]
	had        []map[int]bool // by treatment: the pieces that had it
	findings   source.Findings
}

type piece struct {
	name     string
	affected bool
	at       source.Span
}

func newStudy(p Problem) *study {
	s := &study{problem: p, index: map[string]int{}}
	for _, a := range p.Affected {
		s.piece(a, true)
	}
	for _, a := range p.Sound {
		s.piece(a, false)
	}
	s.treatments = p.Treatments
	if len(s.treatments) > maxTreatments {
		s.findings.Add(ruleProblemMany.At(p.At, "leave out what all parts had",
			"%d treatments are listed, the first %d are compared", len(s.treatments), maxTreatments))
		s.treatments = s.treatments[:maxTreatments]
	}
	for _, t := range s.treatments {
		s.had = append(s.had, s.treated(t))
	}
	for _, t := range p.Tests {
		s.test(t)
	}
	return s
}

func (s *study) piece(name source.Value[string], affected bool) (int, bool) {
	if i, known := s.index[name.V]; known {
		if s.pieces[i].affected != affected {
			s.findings.Add(ruleProblemBoth.At(name.At, "keep it in one of the two lists",
				"%s is listed as affected and as sound", name.V).With(s.pieces[i].at, "the other place"))
		}
		return i, false
	}
	s.index[name.V] = len(s.pieces)
	s.pieces = append(s.pieces, piece{name.V, affected, name.At})
	return len(s.pieces) - 1, true
}

func (s *study) treated(t source.Entry[Treatment]) map[int]bool {
	had := map[int]bool{}
	for _, on := range t.Value.On {
		i, known := s.index[on.V]
		if !known {
			s.findings.Add(ruleProblemStranger.At(on.At, "list it under affected or sound, or leave it out here",
				"%s was %s, yet it is neither affected nor sound", on.V, t.Name.V))
			continue
		}
		had[i] = true
	}
	return had
}

// test adds a test piece to the table.
func (s *study) test(t Trial) {
	if !t.Affected.Set {
		return // planned, not made
	}
	given := map[int]bool{}
	for _, name := range t.Treatments {
		i := slices.IndexFunc(s.treatments, func(x source.Entry[Treatment]) bool { return x.Name.V == name.V })
		switch {
		case i >= 0:
			given[i] = true
		case slices.ContainsFunc(s.treatments, func(x source.Entry[Treatment]) bool { return x.Value.Instead.V == name.V }):
			// what stands in for a treatment: not having it
		default:
			s.findings.Add(ruleProblemTest.At(name.At, "name a treatment of this problem",
				"the test piece was %q, which is none of the treatments", name.V))
			return
		}
	}
	i, fresh := s.piece(t.Piece, t.Affected.V)
	if !fresh {
		s.findings.Add(ruleProblemTest.At(t.Piece.At, "give the test piece a name of its own", "%s is already counted as a part", t.Piece.V))
		return
	}
	for j := range given {
		s.had[j][i] = true
	}
}

func (s *study) names(affected bool) []string {
	var names []string
	for _, p := range s.pieces {
		if p.affected == affected {
			names = append(names, p.name)
		}
	}
	return names
}

// common returns what every piece had.
func (s *study) common() []*source.Entry[Treatment] {
	var common []*source.Entry[Treatment]
	for i := range s.treatments {
		if len(s.had[i]) == len(s.pieces) {
			common = append(common, &s.treatments[i])
		}
	}
	return common
}

// has reports whether a piece has all the factors of a suspect.
func (s *study) has(piece int, columns []column) bool {
	for _, c := range columns {
		if s.had[c.treatment][piece] == c.without {
			return false
		}
	}
	return true
}

// column is a treatment, had or not had.
type column struct {
	treatment int
	without   bool
}

// columns returns the factors worth comparing: those that some pieces have and
// others lack. A treatment named as another's alternative is that other's
// absence and is not compared a second time.
func (s *study) columns() []column {
	var columns []column
	for i, t := range s.treatments {
		if n := len(s.had[i]); n == 0 || n == len(s.pieces) {
			continue
		}
		alternative := slices.ContainsFunc(s.treatments, func(x source.Entry[Treatment]) bool { return x.Value.Instead.V == t.Name.V })
		if !alternative {
			columns = append(columns, column{i, false}, column{i, true})
		}
	}
	return columns
}

func (s *study) suspect(columns ...column) Suspect {
	var x Suspect
	for _, c := range columns {
		x.Factors = append(x.Factors, Factor{Treatment: &s.treatments[c.treatment], Without: c.without})
	}
	for i, p := range s.pieces {
		switch has := s.has(i, columns); {
		case p.affected && has:
			x.Table.AffectedWith++
		case p.affected:
			x.Table.AffectedWithout++
		case has:
			x.Table.SoundWith++
		default:
			x.Table.SoundWithout++
		}
	}
	x.P = Fisher(x.Table)
	return x
}

// separates reports that exactly the affected pieces have it.
func (x Suspect) separates() bool { return x.Table.AffectedWithout == 0 && x.Table.SoundWith == 0 }

// compare looks for factors, then for pairs, that separate the pieces.
func (s *study) compare(r *Isolation) {
	columns := s.columns()
	var shared []column // had by all affected pieces, alone not enough
	var leads []Suspect
	r.Compared = len(columns) / 2
	for _, c := range columns {
		x := s.suspect(c)
		switch {
		case x.separates():
			r.Suspects = append(r.Suspects, x)
		case x.Table.AffectedWithout == 0:
			shared = append(shared, c)
			leads = append(leads, x)
		default:
			leads = append(leads, x)
		}
	}
	if len(r.Suspects) == 0 {
		s.comparePairs(r, shared)
	}
	if len(r.Suspects) == 0 {
		r.Leads = nearest(leads)
	}
	r.Carries = Fisher(Fourfold{len(r.Affected), 0, 0, len(r.Sound)}) <= significant
}

func (s *study) comparePairs(r *Isolation, shared []column) {
	for i, a := range shared {
		for _, b := range shared[i+1:] {
			r.Compared++
			if x := s.suspect(a, b); x.separates() {
				r.Suspects = append(r.Suspects, x)
				r.Pairs = true
			}
		}
	}
}

// nearest returns the up to three factors most strongly tied to the symptom.
func nearest(leads []Suspect) []Suspect {
	tied := slices.DeleteFunc(leads, func(x Suspect) bool {
		t := x.Table // more frequent among the affected than among the sound
		return t.AffectedWith*(t.SoundWith+t.SoundWithout) <= t.SoundWith*(t.AffectedWith+t.AffectedWithout)
	})
	slices.SortStableFunc(tied, func(a, b Suspect) int { return cmp.Compare(a.P, b.P) })
	return tied[:min(len(tied), 3)]
}

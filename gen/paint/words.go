package paint

import (
	"fmt"
	"slices"
	"strings"
)

// Material is what an area is made of.
type Material int

// The materials.
const (
	Styrene Material = iota
	Resin
	PhotoEtch // etched metal
	Clear
	Printed // 3D printed
	Wood
	Metal // turned or cast
)

// Purpose is what a coat is for.
type Purpose int

// The purposes, in the order in which they usually come.
const (
	NoPurpose Purpose = iota // a sitting need not repeat what the plan says
	Primer
	LightBlocking
	Base
	PanelTone
	ClearColour
	Gloss // gloss before decals
	Decals
	Seal // a clear coat over decals or before a wash
	Wash
	Matt // the finishing coat: matt, or whatever finish its paint has
)

// Finish is how a dried paint shines.
type Finish int

// The finishes.
const (
	NoFinish Finish = iota
	MattFinish
	Satin
	GlossFinish
	Metallic
)

// Side is a side of the shell.
type Side int

// The sides.
const (
	LampSide Side = iota
	Outside
)

// Work is a treatment of the bare plastic.
type Work int

// The treatments. Washed comes after those that soil or grease a part.
const (
	Straightened Work = iota // in hot water or hot air
	Sanded
	Filled
	Polished
	Washed
	Primed // outside this record, for instance before the log began
	Dipped // clear parts dipped in a clear
)

// LeakCheck says at which point the dark-room check was made.
type LeakCheck int

// The leak checks.
const (
	AnyCheck LeakCheck = iota
	BeforePrimer
	AfterPrimer
)

// The words that may be written, each at its number; an empty one is never
// written.
var (
	materials = []string{Styrene: "styrene", Resin: "resin", PhotoEtch: "photo-etch", Clear: "clear", Printed: "printed",
		Wood: "wood", Metal: "metal"}
	purposes = []string{NoPurpose: "", Primer: "primer", LightBlocking: "light blocking", Base: "base", PanelTone: "panel tone",
		ClearColour: "clear colour", Gloss: "gloss before decals", Decals: "decals", Seal: "seal", Wash: "wash", Matt: "matt"}
	finishes = []string{NoFinish: "", MattFinish: "matt", Satin: "satin", GlossFinish: "gloss", Metallic: "metallic"}
	sides    = []string{LampSide: "lamp side", Outside: "outside"}
	works    = []string{Straightened: "straightened in hot water", Sanded: "sanded", Filled: "filled", Polished: "polished",
		Washed: "washed", Primed: "primed", Dipped: "dipped in clear"}
	checks = []string{AnyCheck: "", BeforePrimer: "before primer", AfterPrimer: "after primer"}
)

// String prints the word that is written.
func (m Material) String() string  { return materials[m] }
func (p Purpose) String() string   { return purposes[p] }
func (f Finish) String() string    { return finishes[f] }
func (s Side) String() string      { return sides[s] }
func (w Work) String() string      { return works[w] }
func (c LeakCheck) String() string { return checks[c] }

// Words lists what may be written.
func (Material) Words() []string  { return materials }
func (Purpose) Words() []string   { return purposes[1:] }
func (Finish) Words() []string    { return finishes[1:] }
func (Side) Words() []string      { return sides }
func (Work) Words() []string      { return works }
func (LeakCheck) Words() []string { return checks[1:] }

// UnmarshalText reads one of the words.
func (m *Material) UnmarshalText(text []byte) error  { return pick(m, materials, text) }
func (p *Purpose) UnmarshalText(text []byte) error   { return pick(p, purposes, text) }
func (f *Finish) UnmarshalText(text []byte) error    { return pick(f, finishes, text) }
func (s *Side) UnmarshalText(text []byte) error      { return pick(s, sides, text) }
func (w *Work) UnmarshalText(text []byte) error      { return pick(w, works, text) }
func (c *LeakCheck) UnmarshalText(text []byte) error { return pick(c, checks, text) }

func pick[T ~int](into *T, words []string, text []byte) error {
	i := slices.Index(words, string(text))
	if i < 0 || words[i] == "" {
		return fmt.Errorf("%q is none of %s", text, strings.Join(words, ", "))
	}
	*into = T(i)
	return nil
}

// otherWorks are how notes speak of treatments besides the words above.
var otherWorks = map[string]Work{"straightened": Straightened, "bent with heat": Straightened, "degreased": Washed, "cleaned": Washed,
	"dipped": Dipped}

// FindWork returns the treatment that a note such as "washed in soapy water"
// begins with, and false where it begins with none.
func FindWork(note string) (Work, bool) {
	note = strings.ToLower(strings.Join(strings.Fields(note), " "))
	begins := func(word string) bool {
		rest, ok := strings.CutPrefix(note, word)
		return ok && (rest == "" || strings.ContainsRune(" ,;:", rune(rest[0])))
	}
	if i := slices.IndexFunc(works, begins); i >= 0 {
		return Work(i), true
	}
	for word, work := range otherWorks {
		if begins(word) {
			return work, true
		}
	}
	return 0, false
}

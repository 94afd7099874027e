package paint

import (
	"strings"

	"spruelight/gen/source"
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
	GlossFinish
	Satin
	MattFinish
	Metallic
)

// Side is a side of the shell.
type Side int

// The sides.
const (
	Outside Side = iota
	LampSide
)

// Work is a treatment of the bare plastic.
type Work int

// The treatments. Washed comes after those that soil or grease a part.
const (
	Straightened Work = iota // in hot water or hot air
	Sanded
	Filled
	Washed
	Primed // outside this record, for instance before the log began
	Polished
	Dipped // clear parts dipped in a clear
)

// choice is one word of a vocabulary; the first spelling is the printed one.
type choice[T any] struct {
	is        T
	spellings []string
}

var (
	materials = []choice[Material]{
		{Styrene, []string{"styrene", "polystyrene", "plastic", "ABS"}}, {Resin, []string{"resin"}},
		{PhotoEtch, []string{"photo-etch", "photoetch", "etched"}},
		{Clear, []string{"clear", "transparent"}}, {Printed, []string{"printed", "3D printed"}}, {Wood, []string{"wood"}}, {Metal, []string{"metal", "brass"}}}
	purposes = []choice[Purpose]{
		{Primer, []string{"primer"}}, {LightBlocking, []string{"light blocking"}}, {Base, []string{"base", "base coat"}},
		{PanelTone, []string{"panel tone"}}, {ClearColour, []string{"clear colour", "clear color"}},
		{Gloss, []string{"gloss before decals", "gloss", "gloss coat"}}, {Decals, []string{"decals"}},
		{Seal, []string{"seal", "seal coat"}}, {Wash, []string{"wash", "filter"}},
		{Matt, []string{"matt", "matte", "flat", "flat coat", "finish"}}}
	finishes = []choice[Finish]{
		{GlossFinish, []string{"gloss"}}, {Satin, []string{"satin", "semi-gloss", "eggshell"}},
		{MattFinish, []string{"matt", "matte", "flat"}}, {Metallic, []string{"metallic"}}}
	sides = []choice[Side]{{Outside, []string{"outside"}}, {LampSide, []string{"lamp side", "inside"}}}
	works = []choice[Work]{
		{Straightened, []string{"straightened in hot water", "straightened", "bent with heat"}}, {Sanded, []string{"sanded"}},
		{Filled, []string{"filled"}}, {Washed, []string{"washed", "degreased", "cleaned"}}, {Primed, []string{"primed"}},
		{Polished, []string{"polished"}}, {Dipped, []string{"dipped in clear", "dipped"}}}
)

var ruleWord = &source.Rule{
	Name: "finish-word", Severity: source.Stop,
	Reason: "A word that the finish rules do not know would leave a check out without a sign.",
	Source: "the vocabulary of the build file",
	Keys: "paints <name>: kind, finish; build areas.<name>: material, side, treatments; build paint.<name>[]: for; " +
		"sitting coats[]: for; sitting leaks[]: check; sitting before closing[]: leak check",
}

// String prints the first spelling of each word.
func (m Material) String() string { return spell(materials, m) }
func (p Purpose) String() string  { return spell(purposes, p) }
func (f Finish) String() string   { return spell(finishes, f) }
func (s Side) String() string     { return spell(sides, s) }
func (w Work) String() string     { return spell(works, w) }

// ReadMaterial reads the material of an area; a word that is none is a finding.
func ReadMaterial(v source.Value[string]) (source.Value[Material], []source.Finding) {
	return readWord(v, materials, "a material")
}

// ReadPurpose reads the purpose of a coat.
func ReadPurpose(v source.Value[string]) (source.Value[Purpose], []source.Finding) {
	return readWord(v, purposes, "a purpose of a coat")
}

// ReadFinish reads the finish of a paint.
func ReadFinish(v source.Value[string]) (source.Value[Finish], []source.Finding) {
	return readWord(v, finishes, "a finish")
}

// ReadSide reads a side of the shell.
func ReadSide(v source.Value[string]) (source.Value[Side], []source.Finding) {
	return readWord(v, sides, "a side of the shell")
}

// ReadWork reads a treatment.
func ReadWork(v source.Value[string]) (source.Value[Work], []source.Finding) {
	return readWord(v, works, "a treatment")
}

// MaterialWords, PurposeWords, FinishWords, SideWords and WorkWords list what
// may be written, for schemas and guides.
func MaterialWords() []string { return words(materials) }
func PurposeWords() []string  { return words(purposes) }
func FinishWords() []string   { return words(finishes) }
func SideWords() []string     { return words(sides) }
func WorkWords() []string     { return words(works) }

// FindWork returns the treatment that a note such as "washed in soapy water"
// begins with, and false where it begins with none.
func FindWork(note string) (Work, bool) {
	note = strings.ToLower(strings.Join(strings.Fields(note), " "))
	for _, c := range works {
		for _, s := range c.spellings {
			if rest, ok := strings.CutPrefix(note, s); ok && (rest == "" || strings.ContainsRune(" ,;:", rune(rest[0]))) {
				return c.is, true
			}
		}
	}
	return 0, false
}

func readWord[T any](v source.Value[string], from []choice[T], what string) (source.Value[T], []source.Finding) {
	var none source.Value[T]
	if !v.Set {
		return none, nil
	}
	for _, c := range from {
		for _, s := range c.spellings {
			if strings.EqualFold(s, strings.Join(strings.Fields(v.V), " ")) {
				return source.Written(c.is, v.At), nil
			}
		}
	}
	return none, []source.Finding{ruleWord.At(v.At, source.Say("write one of %s", source.Row(words(from))),
		"%q is not %s", v.V, source.Word(what))}
}

func spell[T comparable](from []choice[T], value T) string {
	for _, c := range from {
		if c.is == value {
			return c.spellings[0]
		}
	}
	return ""
}

func words[T any](from []choice[T]) []string {
	out := make([]string, len(from))
	for i, c := range from {
		out[i] = c.spellings[0]
	}
	return out
}

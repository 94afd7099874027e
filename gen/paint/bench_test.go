package paint

import (
	"testing"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// The words in these tests stand in a file of their own, so that findings have
// a place and a test can say which word they point at.

// w is a value written with a text of its own.
func w[T any](v T, text string) source.Value[T] {
	file := source.NewFile("build.md", text)
	return source.Written(v, file.At(0, len(text)))
}

func word(text string) source.Value[string] { return w(text, text) }

func hours(h quantity.Hours) source.Value[quantity.Hours] { return w(h, h.String()) }

var zone = time.FixedZone("bench", 3600)

// on is a moment of February 2026 at the bench.
func on(day, hour, minute int) time.Time {
	return time.Date(2026, 2, day, hour, minute, 0, 0, zone)
}

// rack are the paints of these tests; all times are invented but of the usual size.
func rack() []Paint {
	paint := func(name string, family Family, colour string, finish Finish, recoat, mask quantity.Hours) Paint {
		p := Paint{Name: word(name), Family: w(family, family.String()), Colour: w(hex(colour), colour), Finish: w(finish, finish.String())}
		p.Sheet.Wait[Recoat], p.Sheet.Wait[Mask] = hours(recoat), hours(mask)
		return p
	}
	return []Paint{
		paint("grey-primer", Lacquer, "#9a9a9a", MattFinish, 0.5, 12),
		paint("black", Waterborne, "#101010", MattFinish, 1, 24),
		paint("silver", Waterborne, "#c0c0c0", Metallic, 1, 24),
		paint("white", Waterborne, "#f4f4f0", MattFinish, 1, 24),
		paint("hull-grey", Lacquer, "#8a9095", Satin, 1, 24),
		paint("panel-grey", Lacquer, "#80868b", Satin, 1, 24),
		paint("deck-green", Enamel, "#4b5320", MattFinish, 24, 48),
		paint("gloss-clear", Waterborne, "#ffffff", GlossFinish, 1, 24),
		paint("lacquer-gloss", Lacquer, "#ffffff", GlossFinish, 1, 24),
		paint("matt-clear", Waterborne, "#ffffff", MattFinish, 1, 24),
		paint("grime", Enamel, "#3a2f25", MattFinish, 24, 48),
		paint("umber", Oil, "#4a3626", MattFinish, 24, 72),
		paint("hardener-clear", TwoPack, "#ffffff", GlossFinish, 1, 24),
	}
}

func plan(coats ...Coat) []Coat { return coats }

func coat(paint string, purpose Purpose) Coat {
	return Coat{Paint: word(paint), For: w(purpose, purpose.String())}
}

func lay(paint string, purpose Purpose, when time.Time) Laid {
	return Laid{Coat: coat(paint, purpose), At: w(paint, "{coat: "+paint+"}").At, When: when}
}

func area(name string, m Material) Area { return Area{Name: word(name), Material: w(m, m.String())} }

// check judges areas with the test rack at a moment long after everything.
func check(areas ...Area) Result {
	return Check(&Build{Moment: on(28, 12, 0), Paints: rack(), Areas: areas})
}

// rules lists the rules that spoke, silenced ones left out, each once.
func rules(found source.Findings) []string {
	var out []string
	for _, f := range found {
		if f.Silenced == "" && !has(out, f.Rule.Name) {
			out = append(out, f.Rule.Name)
		}
	}
	return out
}

func has(list []string, name string) bool {
	for _, x := range list {
		if x == name {
			return true
		}
	}
	return false
}

func find(t *testing.T, found source.Findings, rule string) source.Finding {
	t.Helper()
	for _, f := range found {
		if f.Rule.Name == rule {
			return f
		}
	}
	t.Fatalf("%s does not speak; these do: %v", rule, rules(found))
	return source.Finding{}
}

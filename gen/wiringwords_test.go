package gen_test

import (
	"fmt"
	"html"
	"regexp"
	"strings"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/wiring"
)

// everyPart is a circuit with everything that the drawings of the wiring have a
// word for. What the builder names is Latin, so that it is told from our words.
func everyPart() circuit.Input {
	run := func(colour string) circuit.Run {
		return circuit.Run{Size: given(quantity.WireSize{Copper: quantity.AWG(34), Text: "34 AWG"}), Length: given(quantity.Metres(0.1)), Colour: given(colour)}
	}
	lamp := func(model, colour string) circuit.Fitted {
		return circuit.Fitted{Lamp: given(model), Place: given("locus"), Type: circuit.Lamp{Colour: given(colour), Size: given("3 mm")}}
	}
	feed := run("red/black")
	feed.Connector = circuit.Connector{Kind: given("spina"), Place: given("fundus"), After: given(quantity.Metres(0.04))}
	bundle := circuit.FibreBundle{From: given("D1"), Count: given(9), Size: given(quantity.Metres(0.0005)), Length: given(quantity.Metres(0.06)), Place: given("tabula")}
	lit := lamp("", "warm white")
	fibres := []circuit.FibreBundle{bundle, {From: given("D1"), Count: given(3), Size: given(quantity.Metres(0.0005)), Place: given("mensa")}}
	supply := circuit.Supply{Kind: given("battery"), Volts: given(quantity.Volts(9))}
	return circuit.Input{Supply: supply, Circuit: circuit.Circuit{
		Name:      given("lumina"),
		Supply:    given("fons"),
		Fibres:    fibres,
		Fuse:      circuit.Fuse{Rated: given(quantity.Amps(0.25))},
		Switch:    given("clavis"),
		Entry:     given("porta"),
		Feed:      feed,
		Junctions: []circuit.Junction{{Name: given("nodus"), Run: run("enamel")}, {Name: given("vacuus"), Run: circuit.Run{}}},
		Branches: []circuit.Branch{
			{Name: given("prima"), Lamps: []circuit.Fitted{lit}, Lead: run("white and blue"), Current: given(quantity.Amps(0.0045))},
			{Name: given("altera"), Lamps: []circuit.Fitted{lamp("lux", "red"), lamp("lux", "red")}, Parallel: given(true), Control: given(circuit.Control{Kind: circuit.Blink, Frequency: 1.2, Duty: 0.2})},
			{Name: given("tertia"), Junction: given("nodus"), Lamps: []circuit.Fitted{lamp("lux", "green")}, Driver: circuit.Driver{Current: given(quantity.Amps(0.008)), Dropout: given(quantity.Volts(0.5))}},
			{Name: given("quarta"), Junction: given("nodus"), Lamps: []circuit.Fitted{lamp("lux", "amber")}, Control: given(circuit.Control{Kind: circuit.Fade, Period: 4.0 / 3600})},
		},
	}}
}

func given[T any](v T) source.Value[T] { return source.Value[T]{V: v, Set: true} }

// latin are the builder's own words in everyPart, and what is written alike in
// all languages.
var latin = strings.Fields("lumina spina fundus tabula mensa fons clavis porta nodus vacuus prima altera tertia quarta lux locus awg")

var aWord = regexp.MustCompile(`\pL[\pL'’]+`)

// The drawings of the wiring speak each language: what they say in it holds no
// word of the English drawing that is a word of ours.
func TestWiringSpeaksTheLanguage(t *testing.T) {
	s, found := circuit.Solve(everyPart())
	if !s.Solved {
		t.Fatal(found)
	}
	drawn := func(print svg.Printer) string {
		var out strings.Builder
		for _, width := range []float64{wiring.Wide, wiring.Narrow} {
			out.WriteString(wiring.DiagramFor("d", s, width, print).Inline() + wiring.Loom("l", []circuit.Solution{s}, width, print).Inline())
		}
		rings, err := wiring.Bands("r", 4700, 0.05, print)
		if err != nil {
			t.Fatal(err)
		}
		return wordsIn(out.String()+rings.Inline()) + fmt.Sprint(wiring.DiagramTable(s, print))
	}
	english := drawn(nil)
	for _, c := range []struct {
		language string
		says     []string
		same     string // English words that are words of the language too
	}{
		{"de", []string{"Schaltplan", "Kabelbaum", "Sockel", "Verteiler", "durch porta", "Versorgung", "Stecker", "Nicht maßstäblich", "Farbringe von links", "gelb", "Schalter", "4,7 kΩ", "Blinken"}, "plus minus gold enamel"},
		{"fr", []string{"socle", "point de jonction", "par porta", "connecteur", "Pas à l’échelle", "jaune"}, "plus branches fibre constant driver orange violet point points"},
		{"es", []string{"unión", "por porta", "conector", "Sin escala", "amarillo"}, "base driver"},
		{"ja", []string{"台座", "分岐", "portaを通る", "縮尺不同", "黄"}, ""},
	} {
		said := drawn(wordsOf(t, c.language).Message)
		for _, says := range c.says {
			if !strings.Contains(said, says) {
				t.Errorf("%s: the drawings do not say %q", c.language, says)
			}
		}
		ours := map[string]bool{}
		for _, w := range aWord.FindAllString(english, -1) {
			ours[strings.ToLower(w)] = true
		}
		for _, w := range append(latin, strings.Fields(c.same)...) {
			delete(ours, w)
		}
		for _, w := range aWord.FindAllString(said, -1) {
			if w = strings.ToLower(w); ours[w] && len(w) > 3 {
				t.Errorf("%s: %q is English", c.language, w)
				delete(ours, w)
			}
		}
	}
}

// wordsIn returns the texts of a drawing, without its markup.
func wordsIn(markup string) string {
	return html.UnescapeString(regexp.MustCompile(`(?s)<[^>]*>`).ReplaceAllString(markup, " "))
}

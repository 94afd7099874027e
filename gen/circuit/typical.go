package circuit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spruelight/gen/quantity"
)

// typical is a lamp reckoned with where a rack declares none of its own.
type typical struct {
	points  []quantity.Point
	spread  quantity.Volts
	rated   quantity.Amps
	limit   quantity.Amps
	reverse quantity.Volts
	source  string
}

// typicals are lamps by the colour of their light: two typical points each,
// the lower from a part specified at 2 mA, and the lowest absolute maximum of
// the parts named. The spread is half the span from typical to maximum that
// the sheets allow, since lamps of one bag lie closer than a sheet's limits
// (common practice, no source).
var typicals = map[string]typical{
	"red": {[]quantity.Point{{Volts: 1.8, Amps: 0.002}, {Volts: 2.0, Amps: 0.020}}, 0.2, 0.020, 0.030, 5,
		"HLMP-4700 (1.8 V at 2 mA), Kingbright WP710A10SEC/E (2.0 V at 20 mA, 30 mA, 5 V)"},
	"amber": {[]quantity.Point{{Volts: 1.85, Amps: 0.002}, {Volts: 2.1, Amps: 0.020}}, 0.2, 0.020, 0.030, 5,
		"Kingbright WP7113LSYCK/J3 (1.85 V at 2 mA, 30 mA, 5 V), HSMY-C150 (2.1 V at 20 mA)"},
	"green": {[]quantity.Point{{Volts: 2.65, Amps: 0.002}, {Volts: 3.2, Amps: 0.020}}, 0.2, 0.020, 0.025, 5,
		"FD-5WSRGB-A (green 3.2 V at 20 mA, 5 V), at 2 mA as the blue APDA3020LVBC/D of the same chemistry (InGaN); a yellow-green GaP lamp takes about 2.1 V instead"},
	"blue": {[]quantity.Point{{Volts: 2.65, Amps: 0.002}, {Volts: 3.4, Amps: 0.020}}, 0.2, 0.020, 0.025, 5,
		"Kingbright APDA3020LVBC/D (2.65 V at 2 mA), Cree LC503TBL1 (3.4 V at 20 mA, 25 mA, 5 V)"},
	"white": {[]quantity.Point{{Volts: 2.65, Amps: 0.002}, {Volts: 3.2, Amps: 0.020}}, 0.2, 0.020, 0.025, 5,
		"Cree LC513FWH1 (3.2 V at 20 mA, 25 mA, 5 V), at 2 mA as the blue APDA3020LVBC/D beneath its phosphor"},
}

// TypicalColours are the colours that have a built-in typical lamp.
var TypicalColours = []string{"red", "amber", "green", "blue", "white"}

// colourWords are the words builders use for the colours of lamps.
var colourWords = map[string]string{
	"red": "red", "deep red": "red", "orange": "amber", "amber": "amber", "yellow": "amber",
	"green": "green", "emerald": "green", "pure green": "green", "blue": "blue", "ice blue": "white", "violet": "blue", "purple": "blue",
	"white": "white", "warm white": "white", "cool white": "white", "cold white": "white", "neutral white": "white", "pink": "white",
	"infrared": "infrared", "infra-red": "infrared", "ir": "infrared",
}

// ColourFamily returns red, amber, green, blue, white or infrared for a word
// or a hex colour, and "" for what is none of them.
func ColourFamily(colour string) string {
	colour = strings.ToLower(strings.TrimSpace(colour))
	if family, ok := colourWords[strings.ReplaceAll(colour, "-", " ")]; ok {
		return family
	}
	if family, ok := colourWords[colour]; ok {
		return family
	}
	rgb, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 32)
	if err != nil || len(colour) != 7 || colour[0] != '#' {
		return ""
	}
	return hueFamily(float64(rgb>>16&255), float64(rgb>>8&255), float64(rgb&255))
}

// hueFamily sorts a hex colour by its hue; a pale one is a white lamp's.
func hueFamily(r, g, b float64) string {
	top, bottom := max(r, g, b), min(r, g, b)
	if top == 0 || (top-bottom)/top < 0.45 {
		return "white"
	}
	var hue float64
	switch top {
	case r:
		hue = math.Mod((g-b)/(top-bottom)*60+360, 360)
	case g:
		hue = (b-r)/(top-bottom)*60 + 120
	default:
		hue = (r-g)/(top-bottom)*60 + 240
	}
	switch {
	case hue < 18 || hue >= 330:
		return "red"
	case hue < 65:
		return "amber"
	case hue < 175:
		return "green"
	default:
		return "blue"
	}
}

// Typical returns a lamp with the built-in data of a colour. It fails for
// colours without any: infrared light cannot be seen, so an infrared lamp on a
// model is there for a camera or by mistake and must be declared.
func Typical(colour string) (Lamp, error) {
	family := ColourFamily(colour)
	t, ok := typicals[family]
	if family == "infrared" {
		return Lamp{}, fmt.Errorf("infrared light cannot be seen, so there is no typical lamp for it")
	}
	if !ok {
		return Lamp{}, fmt.Errorf("there is no typical lamp of colour %q", colour)
	}
	l := Lamp{Source: written("typical " + family + " lamp: " + t.source)}
	l.Colour.V, l.Spread.V, l.Rated.V, l.Limit.V, l.Reverse.V = colour, t.spread, t.rated, t.limit, t.reverse
	for _, p := range t.points {
		l.Forward = append(l.Forward, written(p))
	}
	return l, nil
}

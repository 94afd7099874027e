package desk

import (
	"cmp"
	"errors"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// WireQuestion is a sum of a wire.
type WireQuestion struct {
	Size, Length, Current, Supply, Warmth string
}

// Wire works out a pair of wires: diameter, resistance there and back,
// and what is lost in it.
func Wire(q WireQuestion) (Answer, error) {
	var a Answer
	var in form
	size := read[quantity.WireSize](&in, "size", q.Size)
	length := read[quantity.Metres](&in, "--length", cmp.Or(q.Length, "1 m"))
	warmth := read[quantity.Celsius](&in, "--temperature", cmp.Or(q.Warmth, "20 °C"))
	current, supply := read[quantity.Amps](&in, "--current", q.Current), read[quantity.Volts](&in, "--supply", q.Supply)
	if in.err != nil {
		return a, in.err
	}
	ohms := circuit.WireOhmsAt(size.V, 2*length.V, warmth.V)
	const copper = "IEC 60028 (1/58 Ω·mm²/m at 20 °C), ASTM B258"
	a.add(quantity.Figure{Symbol: "d", Name: "diameter of the copper", Value: float64(size.V.Copper), Unit: "m",
		Source: "ASTM B258"},
		quantity.Figure{Symbol: "A", Name: "cross-section", Value: size.V.Area(), Unit: "mm²", Digits: 3, Source: "geometry"},
		quantity.Figure{Symbol: "R", Name: "resistance there and back", Value: float64(ohms), Unit: "Ω",
			Working: source.Say("2 × %s of solid copper at %s", length.V, warmth.V), Source: copper})
	if !current.Set {
		return a, nil
	}
	drop := float64(current.V) * float64(ohms)
	a.add(quantity.Figure{Symbol: "U", Name: "lost in it", Value: drop, Unit: "V",
		Working: source.Say("%s × %s", current.V, quantity.About(ohms)), Source: "Ohm's law"})
	if supply.Set && supply.V > 0 {
		share := drop / float64(supply.V)
		a.add(quantity.Figure{Symbol: "U/U_S", Name: "share of the supply", Value: share, Unit: "share",
			Working: source.Say("of %s", supply.V), Source: "arithmetic"})
		if share > mostLost {
			a.say("More than %s of the supply is lost: thicker wire, or a shorter run.", quantity.Share(mostLost))
		} else {
			a.say("Nothing worth naming is lost.")
		}
	}
	return a, nil
}

// mostLost is the share of a supply that may be lost in a wire.
const mostLost = 0.05

// CellQuestion is a sum of how long cells last at a steady current.
type CellQuestion struct {
	Cells, Current, Capacity string
}

// Cell works out how long cells, or a power bank, give a current.
func Cell(q CellQuestion) (Answer, error) {
	var a Answer
	current, err := asked[quantity.Amps]("--current", q.Current)
	if err != nil {
		return a, err
	}
	if !current.Set || current.V <= 0 {
		return a, errors.New(`say what is drawn, like --current "20 mA"`)
	}
	capacity, err := asked[quantity.AmpHours]("--capacity", q.Capacity)
	if err != nil {
		return a, err
	}
	kind, cells := string(circuit.Battery), circuit.Cells{}
	if strings.EqualFold(q.Cells, "power bank") {
		if kind = string(circuit.PowerBank); !capacity.Set {
			return a, errors.New(`say what is printed on it, like --capacity "10 Ah"`)
		}
	} else if err := cells.UnmarshalText([]byte(q.Cells)); err != nil {
		return a, err
	}
	life, err := circuit.SteadyLife(circuit.Supply{Kind: source.Value[string]{V: kind, Set: true}, Capacity: capacity,
		Cells: source.Value[circuit.Cells]{V: cells, Set: cells.Type != ""}}, current.V)
	if err != nil {
		return a, err
	}
	a.say("%s at %s: about %s, %s to %s.", life.Cells, current.V,
		untilEmpty(life.ToEnd.Nominal), untilEmpty(life.ToEnd.Low), untilEmpty(life.ToEnd.High))
	a.say("assumed: %s", life.Curve)
	a.add(quantity.Figure{Symbol: "t", Name: "until empty", Value: float64(life.ToEnd.Nominal),
		Low: float64(life.ToEnd.Low), High: float64(life.ToEnd.High), Unit: "h", Digits: 2, Source: life.Curve.String(), Assumed: true})
	if life.Ends > 0 {
		a.add(quantity.Figure{Symbol: "U", Name: "empty at", Value: float64(life.Ends), Unit: "V", Digits: 3})
	}
	if life.Limit > 0 && current.V > life.Limit {
		a.say("warn: such cells bear %s for long; inside resistance and heat take the rest.", life.Limit)
	}
	return a, nil
}

// untilEmpty is how long cells last, which nobody knows to the minute.
func untilEmpty(h quantity.Hours) quantity.Amount {
	return quantity.Amount{Value: float64(h), Unit: "h", Digits: 2}
}

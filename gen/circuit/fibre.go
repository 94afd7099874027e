package circuit

import (
	"strings"

	"spruelight/gen/quantity"
)

// Strands returns how many strands of a diameter fit before the face of a
// lamp. The densest packing of round strands possible is π/√12 = 0.907; a
// hand-tied bundle reaches about 75 %.
func Strands(lamp, strand quantity.Metres) int {
	if !(lamp > 0) || !(strand > 0) {
		return 0
	}
	return int(min(strandsFit.Of(strandsOf(lamp, strand)), 1e6))
}

// FibreFits is that number with its working.
func FibreFits(lamp, strand quantity.Metres) quantity.Figure {
	return strandsFit.Figure("strands before a lamp", strandsOf(lamp, strand))
}

func strandsOf(lamp, strand quantity.Metres) quantity.Let {
	return quantity.Let{"D": lamp, "d": strand}
}

// LampsFor returns how many lamps feed a number of points of light, a strand
// each: 0 where not even one strand fits before a lamp.
func LampsFor(points int, lamp, strand quantity.Metres) int {
	fits := Strands(lamp, strand)
	if fits == 0 || points <= 0 {
		return 0
	}
	return (points + fits - 1) / fits
}

// FibreToBuy returns how much fibre to buy for strands of a length, in metres,
// with 15 % to spare for cutting, polishing and the one that snaps.
func FibreToBuy(strands int, length quantity.Metres) quantity.Metres {
	return quantity.Metres(fibreBuy.Of(quantity.Let{"n": strands, "L": length}))
}

// FibreBought is that length with its working.
func FibreBought(strands int, length quantity.Metres) quantity.Figure {
	return fibreBuy.Figure("fibre to buy", quantity.Let{"n": strands, "L": length})
}

// fibresOf works out the bundles that a lamp feeds.
func (c *Circuit) fibresOf(ref string, lamp quantity.Metres) []FibreResult {
	var all []FibreResult
	for _, f := range c.Fibres {
		if strings.EqualFold(f.From.V, ref) {
			all = append(all, FibreResult{
				At: f.At, Lamp: ref, Place: f.Place.V, Count: f.Count.V, Size: f.Size.V, Length: f.Length.V,
				Fits: Strands(lamp, f.Size.V), face: lamp,
				Buy: FibreToBuy(f.Count.V, f.Length.V),
			})
		}
	}
	return all
}

// Figures are how many strands fit before the lamp, where its size is known,
// and what to buy, with their working.
func (f *FibreResult) Figures() []quantity.Figure {
	buy := FibreBought(f.Count, f.Length)
	if f.Fits == 0 {
		return []quantity.Figure{buy}
	}
	return []quantity.Figure{FibreFits(f.face, f.Size), buy}
}

// FullSize returns how large a lamp would be in the prototype: its diameter
// times the scale's ratio.
func FullSize(lamp quantity.Metres, scale float64) quantity.Metres {
	return quantity.Metres(fullSize.Of(quantity.Let{"d": lamp, "S": scale}))
}

// SizeInTruth is that size with its working.
func SizeInTruth(name string, lamp quantity.Metres, scale float64) quantity.Figure {
	return fullSize.Figure(name, quantity.Let{"d": lamp, "S": scale})
}

package circuit

import (
	"math"
	"strings"

	"spruelight/gen/quantity"
)

// packing is the share of a lamp's face that round strands in a bundle fill;
// the densest possible is π/√12 = 0.907, a hand-tied bundle reaches about 75 %
// (common practice, no source).
const packing = 0.75

// spareLength is what is bought beyond the length needed (common practice, no
// source).
const spareLength = 0.15

// Strands returns how many strands of a diameter fit before the face of a
// lamp: 0.75·(lamp/strand)².
func Strands(lamp, strand quantity.Metres) int {
	if !(lamp > 0) || !(strand > 0) {
		return 0
	}
	n := packing * math.Pow(float64(lamp/strand), 2)
	return int(min(n+1e-9, 1e6))
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
	return quantity.Metres(float64(strands)*(1+spareLength)) * length
}

// fibresOf works out the bundles that a lamp feeds.
func (c *Circuit) fibresOf(ref string, lamp quantity.Metres) []FibreResult {
	var all []FibreResult
	for _, f := range c.Fibres {
		if strings.EqualFold(f.From.V, ref) {
			all = append(all, FibreResult{
				At: f.At, Lamp: ref, Place: f.Place.V, Count: f.Count.V, Size: f.Size.V, Length: f.Length.V,
				Fits: Strands(lamp, f.Size.V),
				Buy:  FibreToBuy(f.Count.V, f.Length.V),
			})
		}
	}
	return all
}

// FullSize returns how large a lamp would be in the prototype: its diameter
// times the scale's ratio.
func FullSize(lamp quantity.Metres, scale float64) quantity.Metres {
	return lamp * quantity.Metres(scale)
}

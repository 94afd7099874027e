package paint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Poured is one portion worked out.
type Poured struct {
	What   string
	Share  quantity.Share
	Volume quantity.Litres
	Drops  float64 // rounded to whole drops, at least one
	Known  bool    // false where only the share can be known
}

// Amount is the volume as it is measured out.
func (p Poured) Amount() quantity.Amount { return quantity.About(p.Volume) }

// Pour is a mix worked out for a cup.
type Pour struct {
	Portions []Poured
	Total    quantity.Litres
	Known    bool // false for parts without a volume
	Drop     quantity.Figure
	Worst    quantity.Figure // how far counting whole drops is off, at most
	Found    []source.Finding
}

// usualDrop is a drop of water from a medicine dropper: 45 to 55 mg each.
// Paint, thinner and other nozzles give other drops, so ratios by drops are
// good only with equal droppers.
const (
	usualDrop  = quantity.Litres(50e-6)
	dropSource = "USP 32, chapter 1101: a drop of water from the medicine dropper weighs 45 to 55 mg"
)

var (
	ruleMixFamilies = &source.Rule{Name: "mix-of-families", Severity: source.Warn, Source: practice,
		Reason: "Paints of different solvent families curdle in the cup.",
		Keys:   "build mixes.<name>: parts"}
	ruleMixMeasures = &source.Rule{Name: "mix-of-measures", Severity: source.Warn, Source: "house rule",
		Reason: "Parts and drops or volumes in one mix have no common measure, so nobody can stir it again.",
		Keys:   "build mixes.<name>: parts"}
	ruleMixThin = &source.Rule{Name: "mix-small-drop-count", Severity: source.Note, Source: practice,
		Reason: "Few drops of a strong colour cannot be repeated: one drop more or less is another colour.",
		Keys:   "build mixes.<name>: parts"}
)

// ByRatio works a ratio out for a volume in the cup. Names stand in the order
// of the ratio; missing ones are called part 1, part 2 … A drop of 0 litres
// stands for the usual one.
func ByRatio(ratio quantity.Mix, names []string, total, drop quantity.Litres) Pour {
	p := Pour{Total: total, Known: true, Drop: dropFigure(drop)}
	sum := 0.0
	for _, part := range ratio {
		sum += part
	}
	for i, part := range ratio {
		name := fmt.Sprintf("part %d", i+1)
		if i < len(names) {
			name = names[i]
		}
		share := part / sum
		p.Portions = append(p.Portions, Poured{What: name, Share: quantity.Share(share), Volume: quantity.Litres(share) * total, Known: true})
	}
	p.count()
	return p
}

// Pour works a recorded mix out for a volume in the cup; 0 keeps the volume
// that was recorded.
func (m *Mix) Pour(total, drop quantity.Litres) Pour {
	p := Pour{Drop: dropFigure(drop)}
	size := quantity.Litres(p.Drop.Value)
	sum, parts, volumes := 0.0, 0, 0
	amounts := make([]float64, len(m.Parts))
	for i, part := range m.Parts {
		amounts[i] = part.Value.V.Number
		switch part.Value.V.Measure {
		case quantity.InDrops:
			amounts[i] *= float64(size)
			volumes++
		case quantity.InLitres:
			volumes++
		default:
			parts++
		}
		sum += amounts[i]
	}
	switch {
	case parts > 0 && volumes > 0:
		p.Found = append(p.Found, ruleMixMeasures.At(m.Name.At, "write all portions as parts, or all as drops or volumes",
			"the mix %s has parts beside drops or volumes", m.Name.V))
		return p
	case sum == 0:
		return p
	}
	p.Known = total > 0 || volumes > 0
	p.Total = total
	if total == 0 && volumes > 0 {
		p.Total = quantity.Litres(sum)
	}
	for i, part := range m.Parts {
		share := amounts[i] / sum
		p.Portions = append(p.Portions, Poured{What: part.Name.V, Share: quantity.Share(share),
			Volume: quantity.Litres(share) * p.Total, Known: p.Known})
	}
	p.count()
	p.thin(m)
	return p
}

func dropFigure(drop quantity.Litres) quantity.Figure {
	f := quantity.Figure{Symbol: "V_d", Name: "one drop", Value: float64(drop), Unit: "l", Source: "as given"}
	if drop <= 0 {
		f.Value, f.Low, f.High, f.Assumed, f.Source = float64(usualDrop), 45e-6, 55e-6, true, dropSource
	}
	return f
}

// count turns volumes into whole drops and says how far that is off.
func (p *Pour) count() {
	if !p.Known || p.Total <= 0 {
		return
	}
	worst, drops := 0.0, 0.0
	for i := range p.Portions {
		o := &p.Portions[i]
		if o.Volume <= 0 {
			continue
		}
		o.Drops = max(1, math.Round(float64(o.Volume)/p.Drop.Value))
		drops += o.Drops
	}
	for i := range p.Portions {
		worst = max(worst, math.Abs(p.Portions[i].Drops/drops-float64(p.Portions[i].Share)))
	}
	p.Worst = quantity.Figure{Symbol: "Δ", Name: "largest error of a share from counting whole drops", Value: 100 * worst,
		Unit: "%", Digits: 2,
		Working: source.Say("%s drops in all", quantity.Amount{Value: drops, Digits: 4}), Source: "worked out from the whole drops"}
}

// fewDrops is the number below which one drop is more than a fifth of a portion.
const fewDrops = 5

func (p *Pour) thin(m *Mix) {
	var few []string
	for i, part := range m.Parts {
		if part.Value.V.Measure == quantity.InDrops && p.Portions[i].Drops < fewDrops {
			few = append(few, part.Name.V)
		}
	}
	if len(few) > 0 {
		p.Found = append(p.Found, ruleMixThin.At(m.Name.At, "stir a larger cup, so that each portion has at least five drops",
			"the mix %s has few drops of %s", m.Name.V, source.Row(few)))
	}
}

// Paint returns the mix as a paint of its own: the family of its paints, the
// longest waiting times of any of them, and no colour unless one was written.
func (m *Mix) Paint(rack Shelf) (Paint, []source.Finding) {
	out := Paint{Name: m.Name, Colour: m.Colour, Source: source.Written("the longest time of any paint in the mix", m.Name.At)}
	var found []source.Finding
	var first *Paint
	for _, part := range m.Parts {
		p := rack[part.Name.V]
		if p == nil {
			continue // thinner and the like
		}
		if first == nil {
			first = p
			out.Family, out.Finish, out.Warmth = p.Family, p.Finish, p.Warmth
		} else if p.Family.V != first.Family.V {
			found = append(found, ruleMixFamilies.At(part.Name.At, "mix within one family, or lay them as coats of their own",
				"the mix %s stirs %s (%s) into %s (%s)", m.Name.V,
				p.Name.V, source.Word(p.Family.V.String()), first.Name.V, source.Word(first.Family.V.String())))
		}
		out.slowest(p)
	}
	return out, found
}

// slowest takes over the waiting times of another paint where they are longer.
func (p *Paint) slowest(other *Paint) {
	for s := range stageCount {
		longer(p.of(s), *other.Measured.of(s), *other.of(s))
	}
	longer(&p.RecoatAgain, other.Measured.RecoatAgain, other.RecoatAgain)
	until := []source.Value[quantity.Hours]{p.RecoatUntil, other.Measured.RecoatUntil, other.RecoatUntil}
	until = slices.DeleteFunc(until, func(v source.Value[quantity.Hours]) bool { return !v.Set })
	if len(until) > 0 { // a window closes with the first of them
		p.RecoatUntil = slices.MinFunc(until, func(a, b source.Value[quantity.Hours]) int { return cmp.Compare(a.V, b.V) })
	}
}

func longer(into *source.Value[quantity.Hours], own, sheet source.Value[quantity.Hours]) {
	v := sheet
	if own.Set {
		v = own
	}
	if v.Set && (!into.Set || v.V > into.V) {
		*into = v
	}
}

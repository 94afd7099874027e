package paint

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Stage is something that may be done once a coat has waited long enough.
type Stage int

// The stages of a drying coat.
const (
	Touch  Stage = iota // dry to the touch
	Handle              // the part may be held
	Recoat              // the same family may go over it
	Other               // another family may go over it
	Mask                // tape may go on and come off
	Apply               // decals may go on
	Soak                // a wash may go over it
	Cured               // as hard as it gets
	stageCount
)

var stageNames = [stageCount]string{"touch dry", "handle", "recoat", "another family over", "mask", "decals", "wash", "cured"}

// String names the stage as the rack does.
func (s Stage) String() string { return stageNames[s] }

// of is the waiting time of a stage.
func (t *PaintTimes) of(s Stage) *source.Value[quantity.Hours] {
	return [stageCount]*source.Value[quantity.Hours]{Touch: &t.TouchDry, Handle: &t.Handle, Recoat: &t.Recoat, Other: &t.Other,
		Mask: &t.MaskAfter, Apply: &t.DecalsAfter, Soak: &t.WashAfter, Cured: &t.Cured}[s]
}

// Waits are the times that hold for one paint after everything is considered.
type Waits struct {
	Of          [stageCount]Wait
	RecoatUntil Wait
	RecoatAgain Wait
}

// Wait is one waiting time and where it comes from.
type Wait struct {
	Hours   quantity.Hours
	Known   bool
	Assumed bool           // a rule of the trade stands in for a missing value
	Source  source.Message // "measured by the builder", the data sheet's name, or the practice
	At      source.Span
}

// usual are the trade's waiting times by family for thin airbrushed coats near
// 20 °C, in hours, the cautious end of each range: waterborne recoat 30 min to
// 4 h, cured 24 to 72 h; lacquer recoat 15 min to 1 h, another family after 1
// to 2 h; enamel 24 to 48 h. A gloss coat waits a day for decals and for a
// wash. A two-pack has no usual times: only its data sheet knows.
var usual = map[Family][stageCount]quantity.Hours{
	Waterborne: {Touch: 0.5, Handle: 4, Recoat: 4, Other: 24, Mask: 24, Apply: 24, Soak: 24, Cured: 72},
	Lacquer:    {Touch: 0.25, Handle: 1, Recoat: 1, Other: 2, Mask: 24, Apply: 24, Soak: 24, Cured: 24},
	Enamel:     {Touch: 8, Handle: 24, Recoat: 24, Other: 48, Mask: 48, Apply: 48, Soak: 48, Cured: 48},
	Oil:        {Touch: 24, Handle: 24, Recoat: 24, Other: 72, Mask: 72, Apply: 72, Soak: 72, Cured: 72},
}

var ruleTimes = &source.Rule{
	Name: "times-out-of-order", Severity: source.Warn,
	Reason: "A coat is touch dry before it may be handled, and handled before it may be masked; otherwise one of the times is mistyped.",
	Source: practice,
	Keys: "paints <name>: touch dry, handle, recoat, recoat within, recoat again, mask after, cured; " +
		"paints <name>.measured: touch dry, handle, recoat, recoat within, recoat again, mask after, cured",
}

// Waits works out the times that hold for a paint: the builder's own before
// the data sheet's, and the trade's usual ones, marked assumed, where neither
// says anything. An assumed time is never shorter than a written one of an
// earlier stage.
func (p *Paint) Waits() Waits {
	var w Waits
	least := quantity.Hours(0)
	for s := range stageCount {
		w.Of[s] = p.written(*p.Measured.of(s), *p.of(s))
		if w.Of[s].Known {
			least = max(least, w.Of[s].Hours)
			continue
		}
		if p.Family.V == TwoPack || p.Family.V == UnknownFamily {
			continue
		}
		w.Of[s] = Wait{Hours: max(usual[p.Family.V][s], least), Known: true, Assumed: true,
			Source: source.Say("assumed for %s: %s", source.Word(p.Family.V.String()), source.Word(practice))}
	}
	w.RecoatUntil = p.written(p.Measured.RecoatUntil, p.RecoatUntil)
	w.RecoatAgain = p.written(p.Measured.RecoatAgain, p.RecoatAgain)
	if until := w.RecoatUntil; until.Known && w.Of[Recoat].Assumed {
		w.Of[Recoat].Hours = min(w.Of[Touch].Hours, until.Hours) // "recoat within 1 h" means from touch dry on
	}
	return w
}

func (p *Paint) written(own, sheet source.Value[quantity.Hours]) Wait {
	switch {
	case own.Set:
		return Wait{Hours: own.V, Known: true, Source: source.Word("measured by the builder"), At: own.At}
	case sheet.Set && p.Source.Set:
		return Wait{Hours: sheet.V, Known: true, Source: source.Say("%s", p.Source.V), At: sheet.At}
	case sheet.Set:
		return Wait{Hours: sheet.V, Known: true, Source: source.Word("the rack's entry, no data sheet named"), At: sheet.At}
	}
	return Wait{}
}

// order lists which stages cannot come before which.
var order = [][2]Stage{{Touch, Handle}, {Touch, Mask}, {Handle, Mask}, {Touch, Apply}, {Touch, Soak},
	{Touch, Cured}, {Handle, Cured}, {Mask, Cured}}

// CheckTimes reports times of a paint that contradict each other.
func (p *Paint) CheckTimes() []source.Finding {
	var found []source.Finding
	w := p.Waits()
	for _, pair := range order {
		early, late := w.Of[pair[0]], w.Of[pair[1]]
		if early.Assumed || late.Assumed || !early.Known || !late.Known || early.Hours <= late.Hours {
			continue
		}
		found = append(found, ruleTimes.At(late.At, "check both against the data sheet", "%s: %s after %s comes before %s after %s",
			p.Name.V, source.Word(pair[1].String()), late.Hours, source.Word(pair[0].String()), early.Hours).
			With(early.At, "%s is written here", source.Word(pair[0].String())))
	}
	if until, again := w.RecoatUntil, w.RecoatAgain; until.Known && again.Known && again.Hours <= until.Hours {
		found = append(found, ruleTimes.At(again.At, "write the end of the first recoat window, then the start of the second, "+
			"as the data sheet has them",
			"%s: recoat again after %s lies inside the first window of %s", p.Name.V, again.Hours, until.Hours))
	}
	return found
}

package scale

import (
	"math"

	"spruelight/gen/source"
)

var (
	ruleBox = &source.Rule{Name: "scale-off-box", Severity: source.Note, Source: "limits of both lengths, JCGM 100:2008",
		Reason: "The model's measured lengths exclude the scale printed on the box: beside a true one it will look too large " +
			"or too small.",
		Keys: "build: scale, subject, measured; shelf <name>: scale, subject, measured"}
	ruleFar = &source.Rule{Name: "scale-far-off", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A scale that misses the box's by a half or more is rarely the kit and mostly a slip: a wrong unit, or another " +
			"length than the one named.",
		Keys: "build: scale, subject, measured; shelf <name>: scale, subject, measured"}
	ruleDisagree = &source.Rule{Name: "scale-lengths-disagree", Severity: source.Warn,
		Reason: "No one scale explains all measured lengths: one is misread, or the kit is out of proportion.",
		Source: AgreementMethod,
		Keys:   "build: subject, measured; shelf <name>: subject, measured"}
	ruleDisputed = &source.Rule{Name: "scale-disputed", Severity: source.Note,
		Reason: "The sources for the subject's size exclude one another; the sums stay side by side and go by the first.",
		Source: "common practice, no source",
		Keys:   "build: subject; build subject[]: source; shelf <name>: subject; shelf <name>.subject[]: source"}
	ruleUnpaired = &source.Rule{Name: "scale-length-unpaired", Severity: source.Note,
		Reason: "A length of the model says something about its scale only beside the same length of the subject.",
		Source: "arithmetic",
		Keys:   "build: subject, measured; shelf <name>: subject, measured"}
	ruleZero = &source.Rule{Name: "scale-length-zero", Severity: source.Stop,
		Reason: "A length of nothing has no scale.",
		Source: "arithmetic",
		Keys:   "build: subject, measured; shelf <name>: subject, measured"}
	ruleFigure = &source.Rule{Name: "scale-figure", Severity: source.Note,
		Reason: "A figure that would be shorter or taller than 98 of 100 adults shows at once that the scale is another one.",
		Source: "NATICK/TR-15/007 (2014), ANSUR II: stature and sitting height, 5th to 95th percentile",
		Keys:   "build: scale, measured; shelf <name>: scale, measured"}
)

// Rules are the rules of this room.
var Rules = []*source.Rule{
	ruleBox, ruleFar, ruleDisagree, ruleDisputed, ruleUnpaired, ruleZero, ruleFigure,
	ruleOutlineForm, ruleOutlineRefused, ruleOutlinePath, ruleOutlineShape, ruleNoView,
	ruleNoRoom, ruleShelvesFull, ruleWeight,
}

// farOff is the factor from the box's scale at which a slip is likelier than a
// poor kit. Common practice, no source; kits out by a quarter are known.
const farOff = 1.5

// implied pairs the model's lengths with those of an account.
func implied(m Model, a Account) (out []Implied, found []source.Finding) {
	for _, e := range m.Measured {
		real, ok := a.Real.Get(e.Name.V)
		if !ok {
			continue
		}
		if zero, at := firstZero(e.Value, real); zero {
			found = append(found, ruleZero.At(at, "write the length", "%s: %s is not a length above zero", m.Name, e.Name.V))
			continue
		}
		out = append(out, imply(e.Name.V, e.Value, real))
	}
	return out, found
}

func firstZero(lengths ...Length) (bool, source.Span) {
	for _, l := range lengths {
		if l.V.Value <= 0 || l.V.Low <= 0 {
			return true, l.At
		}
	}
	return false, source.Span{}
}

// unpaired reports measured lengths that no account has beside them. A model
// without any real size is not asked for one, and what a source gives beyond
// the measured lengths is no fault.
func unpaired(m Model) (found []source.Finding) {
	real := map[string]bool{}
	for _, a := range m.Accounts {
		for _, e := range a.Real {
			real[e.Name.V] = true
		}
	}
	for _, e := range m.Measured {
		if !real[e.Name.V] && len(real) > 0 {
			found = append(found, ruleUnpaired.At(e.Name.At, "add it to the subject with its source",
				"%s: the measured %s has no real length beside it", m.Name, e.Name.V))
		}
	}
	return found
}

func judgementFindings(m Model, j Judgement) (found []source.Finding) {
	for _, b := range j.Believed {
		if !b.Agreement.Agree {
			found = append(found, ruleDisagree.At(b.Implied[0].At, "measure again, and check what the source calls by that name",
				"%s: by %s the lengths do not follow one scale: %s", m.Name, b.Source, listImplied(b.Implied)))
		}
		if !m.Box.Set || b.BoxInside {
			continue
		}
		if f := m.Box.V.Ratio / b.Estimate.Ratio; math.Max(f, 1/f) >= farOff {
			found = append(found, ruleFar.At(m.Box.At, "check unit and name of the measured and the real lengths",
				"%s: measures %s by %s, the box says %s", m.Name, b.Estimate.Text(), b.Source, m.Box.V))
			continue
		}
		if !b.Agreement.Agree {
			continue // no one scale to hold against the box
		}
		found = append(found, ruleBox.At(m.Box.At, "stand it among models of its true scale",
			"%s: measures %s by %s, so it is %s for the box's %s", m.Name, b.Estimate.Text(), b.Source,
			offBy(m.Box.V.Ratio, b.Estimate.Ratio), m.Box.V))
	}
	if j.Disputed {
		f := ruleDisputed.At(j.Believed[0].At, "put the source you trust first",
			"%s: the sources for its size lead to scales that exclude one another", m.Name)
		for _, b := range j.Believed {
			f = f.With(b.At, "%s leads to %s", b.Source, b.Estimate.Text())
		}
		found = append(found, f)
	}
	return found
}

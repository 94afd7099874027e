package tally

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Decision is where a choice stands.
type Decision struct {
	Choice  Choice
	Decided bool
	Open    bool           // whether it can still be changed
	Fixed   *Closing       // what closed it, where it is no longer open
	Says    source.Message // "can still be changed until hull inside is closed"
}

var (
	ruleChoiceOption = &source.Rule{Name: "choice-option", Severity: source.Warn,
		Reason: "What was chosen must be one of the options, or readers cannot tell which way the model went.", Source: "logic",
		Keys: "build choices[]: options, chosen"}
	ruleChoiceWhy = &source.Rule{Name: "choice-why", Severity: source.Note,
		Reason: "The reason is what others building the kit want to know.", Source: "common practice, no source",
		Keys: "build choices[]: chosen, why"}
	ruleChoiceLate = &source.Rule{Name: "choice-undecided", Severity: source.Warn,
		Reason: "Once the area is closed the model has taken one of the ways, written down or not.", Source: "logic",
		Keys: "build choices[]: question, chosen, areas"}
	ruleChoiceOptions = &source.Rule{Name: "choice-options", Severity: source.Warn,
		Reason: "An either/or has at least two options.", Source: "logic",
		Keys: "build choices[]: question, options"}
)

// Decisions says of each choice how it stands, given the areas closed so far.
// A finished build has nothing open.
func Decisions(choices []Choice, closed []Closing, state State) ([]Decision, source.Findings) {
	var out []Decision
	var findings source.Findings
	for _, c := range choices {
		d := Decision{Choice: c, Decided: c.Chosen.Set && c.Chosen.V != ""}
		d.Fixed = closedFor(c, closed)
		d.Open = d.Fixed == nil && state != Shelf
		d.Says = d.says(state)
		out = append(out, d)
		findings.Add(d.check()...)
	}
	return out, findings
}

// closedFor returns the first closing that fixed a choice.
func closedFor(c Choice, closed []Closing) *Closing {
	for i := range closed {
		if slices.ContainsFunc(c.Areas, func(a source.Value[string]) bool { return a.V == closed[i].Area }) {
			return &closed[i]
		}
	}
	return nil
}

func (d Decision) says(state State) source.Message {
	switch {
	case d.Fixed != nil:
		return source.Say("fixed since %s was closed on %s", d.Fixed.Area, quantity.Date(d.Fixed.Date))
	case state == Shelf:
		return source.Word("fixed: the model is finished")
	case len(d.Choice.Areas) == 0:
		return source.Word("can still be changed")
	}
	var areas []string
	for _, a := range d.Choice.Areas {
		areas = append(areas, a.V)
	}
	return source.Say("can still be changed until %s is closed", source.Or(areas))
}

func (d Decision) check() source.Findings {
	var findings source.Findings
	c := d.Choice
	names := make([]string, len(c.Options))
	for i, o := range c.Options {
		names[i] = o.Name.V
	}
	if len(c.Options) < 2 {
		findings.Add(ruleChoiceOptions.At(c.Question.At, "list the options, two or more",
			"%q has %s", c.Question.V, counted(len(c.Options), "option")))
	}
	switch {
	case !d.Decided && d.Fixed != nil:
		findings.Add(ruleChoiceLate.At(c.Question.At, "write which way was taken: chosen",
			"%q is undecided, yet %s is closed", c.Question.V, d.Fixed.Area))
	case d.Decided && len(c.Options) > 0 && !slices.Contains(names, c.Chosen.V):
		findings.Add(ruleChoiceOption.At(c.Chosen.At, source.Say("write one of: %s", source.Or(names)),
			"%q is none of the options of %q", c.Chosen.V, c.Question.V))
	case d.Decided && strings.TrimSpace(c.Why.V) == "":
		findings.Add(ruleChoiceWhy.At(c.Chosen.At, "add why", "nothing says why %q was chosen", c.Chosen.V))
	}
	return findings
}

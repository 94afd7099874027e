package tally

import (
	"math"
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Criterion is one thing a review judges.
type Criterion struct {
	Name   string
	Asks   string // the question it answers, for readers
	Weight source.Value[float64]
	// What the log can say to it: the hours of these stages, problems of
	// these kinds, kit faults of these kinds, and the points named by Log.
	Stages, Problems, Faults []string
	Log                      Log
}

// Log are points of the log that bear on a criterion.
type Log uint

// The points.
const (
	LogFilled   Log = 1 << iota // parts that needed filler
	LogWarped                   // parts that had to be straightened
	LogSpares                   // spares used, parts broken
	LogDecals                   // decals applied and failed
	LogClosings                 // areas closed over lamps
	LogLights                   // lamps fitted, light leaks
	LogScale                    // the verdict on the box's scale
	LogCost                     // price and cost by hour
)

// Criteria are the criteria of a workshop that names none, with equal weights.
var Criteria = []Criterion{
	{Name: "fit", Asks: "Do the parts meet without work?", Stages: []string{"assembly"}, Problems: []string{"fit"}, Faults: []string{"gap", "step", "misalignment", "warp"}, Log: LogFilled | LogWarped},
	{Name: "detail", Asks: "Is what should be there there, and sharp?", Problems: []string{"detail", "moulding"}, Faults: []string{"flash", "sink mark", "ejector-pin mark", "short shot", missingPart, "scratched clear part"}},
	{Name: "instructions", Asks: "Can one build from the sheet alone?", Problems: []string{"instructions"}},
	{Name: "decals", Asks: "Do they settle, and are they right?", Stages: []string{"decals"}, Problems: []string{"decals"}, Faults: []string{"misregistered decal"}, Log: LogDecals},
	{Name: "engineering", Asks: "Is it cut so that it can be built and painted well?", Problems: []string{"engineering", "breakage"}, Faults: []string{"warp"}, Log: LogSpares | LogWarped},
	{Name: "room for lights", Asks: "Do lamps, wires and light blocking find a place?", Stages: []string{"lighting"}, Problems: []string{"lighting", "leak"}, Log: LogLights | LogClosings},
	{Name: "accuracy", Asks: "Does it match its subject and its scale?", Problems: []string{"accuracy"}, Log: LogScale},
	{Name: "value", Asks: "Is it worth its price?", Log: LogCost},
}

// missingPart is a fault of which there is nothing to point at.
const missingPart = "missing part"

// FaultKinds are the trade's terms for what can be wrong with a kit. Another
// word is as good to a reader, so that none of them is forbidden.
var FaultKinds = []string{"flash", "sink mark", "ejector-pin mark", "short shot", "warp", "misalignment", "gap", "step",
	missingPart, "misregistered decal", "scratched clear part"}

// ReviewInput is what a review is worked out from.
type ReviewInput struct {
	At         source.Span
	Criteria   []Criterion          // in order; Criteria where empty
	Best       float64              // the top mark; 10 where zero
	Overall    bool                 // the workshop asks for one mark over all
	Marks      source.Entries[Mark] // by criterion
	Faults     []Fault
	Verdict    source.Value[string]
	Texts      []source.Value[string] // all prose of the review, for empty phrases
	Phrases    []string               // EmptyPhrases where nil
	Experience string                 // of the reviewer, with the subject
	Kit        Kit
	Sum        Sum // with no sittings it is a first look
	Evidence   EvidenceInput
}

// Review is a review worked out.
type Review struct {
	FirstLook  bool
	Standing   source.Message // "Build review, after 12 sittings and 41 h at the bench"
	Disclosure Disclosure
	Best       float64
	Rows       []ReviewRow
	Overall    *OverallMark // only where asked for
	Showing    []Fault      // faults that show on the finished model, or may
	Hidden     []Fault      // and those that do not: no reader should fear them
}

// ReviewRow is one criterion of a review.
type ReviewRow struct {
	Criterion Criterion
	Weight    float64
	Share     quantity.Share // of the weights of what was assessed
	Assessed  bool
	Mark      float64
	Why       string
	Evidence  []source.Message // from the log, in sentences
}

// Text prints the mark: "8 of 10", or "not assessed".
func (r ReviewRow) Text(best float64) source.Message {
	if !r.Assessed {
		return source.Word("not assessed")
	}
	return outOf(r.Mark, best)
}

// outOf is a mark beside the top mark: "7.3 of 10".
func outOf(mark, best float64) source.Message {
	return source.Say("%s of %s", quantity.Amount{Value: mark, Digits: 2}, quantity.Amount{Value: best, Digits: 3})
}

// OverallMark is one mark over all criteria.
type OverallMark struct {
	Mark          float64
	Says, Working source.Message // "7.3 of 10", "(2 × 8 + 1 × 6) / (2 + 1)"
	Source        source.Message
}

// bestMark is the top mark where the workshop sets none. Half marks are allowed.
const bestMark = 10

var (
	ruleMarkReason = &source.Rule{Name: "mark-without-reason", Severity: source.Warn,
		Reason: "A number without its reason cannot be weighed against a reader's own needs.", Source: "common practice, no source",
		Keys: "review marks.<name>: mark, why"}
	ruleMarkRange = &source.Rule{Name: "mark-range", Severity: source.Stop,
		Source: "schema.org Rating: ratingValue between worstRating and bestRating",
		Reason: "A mark outside the scale would be published as a nonsense.",
		Keys:   "review marks.<name>: mark; workshop review: best"}
	ruleMarkCriterion = &source.Rule{Name: "mark-criterion", Severity: source.Warn,
		Reason: "A mark for a criterion that the workshop does not have counts nowhere.", Source: "this program's own words",
		Keys: "review: marks; workshop review: criteria"}
	ruleMarkTwice = &source.Rule{Name: "mark-twice", Severity: source.Warn,
		Reason: "Two marks for one criterion would be two verdicts.", Source: "logic",
		Keys: "review: marks"}
	ruleMarkEarly = &source.Rule{Name: "mark-in-first-look", Severity: source.Note, Source: "common practice, no source",
		Reason: "Fit, decals and engineering show on the bench, not in the box: before the first sitting they are best left " +
			"not assessed.",
		Keys: "review marks.<name>: mark"}
	ruleWeight = &source.Rule{Name: "criterion-weight", Severity: source.Stop,
		Reason: "A weight is a number of zero or more, and not all may be zero.", Source: "arithmetic",
		Keys: "workshop review: criteria; workshop review.criteria.<name>: weight"}
	ruleVerdict = &source.Rule{Name: "review-verdict", Severity: source.Warn,
		Reason: "Marks alone leave the reader without the sentence they came for.", Source: "common practice, no source",
		Keys: "review: verdict, marks"}
	ruleFaultKind = &source.Rule{Name: "fault-kind", Severity: source.Warn,
		Reason: "The trade's own terms tell a reader what to look for.", Source: "common practice, no source",
		Keys: "review faults[]: kind"}
	ruleFaultShows = &source.Rule{Name: "fault-shows", Severity: source.Note, Source: "common practice, no source",
		Reason: "An ejector-pin mark inside the hull is no fault to a builder. Whether it shows on the finished model is what counts.",
		Keys:   "review faults[]: kind, shows"}
)

// Judge works out a review.
func Judge(in ReviewInput) (Review, source.Findings) {
	if len(in.Criteria) == 0 {
		in.Criteria = Criteria
	}
	if in.Best == 0 {
		in.Best = bestMark
	}
	r := Review{Best: in.Best, FirstLook: in.Sum.Sittings == 0, Standing: standing(in.Sum)}
	var findings source.Findings
	r.Disclosure, findings = Disclose(in.Kit, in.At)
	findings.Add(checkWeights(in.Criteria)...)
	rows, found := r.markRows(in)
	r.Rows = rows
	findings.Add(found...)
	r.share()
	if in.Overall {
		r.Overall = r.overall()
	}
	findings.Add(r.sortFaults(in.Faults)...)
	if !in.Verdict.Set || strings.TrimSpace(in.Verdict.V) == "" {
		findings.Add(ruleVerdict.At(in.At, "add verdict with one paragraph", "the review has no verdict"))
	}
	findings.Add(CheckPhrases(in.Texts, in.Phrases)...)
	return r, findings
}

func standing(s Sum) source.Message {
	if s.Sittings == 0 {
		return source.Word("First look: nothing has been built yet")
	}
	after := source.Say("Build review, after %s and %s at the bench", counted(s.Sittings, "sitting"), WholeMinutes(s.Hours))
	if s.State == Shelf {
		return after
	}
	return source.Say("%s; the build is not finished", after)
}

func checkWeights(criteria []Criterion) source.Findings {
	var findings source.Findings
	sum := 0.0
	for _, c := range criteria {
		w := c.Weight.Or(1)
		if w < 0 || math.IsNaN(w) || math.IsInf(w, 0) {
			findings.Add(ruleWeight.At(c.Weight.At, "write a weight of zero or more", "the weight of %s is %s", source.Word(c.Name),
				quantity.Amount{Value: w, Digits: 3}))
		}
		sum += max(w, 0)
	}
	if sum == 0 {
		findings.Add(ruleWeight.At(criteria[0].Weight.At, "give a criterion a weight above zero", "all weights are zero"))
	}
	return findings
}

// markRows joins the marks to their criteria, in the criteria's order.
func (r *Review) markRows(in ReviewInput) ([]ReviewRow, source.Findings) {
	var findings source.Findings
	rows := make([]ReviewRow, len(in.Criteria))
	first := make([]source.Span, len(in.Criteria))
	marked := make([]bool, len(in.Criteria))
	for i, c := range in.Criteria {
		rows[i] = ReviewRow{Criterion: c, Weight: max(c.Weight.Or(1), 0), Evidence: in.Evidence.For(c)}
	}
	for _, m := range in.Marks {
		i := slices.IndexFunc(in.Criteria, func(c Criterion) bool { return c.Name == m.Name.V })
		switch {
		case i < 0:
			findings.Add(ruleMarkCriterion.At(m.Name.At, source.Say("write one of: %s", source.Or(criterionNames(in.Criteria))),
				"%q is none of the workshop's criteria", m.Name.V))
			continue
		case marked[i]:
			findings.Add(ruleMarkTwice.At(m.Name.At, "keep one of the two", "%s is marked twice", m.Name.V).With(first[i], "the first mark"))
			continue
		}
		marked[i], first[i] = true, m.Name.At
		findings.Add(r.mark(&rows[i], m.Value)...)
	}
	return rows, findings
}

func (r *Review) mark(row *ReviewRow, m Mark) source.Findings {
	var findings source.Findings
	row.Why = m.Why.V
	if !m.Score.Set || m.Score.V.NotAssessed {
		return nil
	}
	v, name := m.Score.V.Mark, row.Criterion.Name
	if !(v >= 0 && v <= r.Best) {
		findings.Add(ruleMarkRange.At(m.Score.At, source.Say("write a mark from 0 to %s, or not assessed", quantity.Amount{Value: r.Best,
			Digits: 3}),
			"the mark for %s is %s", name, quantity.Amount{Value: v, Digits: 3}))
		return findings
	}
	row.Assessed, row.Mark = true, v
	if strings.TrimSpace(m.Why.V) == "" {
		findings.Add(ruleMarkReason.At(m.Score.At, "add why: what was seen or measured",
			"%s is marked %s without a reason", name, quantity.Amount{Value: v, Digits: 2}))
	}
	if r.FirstLook && row.Criterion.Log&(LogFilled|LogDecals|LogSpares|LogClosings) != 0 {
		findings.Add(ruleMarkEarly.At(m.Score.At, "write not assessed until it was built", "%s is marked before the first sitting", name))
	}
	return findings
}

// share gives each assessed criterion its share of the weights. What was not
// assessed counts nowhere.
func (r *Review) share() {
	sum := 0.0
	for _, row := range r.Rows {
		if row.Assessed {
			sum += row.Weight
		}
	}
	for i := range r.Rows {
		if r.Rows[i].Assessed && sum > 0 {
			r.Rows[i].Share = quantity.Share(r.Rows[i].Weight / sum)
		}
	}
}

// overall is the weighted mean of what was assessed, with its arithmetic.
func (r *Review) overall() *OverallMark {
	var terms, weights []any
	sum, of := 0.0, 0.0
	for _, row := range r.Rows {
		if !row.Assessed || row.Weight == 0 {
			continue
		}
		w := quantity.Amount{Value: row.Weight, Digits: 3}
		terms = append(terms, source.Say("%s × %s", w, quantity.Amount{Value: row.Mark, Digits: 2}))
		weights = append(weights, w)
		sum += row.Weight * row.Mark
		of += row.Weight
	}
	if of == 0 {
		return nil
	}
	return &OverallMark{Mark: sum / of, Says: outOf(sum/of, r.Best),
		Working: source.Say("(%s) / (%s)", source.List{Of: terms, Sep: " + "}, source.List{Of: weights, Sep: " + "}),
		Source:  source.Word("weighted mean of the criteria that were assessed")}
}

// sortFaults parts the faults that show from those that do not.
func (r *Review) sortFaults(faults []Fault) source.Findings {
	var findings source.Findings
	for _, f := range faults {
		if !slices.Contains(FaultKinds, f.Kind.V) {
			findings.Add(ruleFaultKind.At(f.Kind.At, source.Say("write one of: %s", source.Or(FaultKinds)), "%q is not a term for a kit fault",
				f.Kind.V))
		}
		if !f.Shows.Set {
			findings.Add(ruleFaultShows.At(f.Kind.At, "add shows: yes or shows: no",
				"nothing says whether the %s on %s shows on the finished model", source.Word(f.Kind.V), f.Part.V))
		}
		if f.Shows.Set && !f.Shows.V {
			r.Hidden = append(r.Hidden, f)
		} else {
			r.Showing = append(r.Showing, f)
		}
	}
	return findings
}

func criterionNames(criteria []Criterion) []string {
	names := make([]string, len(criteria))
	for i, c := range criteria {
		names[i] = c.Name
	}
	return names
}

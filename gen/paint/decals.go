package paint

import (
	"time"

	"spruelight/gen/source"
)

// Sheet is a decal sheet with its numbered markings.
type Sheet struct {
	Name  source.Value[string]
	Marks []Mark
}

// Mark is one marking of a sheet, of which there may be several.
type Mark struct {
	Number source.Value[string] // as printed on the sheet
	What   source.Value[string]
	Count  source.Value[int] // how many the sheet carries; 1 where nothing is written
}

// Placing is what a sitting did with decals.
type Placing struct {
	Sheet  source.Value[string]
	Number source.Value[string]
	Count  source.Value[int]
	Area   source.Value[string]
	Spoilt bool // torn or folded: used up without being placed
	When   time.Time
}

// MarkCount is what became of one marking.
type MarkCount struct {
	Sheet, Number, What           string
	Printed, Placed, Spoilt, Left int
}

var (
	ruleDecalUnknown = &source.Rule{Name: "decal-unknown", Severity: source.Warn, Source: "the build file's decal sheets",
		Reason: "A marking that is on no sheet is a slip of the pen, and the count of another one stays too high.",
		Keys:   "sitting markings[]: marking, sheet; build: decal sheets"}
	ruleDecalOver = &source.Rule{Name: "decal-overdrawn", Severity: source.Warn, Source: "the build file's decal sheets",
		Reason: "More of a marking was used than the sheet carries: one of the counts is wrong.",
		Keys:   "sitting markings[]: marking, count; build decal sheets.<name>[]: count"}
)

// Ledger counts printed, placed, spoilt and left markings, in the order of the sheets.
func Ledger(sheets []Sheet, placed []Placing) ([]MarkCount, []source.Finding) {
	var counts []MarkCount
	var at []source.Span
	place := map[[2]string]int{}
	for _, s := range sheets {
		for _, m := range s.Marks {
			place[[2]string{s.Name.V, m.Number.V}] = len(counts)
			counts = append(counts, MarkCount{Sheet: s.Name.V, Number: m.Number.V, What: m.What.V, Printed: m.Count.Or(1)})
			at = append(at, m.Number.At)
		}
	}
	var found []source.Finding
	overdrawn := map[int]bool{}
	for _, p := range placed {
		i, ok := place[[2]string{sheetOf(sheets, p), p.Number.V}]
		if !ok {
			found = append(found, ruleDecalUnknown.At(p.Number.At, "correct the number, or add the marking to its sheet", "marking %s is on no decal sheet of this build", p.Number.V))
			continue
		}
		c := &counts[i]
		if p.Spoilt {
			c.Spoilt += p.Count.Or(1)
		} else {
			c.Placed += p.Count.Or(1)
		}
		if used := c.Placed + c.Spoilt; used > c.Printed && !overdrawn[i] {
			overdrawn[i] = true
			found = append(found, ruleDecalOver.At(p.Number.At, "correct the count here or on the sheet", "marking %s: %d used, the sheet carries %d", c.Number, used, c.Printed).With(at[i], "the sheet's count"))
		}
	}
	for i := range counts {
		counts[i].Left = counts[i].Printed - counts[i].Placed - counts[i].Spoilt
	}
	return counts, found
}

// sheetOf names the sheet of a placing; a build with a single sheet need not repeat it.
func sheetOf(sheets []Sheet, p Placing) string {
	if !p.Sheet.Set && len(sheets) == 1 {
		return sheets[0].Name.V
	}
	return p.Sheet.V
}

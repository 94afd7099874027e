package record

import (
	"time"

	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Parts is the page of a build's counted parts.
type Parts struct {
	Build    topic.Card
	Rows     []tally.Row
	History  []PartLine // what became of them, sitting by sitting
	Implied  bool       // a loss is taken for granted somewhere
	Finished bool
}

// PartLine is one event of a part's history.
type PartLine struct {
	Row   tally.Row
	Entry tally.Entry
	Path  string // of the sitting
	Title string
	To    *page.Link // the build it went to, where it is one of the workshop's
}

// Problems is the page of what went wrong on a build.
type Problems struct {
	Build    topic.Card
	Problems []ProblemCase
	Method   source.Message // of the sums, with its source
}

// ProblemCase is one problem with what is known of its cause.
type ProblemCase struct {
	Problem *tally.Problem
	Anchor  string
	Title   string
	Known   tally.Isolation
	Solved  bool // an outcome is written down
}

// Choices is the page of a build's either/ors.
type Choices struct {
	Build     topic.Card
	Decisions []DecisionCase
}

// DecisionCase is one choice with its pictures.
type DecisionCase struct {
	Title    string
	Decision tally.Decision
	Options  []OptionCase
}

// OptionCase is one option of a choice.
type OptionCase struct {
	Name    string
	Picture *page.Picture
	Chosen  bool
}

// Hours is the page of a build's hours, pace and cost.
type Hours struct {
	Build      topic.Card
	Charts     []page.Drawing
	Outlook    *tally.Forecast // nil for a build that is not in work
	Pace       *quantity.Figure
	Method     source.Message // of the quartiles
	Balances   []tally.Balance
	Quote      *tally.Quote // only where the build publishes its commission
	Obtained   tally.Disclosure
	Spending   []tally.Step
	OpenStages []tally.StageLeft
}

// EntrySheet is the card of a build for a club show, one printed page.
type EntrySheet struct {
	Build    topic.Card
	Kit      tally.Kit
	Keeper   string
	Changed  []string // what is not as the kit packs it
	Paints   []string
	Lights   []string
	Box      tally.OutOfBox
	Finished time.Time
}

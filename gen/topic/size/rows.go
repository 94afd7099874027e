package size

import (
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Page is a build's page on its scale.
type Page struct {
	Build     topic.Card
	Judged    scale.Judgement
	Method    source.Message // of the test whether the lengths agree, with its source
	Survey    source.Message // that figures are compared with
	Intervals *page.Drawing
	AtScale   scale.UsualSizes
	Nearest   []scale.Offer // commonly sold scales near its own
	Copies    []scale.Copy  // drawings at other scales, enlarged to its own
	Pairs     PairTable     // with every other model
	Lineup    string        // the line-up's place in the site
}

// Length prints a length as the workshop shows it.
func (s Page) Length(m quantity.Metres) quantity.Amount { return quantity.About(m) }

// PairTable is pairs of models: those worth a look, and the rest folded away.
type PairTable struct {
	Near, Far []scale.Pair
	Own       bool // all are seen from one model
}

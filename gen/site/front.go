package site

import (
	"slices"

	"spruelight/gen/page"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// frontOrder is the order in which builds stand on the front page.
var frontOrder = []tally.State{tally.Bench, tally.SetAside, tally.Shelf, tally.Stash}

// mostLatest is how many of the newest sittings the front page shows.
const mostLatest = 6

// frontSheet is the front page: the builds by state, and the newest sittings.
func frontSheet(h *House) *page.Sheet {
	byState := map[tally.State][]topic.Card{}
	for _, b := range h.Builds {
		state := b.Record.Sum.State
		byState[state] = append(byState[state], h.card(b))
	}
	data := Front{Total: tally.All(h.sums())}
	for _, state := range frontOrder {
		if cards := byState[state]; len(cards) > 0 {
			slices.SortStableFunc(cards, func(a, b topic.Card) int { return b.Updated.Compare(a.Updated) })
			data.Groups = append(data.Groups, Group{State: state, Builds: cards})
		}
	}
	for _, x := range h.newestSittings(mostLatest) {
		data.Latest = append(data.Latest, h.sittingCard(x.build, x.number))
	}
	return &page.Sheet{Path: "index.html", Kind: "front", Title: h.Site().Name, Summary: h.Site().About, Updated: h.Site().Updated, Data: data}
}

// oneSitting is a sitting by its build and its number there.
type oneSitting struct {
	build  *Build
	number int
}

// newestSittings returns so many of the newest sittings, newest first.
func (h *House) newestSittings(most int) []oneSitting {
	var list []oneSitting
	for _, b := range h.Builds {
		for i := range b.Sittings {
			list = append(list, oneSitting{b, i})
		}
	}
	slices.SortStableFunc(list, func(a, b oneSitting) int {
		return b.build.Sittings[b.number].Date.Compare(a.build.Sittings[a.number].Date)
	})
	return list[:min(len(list), most)]
}

package gen

import (
	"slices"

	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// frontOrder is the order in which builds stand on the front page.
var frontOrder = []tally.State{tally.Bench, tally.SetAside, tally.Shelf, tally.Stash}

// mostLatest is how many of the newest sittings the front page shows.
const mostLatest = 6

func (r *run) frontSheet() *page.Sheet {
	var sums []tally.Sum
	byState := map[tally.State][]topic.Card{}
	for _, w := range r.works {
		sums = append(sums, w.record.Sum)
		state := w.record.Sum.State
		byState[state] = append(byState[state], r.buildCard(w))
	}
	data := site.Front{Total: tally.All(sums)}
	for _, state := range frontOrder {
		if cards := byState[state]; len(cards) > 0 {
			slices.SortStableFunc(cards, func(a, b topic.Card) int { return b.Updated.Compare(a.Updated) })
			data.Groups = append(data.Groups, site.Group{State: state, Builds: cards})
		}
	}
	for _, x := range r.newestSittings(mostLatest) {
		data.Latest = append(data.Latest, r.sittingCard(x.work, x.number))
	}
	site := r.press.site
	return &page.Sheet{Path: "index.html", Kind: "front", Title: site.Name, Summary: site.About, Updated: site.Updated, Data: data}
}

// oneSitting is a sitting by its build and its number there.
type oneSitting struct {
	work   *work
	number int
}

// newestSittings returns so many of the newest sittings, newest first.
func (r *run) newestSittings(most int) []oneSitting {
	var list []oneSitting
	for _, w := range r.works {
		for i := range w.build.Sittings {
			list = append(list, oneSitting{w, i})
		}
	}
	slices.SortStableFunc(list, func(a, b oneSitting) int {
		return b.work.build.Sittings[b.number].Date.Compare(a.work.build.Sittings[a.number].Date)
	})
	return list[:min(len(list), most)]
}

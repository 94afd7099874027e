package circuit

import (
	"fmt"

	"spruelight/gen/source"
)

// notes collects what is found wrong with a circuit and what was taken for
// granted.
type notes struct {
	found   source.Findings
	assumed assumptions
}

// assumptions collects what was taken for granted: each once, with whom it
// concerns.
type assumptions struct {
	said  []source.Message
	about map[string][]any // by what is said: names, and Messages of what has none
}

func (a *assumptions) add(says source.Message, about ...any) {
	if a.about == nil {
		a.about = map[string][]any{}
	}
	list, known := a.about[says.String()]
	if !known {
		a.said = append(a.said, says)
	}
	for _, one := range about {
		if len(list) == 0 || fmt.Sprint(list[len(list)-1]) != fmt.Sprint(one) {
			list = append(list, one)
		}
	}
	a.about[says.String()] = list
}

func (a *assumptions) list() []source.Message {
	var all []source.Message
	for _, says := range a.said {
		if about := a.about[says.String()]; len(about) > 0 {
			says = source.Say("%s (%s)", says, source.Row(about))
		}
		all = append(all, says)
	}
	return all
}

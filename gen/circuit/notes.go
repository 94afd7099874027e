package circuit

import (
	"fmt"
	"strings"

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
	texts []string
	about map[string][]string
}

func (a *assumptions) add(about, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if a.about == nil {
		a.about = map[string][]string{}
	}
	list, known := a.about[text]
	if !known {
		a.texts = append(a.texts, text)
	}
	if about != "" && (len(list) == 0 || list[len(list)-1] != about) {
		list = append(list, about)
	}
	a.about[text] = list
}

func (a *assumptions) list() []string {
	var all []string
	for _, text := range a.texts {
		if about := a.about[text]; len(about) > 0 {
			text += " (" + strings.Join(about, ", ") + ")"
		}
		all = append(all, text)
	}
	return all
}

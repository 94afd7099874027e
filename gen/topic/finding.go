package topic

import (
	"spruelight/gen/source"
)

// RuleFinding is a finding with the rule behind it.
type RuleFinding struct {
	source.Finding
	Reason, Source string
}

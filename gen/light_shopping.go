package gen

import "spruelight/gen/circuit"

// shopping lists what the build's circuits need.
func (w *work) shopping() []circuit.Item {
	var solutions []*circuit.Solution
	for i := range w.light.circuits {
		if s := &w.light.circuits[i].solution; s.Solved {
			solutions = append(solutions, s)
		}
	}
	return circuit.Shopping(solutions, w.run.shop.Settings.Slack.V)
}

package wiring

import (
	"bytes"
	"testing"

	"spruelight/gen/circuit"
)

// The same circuit gives the same bytes; one without operating point gives none.
func TestDiagramIsDeterministic(t *testing.T) {
	for _, c := range circuits() {
		one, two := Diagram("d", solved(t, c.in), nil).File(), Diagram("d", solved(t, c.in), nil).File()
		if !bytes.Equal(one, two) {
			t.Errorf("%s: drawn twice, two drawings", c.name)
		}
	}
	if d := Diagram("d", circuit.Solution{}, nil); d != nil {
		t.Error("a circuit that is not solved was drawn")
	}
}

package circuit

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// network is a circuit reduced to what its equations need: a source and a tree
// of feeds with one-ports on their ends. Each feed is a pair of equal wires
// that carry the same current there and back, so a junction needs one unknown
// voltage, from its plus to its minus.
type network struct {
	volts float64 // of the source, unloaded
	feeds []feed  // a feed's parent stands before it; the first hangs on the source
	ports []port
}

// feed is a pair of wires and all else in series with it.
type feed struct {
	parent int // -1: the source
	ohms   float64
}

// port is a branch seen from its junction.
type port struct {
	feed  int
	model model
}

// operating is the solution of a network.
type operating struct {
	volts    []float64 // across each feed's end
	through  []float64 // current of each feed
	currents []float64 // of each port
}

// errDiverged says that Newton's steps did not settle.
var errDiverged = errors.New("no operating point was found")

// maxSteps bounds the Newton iteration. Circuits of lamps settle in 3 to 8.
const maxSteps = 200

// workspace keeps the matrices between solutions of networks of one shape.
type workspace struct {
	matrix         *mat.Dense
	lu             mat.LU
	right, step    *mat.VecDense
	current, slope []float64
}

func newWorkspace(n *network) *workspace {
	size := 2 * len(n.feeds)
	return &workspace{
		matrix:  mat.NewDense(size, size, nil),
		right:   mat.NewVecDense(size, nil),
		step:    mat.NewVecDense(size, nil),
		current: make([]float64, len(n.ports)),
		slope:   make([]float64, len(n.feeds)),
	}
}

// solve finds the operating point by modified nodal analysis: the unknowns are
// the voltage at every junction and the current of every feed, the equations
// are Kirchhoff's current law at each junction and Ohm's law along each feed,
// so that a feed without resistance needs no special case. Newton steps are
// halved until the currents' imbalance shrinks, which for ports whose current
// rises with voltage always succeeds. start may be nil or a near solution.
// On failure the port with the largest imbalance is returned with the error.
func (n *network) solve(w *workspace, start []float64) (operating, int, error) {
	junctions := len(n.feeds)
	x := make([]float64, 2*junctions) // voltages, then currents
	for i := range junctions {
		x[i] = n.volts
	}
	copy(x[:junctions], start)
	trial := make([]float64, len(x))
	n.evaluate(w, x)
	n.follow(w, x)
	best := n.imbalance(w, x)
	for range maxSteps {
		if n.settled(w, best) {
			return n.operating(w, x), -1, nil
		}
		if !n.newton(w) {
			break
		}
		damp, next := 1.0, math.Inf(1)
		for range 40 {
			for i := range x {
				trial[i] = x[i] + damp*w.step.AtVec(i)
			}
			n.evaluate(w, trial)
			if next = n.imbalance(w, trial); next <= best*(1-damp/1e4) {
				break
			}
			damp /= 2
		}
		done := !(next < best) // rounding alone is left, or the steps lead nowhere
		copy(x, trial)
		if best = next; done {
			break
		}
	}
	if best <= 1e-9*n.scale(w) {
		return n.operating(w, x), -1, nil
	}
	return operating{}, n.culprit(w), errDiverged
}

// evaluate asks every port for its current and slope at the voltages of x.
func (n *network) evaluate(w *workspace, x []float64) {
	clear(w.slope)
	for i := range n.ports {
		p := &n.ports[i]
		current, slope := p.model.at(x[p.feed])
		w.current[i] = current
		w.slope[p.feed] += slope
	}
}

// follow sets the feeds' currents to what the ports take.
func (n *network) follow(w *workspace, x []float64) {
	through := x[len(n.feeds):]
	clear(through)
	for i := range n.ports {
		through[n.ports[i].feed] += w.current[i]
	}
	for k := len(through) - 1; k > 0; k-- {
		through[n.feeds[k].parent] += through[k]
	}
}

// imbalance fills the right side with what each equation is short of, and
// returns its size: amperes and volts count alike, the latter over an ohm.
func (n *network) imbalance(w *workspace, x []float64) float64 {
	junctions := len(n.feeds)
	right := w.right.RawVector().Data
	clear(right)
	for k, f := range n.feeds {
		above := n.volts
		if f.parent >= 0 {
			above = x[f.parent]
			right[f.parent] += x[junctions+k]
		}
		right[k] -= x[junctions+k]
		right[junctions+k] = f.ohms*x[junctions+k] + x[k] - above
	}
	for i := range n.ports {
		right[n.ports[i].feed] += w.current[i]
	}
	return mat.Norm(w.right, 2)
}

// newton solves for the step that would balance the linearised equations.
func (n *network) newton(w *workspace) bool {
	junctions := len(n.feeds)
	w.matrix.Zero()
	for k, f := range n.feeds {
		w.matrix.Set(k, k, -w.slope[k])
		w.matrix.Set(k, junctions+k, 1)
		w.matrix.Set(junctions+k, k, -1)
		w.matrix.Set(junctions+k, junctions+k, -f.ohms)
		if f.parent >= 0 {
			w.matrix.Set(f.parent, junctions+k, -1)
			w.matrix.Set(junctions+k, f.parent, 1)
		}
	}
	w.lu.Factorize(w.matrix)
	if err := w.lu.SolveVecTo(w.step, false, w.right); err != nil {
		var near mat.Condition
		return errors.As(err, &near) && !math.IsInf(float64(near), 0)
	}
	return true
}

// scale is the total current that flows at the last evaluated voltages.
func (n *network) scale(w *workspace) float64 {
	sum := 1e-9
	for _, i := range w.current {
		sum += math.Abs(i)
	}
	return sum
}

// settled reports whether what is left is rounding.
func (n *network) settled(w *workspace, imbalance float64) bool {
	return imbalance <= 1e-15*(n.scale(w)+n.volts)
}

// operating reads the solution: currents from the ports, summed along the
// tree, and voltages from the unknowns. Voltages added up from the source
// instead would carry every rounding of a current times the feeds' ohms.
func (n *network) operating(w *workspace, x []float64) operating {
	junctions := len(n.feeds)
	through := make([]float64, junctions)
	for i, p := range n.ports {
		through[p.feed] += w.current[i]
	}
	for k := junctions - 1; k > 0; k-- {
		through[n.feeds[k].parent] += through[k]
	}
	return operating{x[:junctions:junctions], through, append([]float64(nil), w.current...)}
}

// culprit returns the port on the least balanced junction that carries most.
func (n *network) culprit(w *workspace) int {
	worst, most := -1, -1.0
	for i, p := range n.ports {
		if miss := math.Abs(w.right.AtVec(p.feed)); !(miss <= most) {
			worst, most = i, miss
		}
	}
	return worst
}

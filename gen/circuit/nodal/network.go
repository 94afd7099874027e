package nodal

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Network is a circuit reduced to what its equations need: a source and a tree
// of feeds with branches on their ends. Each feed is a pair of equal wires
// that carry the same current there and back, so a junction needs one unknown
// voltage, from its plus to its minus.
type Network struct {
	Volts    float64 // of the source, unloaded
	Feeds    []Feed  // a feed's parent stands before it; the first hangs on the source
	Branches []Branch
}

// Feed is a pair of wires and all else in series with it.
type Feed struct {
	Parent int // -1: the source
	Ohms   float64
}

// Branch is a one-port on the end of a feed.
type Branch struct {
	Feed int
	Port Port
}

// Operating is the solution of a network.
type Operating struct {
	Volts    []float64 // V, across each feed's end
	Through  []float64 // A, of each feed
	Currents []float64 // A, of each branch
}

// errDiverged says that Newton's steps did not settle.
var errDiverged = errors.New("no operating point was found")

// maxSteps bounds the Newton iteration. Circuits of lamps settle in 3 to 8.
const maxSteps = 200

// Workspace keeps the matrices between solutions of networks of one shape.
type Workspace struct {
	matrix         *mat.Dense
	lu             mat.LU
	right, step    *mat.VecDense
	current, slope []float64
}

// NewWorkspace returns the matrices for networks of the shape of n.
func NewWorkspace(n *Network) *Workspace {
	size := 2 * len(n.Feeds)
	return &Workspace{
		matrix:  mat.NewDense(size, size, nil),
		right:   mat.NewVecDense(size, nil),
		step:    mat.NewVecDense(size, nil),
		current: make([]float64, len(n.Branches)),
		slope:   make([]float64, len(n.Feeds)),
	}
}

// Solve finds the operating point by modified nodal analysis: the unknowns are
// the voltage at every junction and the current of every feed, the equations
// are Kirchhoff's current law at each junction and Ohm's law along each feed,
// so that a feed without resistance needs no special case. Newton steps are
// halved until the currents' imbalance shrinks, which for branches whose current
// rises with voltage always succeeds. start may be nil or a near solution.
// On failure the branch with the largest imbalance is returned with the error.
func (n *Network) Solve(w *Workspace, start []float64) (Operating, int, error) {
	junctions := len(n.Feeds)
	x := make([]float64, 2*junctions) // voltages, then currents
	for i := range junctions {
		x[i] = n.Volts
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
	return Operating{}, n.culprit(w), errDiverged
}

// evaluate asks every branch for its current and slope at the voltages of x.
func (n *Network) evaluate(w *Workspace, x []float64) {
	clear(w.slope)
	for i := range n.Branches {
		p := &n.Branches[i]
		current, slope := p.Port.At(x[p.Feed])
		w.current[i] = current
		w.slope[p.Feed] += slope
	}
}

// follow sets the feeds' currents to what the branches take.
func (n *Network) follow(w *Workspace, x []float64) {
	through := x[len(n.Feeds):]
	clear(through)
	for i := range n.Branches {
		through[n.Branches[i].Feed] += w.current[i]
	}
	for k := len(through) - 1; k > 0; k-- {
		through[n.Feeds[k].Parent] += through[k]
	}
}

// imbalance fills the right side with what each equation is short of, and
// returns its size: amperes and volts count alike, the latter over an ohm.
func (n *Network) imbalance(w *Workspace, x []float64) float64 {
	junctions := len(n.Feeds)
	right := w.right.RawVector().Data
	clear(right)
	for k, f := range n.Feeds {
		above := n.Volts
		if f.Parent >= 0 {
			above = x[f.Parent]
			right[f.Parent] += x[junctions+k]
		}
		right[k] -= x[junctions+k]
		right[junctions+k] = f.Ohms*x[junctions+k] + x[k] - above
	}
	for i := range n.Branches {
		right[n.Branches[i].Feed] += w.current[i]
	}
	return mat.Norm(w.right, 2)
}

// newton solves for the step that would balance the linearised equations.
func (n *Network) newton(w *Workspace) bool {
	junctions := len(n.Feeds)
	w.matrix.Zero()
	for k, f := range n.Feeds {
		w.matrix.Set(k, k, -w.slope[k])
		w.matrix.Set(k, junctions+k, 1)
		w.matrix.Set(junctions+k, k, -1)
		w.matrix.Set(junctions+k, junctions+k, -f.Ohms)
		if f.Parent >= 0 {
			w.matrix.Set(f.Parent, junctions+k, -1)
			w.matrix.Set(junctions+k, f.Parent, 1)
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
func (n *Network) scale(w *Workspace) float64 {
	sum := 1e-9
	for _, i := range w.current {
		sum += math.Abs(i)
	}
	return sum
}

// settled reports whether what is left is rounding.
func (n *Network) settled(w *Workspace, imbalance float64) bool {
	return imbalance <= 1e-15*(n.scale(w)+n.Volts)
}

// operating reads the solution: currents from the branches, summed along the
// tree, and voltages from the unknowns. Voltages added up from the source
// instead would carry every rounding of a current times the feeds' ohms.
func (n *Network) operating(w *Workspace, x []float64) Operating {
	junctions := len(n.Feeds)
	through := make([]float64, junctions)
	for i, p := range n.Branches {
		through[p.Feed] += w.current[i]
	}
	for k := junctions - 1; k > 0; k-- {
		through[n.Feeds[k].Parent] += through[k]
	}
	return Operating{x[:junctions:junctions], through, append([]float64(nil), w.current...)}
}

// culprit returns the branch on the least balanced junction that carries most.
func (n *Network) culprit(w *Workspace) int {
	worst, most := -1, -1.0
	for i, p := range n.Branches {
		if miss := math.Abs(w.right.AtVec(p.Feed)); !(miss <= most) {
			worst, most = i, miss
		}
	}
	return worst
}

package photo

// A sharp kernel dips below zero beside a bright spot, and rises by as much
// within it. On black the dips cannot be shown: cut off, they leave the spot
// brighter than the lamp was, by a tenth to a third of its light. settle
// therefore takes what a dip lacks from the bright samples around it, which
// caused it, so that the light of every lamp stays what it was.

const (
	// settleReach is how far a dip lies from its spot: the kernel's support.
	settleReach = 2
	// settleFrom is the dip that is worth settling, a thirtieth of the darkest
	// step of 8 bits.
	settleFrom = -1e-5
)

// settle leaves no sample below zero, and notes whether the picture lives on
// points of light.
func (l *light) settle() {
	taken := 0.0
	for _, plane := range l.plane {
		for i, v := range plane {
			if v < 0 {
				plane[i] = 0
				if v < settleFrom {
					l.take(plane, i%l.Width, i/l.Width, -v)
					taken -= float64(v)
				}
			}
		}
	}
	l.points = taken > 0 && taken > pointsFrom*l.sum()
}

func (l *light) sum() float64 {
	all := 0.0
	for _, plane := range l.plane {
		for _, v := range plane {
			all += float64(v)
		}
	}
	return all
}

// pointsFrom is the share of a picture's light that is settled in one that
// lives on points of light: in fields of small lamps it is a tenth and more, in
// other dark pictures less than a thousandth.
const pointsFrom = 0.01

// take takes an amount of light from the samples around one, in proportion to
// what they have.
func (l *light) take(plane []float32, x, y int, amount float32) {
	x0, x1 := max(x-settleReach, 0), min(x+settleReach+1, l.Width)
	y0, y1 := max(y-settleReach, 0), min(y+settleReach+1, l.Height)
	var sum float32
	for v := y0; v < y1; v++ {
		for _, have := range plane[v*l.Width+x0 : v*l.Width+x1] {
			sum += max(have, 0)
		}
	}
	if sum <= 0 {
		return
	}
	keep := max(1-amount/sum, 0)
	for v := y0; v < y1; v++ {
		row := plane[v*l.Width+x0 : v*l.Width+x1]
		for i, have := range row {
			if have > 0 {
				row[i] = have * keep
			}
		}
	}
}

package wiring

// group is lamps side by side, in tiers where they are many. The plus bus of
// every tier lies above its lamps and is fed at the left, the minus bus lies
// below and is gathered at the right, so that nothing crosses.
type group struct {
	lamps   []piece
	perTier int
	pitch   float64 // from axis to axis
	right   float64 // of the last lamp's axis
	tier    float64 // height of one, from bus to bus
}

// busAir is the room between a bus and the lamps, and between two tiers.
const busAir = 8.0

// newGroup arranges lamps within a width.
func newGroup(lamps []piece, width float64) *group {
	g := &group{lamps: lamps}
	for _, l := range lamps {
		g.right = max(g.right, l.wordsFrom()+l.label.width())
		g.tier = max(g.tier, l.room()+2*busAir)
	}
	g.right, g.tier = roundHalf(g.right)+0.5, roundHalf(g.tier)+0.5
	left := shapes[lampKind].left
	g.pitch = left + g.right + columnGap
	fit := max(int((width-g.pitch)/g.pitch)+1, 1)
	tiers := (len(lamps) + fit - 1) / fit
	g.perTier = (len(lamps) + tiers - 1) / tiers
	return g
}

func (g *group) tiers() int { return (len(g.lamps) + g.perTier - 1) / g.perTier }

// first is how far right of the branch's axis the first lamp of a tier stands.
func (g *group) first() float64 {
	if g.tiers() == 1 {
		return 0
	}
	return shapes[lampKind].left + busAir
}

// gather is how far right of the axis the minus buses of several tiers meet.
func (g *group) gather() float64 {
	return g.first() + float64(g.perTier-1)*g.pitch + g.right + busAir
}

func (g *group) extent() (left, right, height float64) {
	n := float64(g.tiers())
	right = float64(g.perTier-1)*g.pitch + g.right
	if n > 1 {
		right = g.gather() + busAir
	}
	return shapes[lampKind].left, right, 2*busAir + n*g.tier + (n-1)*busAir
}

func (g *group) draw(c *canvas, axis, top float64) float64 {
	tiers := g.tiers()
	if tiers == 1 {
		return g.drawOne(c, axis, top)
	}
	y := top
	for t := range tiers {
		plus := top + busAir + float64(t)*(g.tier+busAir)
		c.wire(axis, y, axis, plus)
		if t < tiers-1 {
			c.dot(axis, plus)
		}
		y = plus
		g.drawTier(c, axis, plus, t)
	}
	return g.leave(c, axis, top+busAir+float64(tiers-1)*(g.tier+busAir)+g.tier)
}

// leave leads the current from the last minus bus back to the branch's axis.
func (g *group) leave(c *canvas, axis, bus float64) float64 {
	c.wire(axis, bus, axis+g.first(), bus)
	return bus
}

// drawTier draws one of several tiers between its buses.
func (g *group) drawTier(c *canvas, axis, plus float64, t int) {
	lamps := g.lamps[t*g.perTier : min((t+1)*g.perTier, len(g.lamps))]
	minus, gather := plus+g.tier, axis+g.gather()
	last := t == g.tiers()-1
	x := axis + g.first()
	end := x + float64(len(lamps)-1)*g.pitch
	c.wire(axis, plus, end, plus)
	c.wire(x, minus, gather, minus)
	for i, l := range lamps {
		g.hang(c, l, x, plus, minus)
		if i < len(lamps)-1 {
			c.dot(x, plus)
		}
		if i > 0 || last {
			c.dot(x, minus)
		}
		x += g.pitch
	}
	if t > 0 {
		c.wire(gather, minus-g.tier-busAir, gather, minus)
		if !last {
			c.dot(gather, minus)
		}
	}
}

// drawOne draws a single tier: the branch runs straight through its first lamp.
func (g *group) drawOne(c *canvas, axis, top float64) float64 {
	plus := top + busAir
	minus := plus + g.tier
	end := axis + float64(len(g.lamps)-1)*g.pitch
	c.wire(axis, top, axis, plus)
	c.wire(axis, plus, end, plus)
	c.wire(axis, minus, end, minus)
	for i, l := range g.lamps {
		x := axis + float64(i)*g.pitch
		g.hang(c, l, x, plus, minus)
		if i < len(g.lamps)-1 {
			c.dot(x, plus)
			c.dot(x, minus)
		}
	}
	return minus
}

func (g *group) hang(c *canvas, l piece, x, plus, minus float64) {
	end := l.stand(c, x, plus, plus+busAir, minus-plus-2*busAir)
	c.wire(x, end, x, minus)
}

var _ block = (*group)(nil)

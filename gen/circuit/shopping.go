package circuit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"spruelight/gen/quantity"
)

// Item is a line of a shopping list.
type Item struct {
	What  string // "resistor 470R, 1/8 W, ±5 %"
	Count int    // pieces; 0 where a length is wanted
	Metre quantity.Metres
	For   []string // references or branches
}

// Shopping lists everything that circuits need, equal things together: lamps,
// resistors, drivers, supplies, fuses, switches, wire with slack at both ends
// of every piece, and fibre with its spare. Wire is counted by the single
// conductor, since pairs are often twisted from it.
func Shopping(solutions []*Solution, slack quantity.Metres) []Item {
	var l shoppingList
	for _, s := range solutions {
		supply := s.Circuit.Supply
		l.piece("supply: "+supply.Name.V, s.Supply.Ref)
		if s.Fuse != nil {
			l.piece("fuse: "+s.Fuse.Text, s.Fuse.Ref)
		}
		if s.Switch != nil {
			l.piece("switch: "+s.Switch.Text, s.Switch.Ref)
		}
		for _, b := range s.Branches {
			l.branch(&b)
		}
		for k, j := range s.Junctions {
			where := "feed to " + j.Name
			if k == 0 {
				where = "feed of " + s.Name
			}
			l.wire(j.Feed.Run, slack, where)
		}
		for _, b := range s.Branches {
			l.wire(b.Lead.Run, slack, "lead of "+b.Name)
		}
	}
	slices.SortStableFunc(l.items, func(a, b Item) int { return rank(a.What) - rank(b.What) })
	return l.items
}

// shoppingOrder is how a builder walks along the shelves.
var shoppingOrder = []string{"lamp", "resistor", "driver", "wire", "fibre", "supply", "fuse", "switch"}

func rank(what string) int {
	return slices.IndexFunc(shoppingOrder, func(kind string) bool { return strings.HasPrefix(what, kind) })
}

type shoppingList struct{ items []Item }

func (l *shoppingList) item(what string) *Item {
	at := slices.IndexFunc(l.items, func(i Item) bool { return i.What == what })
	if at < 0 {
		at = len(l.items)
		l.items = append(l.items, Item{What: what})
	}
	return &l.items[at]
}

func (l *shoppingList) piece(what, ref string) {
	i := l.item(what)
	i.Count++
	i.For = append(i.For, ref)
}

func (l *shoppingList) branch(b *BranchResult) {
	for _, lamp := range b.Lamps {
		name := lamp.Model
		if name == "" {
			name = lamp.Colour
		}
		l.piece("lamp: "+name, lamp.Ref)
		for _, f := range lamp.Fibres {
			i := l.item(fmt.Sprintf("fibre, %v", f.Size))
			i.Metre += f.Buy
			i.For = append(i.For, fmt.Sprintf("%d strands from %s", f.Count, f.Lamp))
		}
	}
	switch b.Kind {
	case Auto, Fixed:
		l.piece(fmt.Sprintf("resistor %s, %s, ±%v", b.Resistor.Code, RatingText(b.Resistor.Rating), b.Resistor.Tolerance), b.Ref)
	case Driver:
		l.piece(fmt.Sprintf("driver for %v", b.Resistor.Set), b.Ref)
	}
}

func (l *shoppingList) wire(r Run, slack quantity.Metres, where string) {
	if !r.Size.Set || !r.Length.Set {
		return
	}
	name := r.Name.V
	if name == "" {
		name = r.Size.V.String()
	}
	i := l.item("wire " + name)
	i.Metre += 2 * (r.Length.V + 2*slack)
	i.For = append(i.For, where)
}

// Text says how much of an item to buy: "4", or metres rounded up to a tenth.
func (i Item) Text() string {
	if i.Count > 0 {
		return fmt.Sprint(i.Count)
	}
	return fmt.Sprintf("%.1f m", math.Ceil(float64(i.Metre)*10-1e-9)/10)
}

// RatingText writes a resistor's rating as it is sold: "1/8 W".
func RatingText(w quantity.Watts) string {
	for below := 2; below <= 16; below *= 2 {
		if math.Abs(float64(w)*float64(below)-1) < 1e-9 {
			return fmt.Sprintf("1/%d W", below)
		}
	}
	return quantity.Round(float64(w), 3) + " W"
}

package topic

import (
	"spruelight/gen/quantity"
)

// Cell is a figure with its worst cases beside it.
type Cell struct {
	Main, Low, High quantity.Figure
	Band            bool
}

// CellOf makes a cell of a value and its worst cases, in the unit that scale leads to.
func CellOf[T ~float64](name string, value, low, high T, scale float64, unit string) Cell {
	figure := func(v T) quantity.Figure { return FigureOf(name, v, scale, unit, 3) }
	return Cell{figure(value), figure(low), figure(high), low != high}
}

// FigureOf makes a figure of a value, in the unit that scale leads to.
func FigureOf[T ~float64](name string, v T, scale float64, unit string, digits int) quantity.Figure {
	return quantity.Figure{Name: name, Value: float64(v) * scale, Unit: unit, Digits: digits}
}

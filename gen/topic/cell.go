package topic

import (
	"spruelight/gen/quantity"
)

// Cell is a figure with its worst cases beside it.
type Cell struct {
	Main, Low, High quantity.Figure
	Band            bool
}

// CellOf makes a cell of a value and its worst cases.
func CellOf[T ~float64](name string, value, low, high T) Cell {
	figure := func(v T) quantity.Figure { return quantity.FigureOf(name, v) }
	return Cell{figure(value), figure(low), figure(high), low != high}
}

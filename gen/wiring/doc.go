// Package wiring draws a solved circuit so that it can be built from: the
// circuit diagram, the loom with its cut list and shopping list, and the colour
// rings of a resistor. It is for the builder at the bench, who solders from
// the printed sheet, and for whoever repairs the model years later.
//
// Everything is computed from a circuit.Solution; nothing is placed by hand.
// Lengths are metres, drawing units are those of package svg (one CSS pixel).
//
// The diagram is a ladder: the supply with fuse and switch at the left, plus
// rail above, minus rail below, branches hung between them in reading order.
// A further junction is a ladder of its own hung between the same rails on its
// pair of wires. What is too wide continues in a further row, where equal
// letters in flags are joined. The topology is a tree, so no two wires cross.
//
// # Sources
//
//   - IEC 60617, graphical symbols for diagrams: resistor, diode, light emitting
//     diode, primary cell, fuse, make contact, conductors joined (a dot, at
//     tees only, never where four meet)
//   - IEC 61082-1, preparation of diagrams: flow from plus at the top to minus
//     at the bottom, reference and value beside the symbol, interrupted lines
//     marked at both ends
//   - IEC 60757 for the names of wire colours; IEC 60062 for the rings of resistors
package wiring

// Package circuit works out the lighting of a model as a circuit: what every
// lamp, resistor, wire and cell does, by how much that may vary, what happens
// when a lamp fails, and what a meter should read. It is for the builder who
// must know all this before a shell is glued shut.
//
// Solve takes one circuit as declared (Input) and returns its Solution and
// findings. The rest of the package are the single sums of the bench: resistor
// for a lamp, wire, cell life, 555 timer, fade, fibre, camera banding, SPICE
// netlist.
//
// Units are SI (V, A, ohm, W, m, Hz) with two exceptions of the trade: cell
// capacity in ampere hours and time in hours.
//
// The sums in plain numbers, lamps' curves and the network of a circuit, are
// those of package nodal; the interior nodes of a branch follow exactly from
// its current.
//
// # Sources
//
//   - IEC 60028: resistivity of copper; ASTM B258: wire gauges (package quantity)
//   - IEC 60063, IEC 60062: preferred numbers and colour rings (package quantity)
//   - S. S. Stevens, Psychophysics (1975): brightness exponents
//   - CIE 15: lightness L*
//   - COLREGs (1972) rule 21 and 14 CFR 25.1401: lights of ships and aircraft
//   - data sheets, named beside the values taken from them
package circuit

// Package nodal works out networks of lamps in plain numbers: the curve of a
// lamp fitted to its data sheet, a branch of lamps as a one-port, and a tree of
// feeds with branches on it. It knows no declarations and finds nothing wrong.
//
// A lamp follows V(I) = a + b·ln(I/1 mA) + c·I, the Shockley diode with series
// resistance. A branch's current then has a closed form (Wright's omega
// function), so only the nodes of the junction tree remain; those are solved by
// modified nodal analysis with damped Newton steps. Nothing is approximated on
// the way.
//
// # Sources
//
//   - C.-W. Ho, A. Ruehli, P. Brennan, The modified nodal approach to network
//     analysis, IEEE Trans. Circuits Syst. CAS-22 (1975) 504-509
//   - T. Banwell, A. Jayakumar, Exact analytical solution for current flow
//     through diode with series resistance, Electronics Letters 36 (2000) 291-292
package nodal

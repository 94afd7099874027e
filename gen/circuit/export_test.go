package circuit

// RandomCircuit is for the tests that look at a circuit from outside.
var RandomCircuit = randomCircuit

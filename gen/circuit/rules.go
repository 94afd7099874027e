package circuit

import "spruelight/gen/source"

// What stops a circuit from being worked out at all.
var (
	ruleSupplyVolts = source.Rule{Name: "supply-volts", Severity: source.Stop,
		Reason: "Without the supply's voltage nothing can be worked out.", Source: "arithmetic"}
	ruleSupplyValue = source.Rule{Name: "supply-value", Severity: source.Stop,
		Reason: "A value of the supply lies outside what can be.", Source: "arithmetic"}
	ruleJunctionName = source.Rule{Name: "junction-name", Severity: source.Stop,
		Reason: "Every branch and feed hangs on one junction, known by its name.", Source: "arithmetic"}
	ruleJunctionLoop = source.Rule{Name: "junction-loop", Severity: source.Stop,
		Reason: "Junctions are fed one from another, beginning at the first; none can feed itself.", Source: "arithmetic"}
	ruleCircuitSize = source.Rule{Name: "circuit-size", Severity: source.Stop,
		Reason: "A circuit of more parts than this is a slip of the pen, and would take long to work out.", Source: "limit of this program"}
	ruleBranchEmpty = source.Rule{Name: "branch-empty", Severity: source.Stop,
		Reason: "A branch without a lamp is a short circuit or nothing.", Source: "arithmetic"}
	ruleCircuitEmpty = source.Rule{Name: "circuit-empty", Severity: source.Warn,
		Reason: "A circuit without branches has nothing to light.", Source: "arithmetic"}
	ruleBranchValue = source.Rule{Name: "branch-value", Severity: source.Stop,
		Reason: "A value of the branch lies outside what can be.", Source: "arithmetic"}
	ruleLampCurve = source.Rule{Name: "lamp-curve", Severity: source.Stop,
		Reason: "A lamp's current follows from its forward voltage; the points given must make a rising curve.", Source: "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489"}
	ruleLampUnknown = source.Rule{Name: "lamp-unknown", Severity: source.Stop,
		Reason: "A lamp with neither forward voltage nor a known colour cannot be reckoned with.", Source: "arithmetic"}
	ruleUnsolved = source.Rule{Name: "circuit-unsolved", Severity: source.Stop,
		Reason: "Without an operating point no figure of the circuit can be given.", Source: "arithmetic"}
	ruleRunIncomplete = source.Rule{Name: "run-incomplete", Severity: source.Warn,
		Reason: "A wire's resistance needs both its size and its length.", Source: "IEC 60028, ASTM B258"}
)

// Rules are all rules of this package, for the guide.
var Rules = []source.Rule{
	ruleSupplyVolts, ruleSupplyValue, ruleJunctionName, ruleJunctionLoop, ruleCircuitSize,
	ruleBranchEmpty, ruleCircuitEmpty, ruleBranchValue, ruleLampCurve, ruleLampUnknown, ruleUnsolved, ruleRunIncomplete,
}

package circuit

import "spruelight/gen/source"

const (
	practice   = "common practice, no source"
	arithmetic = "arithmetic"
)

// Rules are all rules of this package, for the guide.
var Rules = []*source.Rule{
	ruleSupplyVolts, ruleSupplyValue, ruleJunctionName, ruleJunctionLoop, ruleCircuitSize,
	ruleBranchEmpty, ruleBranchValue, ruleLampCurve, ruleLampUnknown, ruleUnsolved,
	ruleCircuitEmpty, ruleRunIncomplete, ruleConnector, ruleCannotLight, ruleHeadroom, ruleDropout, ruleParallel, ruleNoLimiter,
	ruleOverLimit, ruleOverRated, ruleFaultLimit, ruleSupplyLimit, ruleSupplyMargin, ruleFuse, ruleResistorHot,
	ruleWireDrop, ruleMatched, ruleNavColour, ruleFlashRate, ruleBankOff, ruleHeat, ruleBanding, ruleFibre,
	ruleReading, ruleReadingPlace, ruleReverse, ruleUnmeasured, ruleInfrared, ruleSteadyLight,
}

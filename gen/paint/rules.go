package paint

import (
	"slices"

	"spruelight/gen/source"
)

// Rules are all rules of this room but those of silencing, in the order of the guide. Each is
// declared beside the check that reports it.
var Rules = []*source.Rule{
	ruleWord, ruleAmbiguous, ruleTimes,
	ruleHot, ruleUncured, ruleOverWaterborne, ruleSoon, ruleGap, ruleLate, ruleWashEnamel, ruleWashSoon, ruleCold,
	rulePrimer, ruleUnwashed, ruleReleaseAgent,
	ruleDecalMatt, ruleDecalSoon, ruleSealSoon, ruleMattUnsealed, ruleDecalUnsealed, ruleDecalUnknown, ruleDecalOver,
	ruleLightOrder, ruleLightLate, ruleLit, ruleClearInside,
	ruleMaskSoon, ruleHandleSoon,
	ruleSkipped, ruleUnplanned, ruleMoved, ruleFuture, ruleHour, ruleShut,
	ruleReading, ruleMeterEnd, ruleBlockingThin, ruleLeakOpen, ruleLeakReason,
	ruleClosedLamp, ruleClosedReading, ruleClosedBlocking, ruleClosedCured, ruleClosedLeak, ruleClosedCheck,
	ruleClosedSoak, ruleClosedWiggle, ruleClosedWires, ruleClosedPhoto,
	ruleClosedOpen, ruleClosedTwice,
	ruleMixFamilies, ruleMixMeasures, ruleMixThin,
}

// Known reports whether a rule of this room has the name.
func Known(rule string) bool { return ruleNamed(rule) != nil }

// ruleNamed finds a rule of this room, nil where there is none.
func ruleNamed(name string) *source.Rule {
	if i := slices.IndexFunc(Rules, func(r *source.Rule) bool { return r.Name == name }); i >= 0 {
		return Rules[i]
	}
	return nil
}

// RuleNames lists the names of all rules of this room.
func RuleNames() []string {
	names := make([]string, len(Rules))
	for i, r := range Rules {
		names[i] = r.Name
	}
	return names
}

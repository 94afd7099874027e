package tally

import "spruelight/gen/source"

// Rules are all rules of this package, in the order of the guide.
var Rules = []*source.Rule{
	rulePartEvent, rulePartCount, rulePartTwice, rulePartUnlisted, rulePartOverdrawn, rulePartShortPacked, rulePartShort, rulePartLast,
	ruleProblemBoth, ruleProblemStranger, ruleProblemEmpty, ruleProblemTest, ruleProblemMany,
	ruleUndisclosed, ruleSender, ruleMarkReason, ruleMarkRange, ruleMarkCriterion, ruleMarkTwice, ruleMarkEarly, ruleWeight, ruleVerdict,
	ruleFaultKind, ruleFaultShows, ruleEmptyPhrase,
	ruleHeldBack, ruleChoiceOption, ruleChoiceWhy, ruleChoiceLate, ruleChoiceOptions,
	ruleBudget, ruleCommissionMoney, ruleCommissionRate, ruleCommissionDeposit, ruleCommissionEmpty,
	ruleChapterFirst, ruleChapterOrder, ruleChapterClose, ruleChapterFew, ruleChapterEnd, ruleChapterTitle, ruleVideoLength,
	ruleNotesShortened, ruleNotesLong, ruleExtraKind,
}

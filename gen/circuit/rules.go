package circuit

import "spruelight/gen/source"

const (
	practice   = "common practice, no source"
	arithmetic = "arithmetic"
)

func rule(name string, severity source.Severity, reason, from string) source.Rule {
	return source.Rule{Name: name, Severity: severity, Reason: reason, Source: from}
}

// What stops a circuit from being worked out at all.
var (
	ruleSupplyVolts  = rule("supply-volts", source.Stop, "Without the supply's voltage nothing can be worked out.", arithmetic)
	ruleSupplyValue  = rule("supply-value", source.Stop, "A value of the supply lies outside what can be.", arithmetic)
	ruleJunctionName = rule("junction-name", source.Stop, "Every branch and feed hangs on one junction, known by its name.", arithmetic)
	ruleJunctionLoop = rule("junction-loop", source.Stop, "Junctions are fed one from another, beginning at the first; none can feed itself.", arithmetic)
	ruleCircuitSize  = rule("circuit-size", source.Stop, "A circuit of more parts than this is a slip of the pen, and would take long to work out.", "limit of this program")
	ruleBranchEmpty  = rule("branch-empty", source.Stop, "A branch without a lamp is a short circuit or nothing.", arithmetic)
	ruleBranchValue  = rule("branch-value", source.Stop, "A value of the branch lies outside what can be.", arithmetic)
	ruleLampCurve    = rule("lamp-curve", source.Stop, "A lamp's current follows from its forward voltage; the points given must make a rising curve.", "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489")
	ruleLampUnknown  = rule("lamp-unknown", source.Stop, "A lamp with neither forward voltage nor a known colour cannot be reckoned with.", arithmetic)
	ruleUnsolved     = rule("circuit-unsolved", source.Stop, "Without an operating point no figure of the circuit can be given.", arithmetic)
)

// What is worked out, and should be changed before the shell is closed.
var (
	ruleCircuitEmpty  = rule("circuit-empty", source.Warn, "A circuit without branches has nothing to light.", arithmetic)
	ruleRunIncomplete = rule("run-incomplete", source.Warn, "A wire's resistance needs both its size and its length.", "IEC 60028, ASTM B258")
	ruleConnector     = rule("connector-value", source.Warn, "A connector parts its wire somewhere between the two ends, by a contact of some milliohms.", arithmetic)
	ruleCannotLight   = rule("string-cannot-light", source.Warn, "The lamps of a string add up their forward voltages; where the supply has less, they stay dim or dark.", "Kirchhoff's voltage law")
	ruleHeadroom      = rule("headroom-small", source.Warn, "The resistor holds the current steady only with a good part of the supply over it: about a fifth. With less, a slightly fresher supply or another lamp changes the light a lot.", practice)
	ruleDropout       = rule("driver-dropout", source.Warn, "A constant-current driver holds its current only while it keeps its dropout voltage over itself.", "data sheets of such drivers; Kirchhoff's voltage law")
	ruleParallel      = rule("lamps-share-resistor", source.Warn, "Lamps side by side on one resistor do not share its current evenly, and when one fails the others take its part.", "Shockley's equation; trade reports of chain failures")
	ruleNoLimiter     = rule("no-limiter", source.Warn, "Without a resistor only wire and the supply's inside resistance hold the current back.", practice)
	ruleOverLimit     = rule("lamp-over-limit", source.Warn, "Above its absolute maximum a lamp ages fast or dies.", "absolute maximum ratings, IEC 60134")
	ruleOverRated     = rule("lamp-over-rated", source.Warn, "A lamp is specified up to its rated current.", "the lamp's data sheet")
	ruleFaultLimit    = rule("fault-over-limit", source.Warn, "When one lamp of a string fails short the others take more; they should survive it, for the shell will be closed.", practice)
	ruleSupplyLimit   = rule("supply-over-limit", source.Warn, "A supply above its limit sags, switches off or heats.", "the supply's rating")
	ruleSupplyMargin  = rule("supply-margin", source.Warn, "A fifth of the supply's current should stay in hand.", practice)
	ruleFuse          = rule("fuse-small", source.Warn, "A fuse carries about three quarters of its rating for ever; above, it tires and opens one day.", "UL 248-14 practice, from memory")
	ruleResistorHot   = rule("resistor-hot", source.Warn, "A resistor inside a model should bear at most half its rating, or it heats the plastic beside it.", "ChiaChia MF specification B/3 (derating from 70 °C); half the rating: "+practice)
	ruleWireDrop      = rule("wire-drop", source.Warn, "More than 5 % of the supply lost in wire makes far lamps dimmer than near ones.", practice)
	ruleMatched       = rule("matched-differ", source.Warn, "Lamps meant to look alike show a difference from about 17 % in intensity.", "Weber fraction 0.08 (Teghtsoonian 1971), exponent 0.5 (Stevens 1975)")
	ruleNavColour     = rule("navigation-colour", source.Warn, "Craft show red to port and green to starboard, white at masthead and stern.", "COLREGs rule 21; 14 CFR 25.1397")
	ruleFlashRate     = rule("flash-rate", source.Warn, "Anti-collision lights of aircraft flash 40 to 100 times a minute.", "14 CFR 25.1401(c)")
	ruleBankOff       = rule("power-bank-off", source.Warn, "Many power banks switch off when less than 50 to 100 mA is drawn.", practice)
	ruleHeat          = rule("area-heat", source.Warn, "Polystyrene creeps well below its softening near 95 °C; about 50 °C is its limit in use.", "AZoM (50 °C in use); 57 °C was measured at 11 W in a 0.5 m shell")
	ruleBanding       = rule("pwm-banding", source.Warn, "Few pulses in one exposure show as bands or flicker in the film; below 5 % they rarely do.", "ripple about one over the pulses in an exposure; threshold: "+practice)
	ruleFibre         = rule("fibre-count", source.Warn, "A lamp's face feeds only the strands that fit before it.", "packing of 75 %: "+practice)
	ruleReading       = rule("reading-off", source.Warn, "A reading outside its band means that something is not as declared.", "the circuit's own bands, and a meter's 1 %")
	ruleReadingPlace  = rule("reading-place", source.Warn, "A reading counts only where it is known what was measured.", arithmetic)
)

// What is worth knowing.
var (
	ruleReverse     = rule("reverse-voltage", source.Note, "Wired the wrong way round, a lamp takes the whole supply in reverse, and few stand more than 5 V.", "the lamp's data sheet")
	ruleUnmeasured  = rule("adapter-unmeasured", source.Note, "Unregulated adapters give much more than is printed on them while little is drawn.", "trade reports: 17 to 20 V from \"12 V\"")
	ruleInfrared    = rule("lamp-infrared", source.Note, "Infrared light cannot be seen; some cameras record it as violet.", "IEC 60050-845: visible radiation")
	ruleSteadyLight = rule("navigation-steady", source.Note, "Running lights of ships are steady lights.", "COLREGs rule 21")
)

// Rules are all rules of this package, for the guide.
var Rules = []source.Rule{
	ruleSupplyVolts, ruleSupplyValue, ruleJunctionName, ruleJunctionLoop, ruleCircuitSize,
	ruleBranchEmpty, ruleBranchValue, ruleLampCurve, ruleLampUnknown, ruleUnsolved,
	ruleCircuitEmpty, ruleRunIncomplete, ruleConnector, ruleCannotLight, ruleHeadroom, ruleDropout, ruleParallel, ruleNoLimiter,
	ruleOverLimit, ruleOverRated, ruleFaultLimit, ruleSupplyLimit, ruleSupplyMargin, ruleFuse, ruleResistorHot,
	ruleWireDrop, ruleMatched, ruleNavColour, ruleFlashRate, ruleBankOff, ruleHeat, ruleBanding, ruleFibre,
	ruleReading, ruleReadingPlace, ruleReverse, ruleUnmeasured, ruleInfrared, ruleSteadyLight,
}

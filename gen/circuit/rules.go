package circuit

import "spruelight/gen/source"

const (
	practice   = "common practice, no source"
	arithmetic = "arithmetic"
)

// What stops a circuit from being worked out at all.
var (
	ruleSupplyVolts = &source.Rule{Name: "supply-volts", Severity: source.Stop, Source: arithmetic,
		Reason: "Without the supply's voltage nothing can be worked out.",
		Keys:   "build circuits[]: supply; supplies <name>: volts"}
	ruleSupplyValue = &source.Rule{Name: "supply-value", Severity: source.Stop, Source: arithmetic,
		Reason: "A value of the supply lies outside what can be.",
		Keys:   "supplies <name>: volts, fresh, measured, inside, capacity, ends, tolerance, limit, discharge"}
	ruleJunctionName = &source.Rule{Name: "junction-name", Severity: source.Stop, Source: arithmetic,
		Reason: "Every branch and feed hangs on one junction, known by its name.",
		Keys:   "build circuits[]: junction; build circuits[].junctions[]: name, from; build circuits[].branches[]: junction"}
	ruleJunctionLoop = &source.Rule{Name: "junction-loop", Severity: source.Stop, Source: arithmetic,
		Reason: "Junctions are fed one from another, beginning at the first; none can feed itself.",
		Keys:   "build circuits[].junctions[]: name, from"}
	ruleCircuitSize = &source.Rule{Name: "circuit-size", Severity: source.Stop, Source: "limit of this program",
		Reason: "A circuit of more parts than this is a slip of the pen, and would take long to work out.",
		Keys:   "build circuits[]: branches, junctions"}
	ruleBranchEmpty = &source.Rule{Name: "branch-empty", Severity: source.Stop, Source: arithmetic,
		Reason: "A branch without a lamp is a short circuit or nothing.",
		Keys:   "build circuits[].branches[]: name, lamps"}
	ruleBranchValue = &source.Rule{Name: "branch-value", Severity: source.Stop, Source: arithmetic,
		Reason: "A value of the branch lies outside what can be.",
		Keys: "build circuits[].branches[]: name, current, resistor, driver, control; build circuits[].feed: length; " +
			"build circuits[].branches[].lead: length"}
	ruleLampCurve = &source.Rule{Name: "lamp-curve", Severity: source.Stop, Source: "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489",
		Reason: "A lamp's current follows from its forward voltage; the points given must make a rising curve.",
		Keys:   "lamps <name>: forward"}
	ruleLampUnknown = &source.Rule{Name: "lamp-unknown", Severity: source.Stop, Source: arithmetic,
		Reason: "A lamp with neither forward voltage nor a known colour cannot be reckoned with.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour, forward"}
	ruleUnsolved = &source.Rule{Name: "circuit-unsolved", Severity: source.Stop, Source: arithmetic,
		Reason: "Without an operating point no figure of the circuit can be given.",
		Keys:   "build circuits[]: name, branches"}
)

// What is worked out, and should be changed before the shell is closed.
var (
	ruleCircuitEmpty = &source.Rule{Name: "circuit-empty", Severity: source.Warn, Source: arithmetic,
		Reason: "A circuit without branches has nothing to light.",
		Keys:   "build circuits[]: name, branches"}
	ruleRunIncomplete = &source.Rule{Name: "run-incomplete", Severity: source.Warn, Source: "IEC 60028, ASTM B258",
		Reason: "A wire's resistance needs both its size and its length.",
		Keys: "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; " +
			"build circuits[].branches[].lead: wire, length"}
	ruleConnector = &source.Rule{Name: "connector-value", Severity: source.Warn, Source: arithmetic,
		Reason: "A connector parts its wire somewhere between the two ends, by a contact of some milliohms.",
		Keys: "build circuits[].feed: connector; build circuits[].feed.connector: kind, after, resistance; " +
			"build circuits[].junctions[]: connector; build circuits[].junctions[].connector: kind, after, resistance; " +
			"build circuits[].branches[].lead: connector; build circuits[].branches[].lead.connector: kind, after, resistance"}
	ruleCannotLight = &source.Rule{Name: "string-cannot-light", Severity: source.Warn, Source: "Kirchhoff's voltage law",
		Reason: "The lamps of a string add up their forward voltages; where the supply has less, they stay dim or dark.",
		Keys: "build circuits[].branches[]: name, lamps; build circuits[]: supply; lamps <name>: forward; " +
			"supplies <name>: volts"}
	ruleHeadroom = &source.Rule{Name: "headroom-small", Severity: source.Warn, Source: practice,
		Reason: "The resistor holds the current steady only with a good part of the supply over it: about a fifth. With less, " +
			"a slightly fresher supply or another lamp changes the light a lot.",
		Keys: "build circuits[].branches[]: name, lamps, resistor; supplies <name>: volts"}
	ruleDropout = &source.Rule{Name: "driver-dropout", Severity: source.Warn,
		Source: "data sheets of such drivers; Kirchhoff's voltage law",
		Reason: "A constant-current driver holds its current only while it keeps its dropout voltage over itself.",
		Keys:   "build circuits[].branches[]: name, driver; build circuits[].branches[].driver: dropout"}
	ruleParallel = &source.Rule{Name: "lamps-share-resistor", Severity: source.Warn,
		Source: "Shockley's equation; trade reports of chain failures",
		Reason: "Lamps side by side on one resistor do not share its current evenly, and when one fails the others take its part.",
		Keys:   "build circuits[].branches[]: name, parallel; lamps <name>: spread"}
	ruleNoLimiter = &source.Rule{Name: "no-limiter", Severity: source.Warn, Source: practice,
		Reason: "Without a resistor only wire and the supply's inside resistance hold the current back.",
		Keys:   "build circuits[].branches[]: name, resistor"}
	ruleOverLimit = &source.Rule{Name: "lamp-over-limit", Severity: source.Warn, Source: "absolute maximum ratings, IEC 60134",
		Reason: "Above its absolute maximum a lamp ages fast or dies.",
		Keys: "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; " +
			"lamps <name>: limit, spread; supplies <name>: fresh, tolerance, regulated, measured"}
	ruleOverRated = &source.Rule{Name: "lamp-over-rated", Severity: source.Warn, Source: "the lamp's data sheet",
		Reason: "A lamp is specified up to its rated current.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; lamps <name>: rated"}
	ruleFaultLimit = &source.Rule{Name: "fault-over-limit", Severity: source.Warn, Source: practice,
		Reason: "When one lamp of a string fails short the others take more; they should survive it, for the shell will be closed.",
		Keys:   "build circuits[].branches[]: name, lamps, resistor; lamps <name>: limit"}
	ruleSupplyLimit = &source.Rule{Name: "supply-over-limit", Severity: source.Warn, Source: "the supply's rating",
		Reason: "A supply above its limit sags, switches off or heats.",
		Keys:   "supplies <name>: limit; build circuits[]: supply, branches"}
	ruleSupplyMargin = &source.Rule{Name: "supply-margin", Severity: source.Warn, Source: practice,
		Reason: "A fifth of the supply's current should stay in hand.",
		Keys:   "supplies <name>: limit; build circuits[]: supply, branches"}
	ruleFuse = &source.Rule{Name: "fuse-small", Severity: source.Warn, Source: "UL 248-14 practice, from memory",
		Reason: "A fuse carries about three quarters of its rating for ever; above, it tires and opens one day.",
		Keys:   "build circuits[]: fuse; build circuits[].fuse: rated"}
	ruleResistorHot = &source.Rule{Name: "resistor-hot", Severity: source.Warn,
		Source: "ChiaChia MF specification B/3 (derating from 70 °C); half the rating: " + practice,
		Reason: "A resistor inside a model should bear at most half its rating, or it heats the plastic beside it.",
		Keys:   "build circuits[].branches[]: resistor"}
	ruleWireDrop = &source.Rule{Name: "wire-drop", Severity: source.Warn, Source: practice,
		Reason: "More than 5 % of the supply lost in wire makes far lamps dimmer than near ones.",
		Keys: "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; " +
			"build circuits[].branches[].lead: wire, length"}
	ruleMatched = &source.Rule{Name: "matched-differ", Severity: source.Warn,
		Source: "Weber fraction 0.08 (Teghtsoonian 1971), exponent 0.5 (Stevens 1975)",
		Reason: "Lamps meant to look alike show a difference from about 17 % in intensity.",
		Keys:   "build circuits[].branches[]: matched, current, lamps; lamps <name>: intensity"}
	ruleNavColour = &source.Rule{Name: "navigation-colour", Severity: source.Warn, Source: "COLREGs rule 21; 14 CFR 25.1397",
		Reason: "Craft show red to port and green to starboard, white at masthead and stern.",
		Keys:   "build circuits[].branches[].lamps[]: shows; lamps <name>: colour"}
	ruleFlashRate = &source.Rule{Name: "flash-rate", Severity: source.Warn, Source: "14 CFR 25.1401(c)",
		Reason: "Anti-collision lights of aircraft flash 40 to 100 times a minute.",
		Keys:   "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows"}
	ruleBankOff = &source.Rule{Name: "power-bank-off", Severity: source.Warn, Source: practice,
		Reason: "Many power banks switch off when less than 50 to 100 mA is drawn.",
		Keys:   "build circuits[]: supply; supplies <name>: switches off below"}
	ruleHeat = &source.Rule{Name: "area-heat", Severity: source.Warn,
		Source: "AZoM (50 °C in use); 57 °C was measured at 11 W in a 0.5 m shell",
		Reason: "Polystyrene creeps well below its softening near 95 °C; about 50 °C is its limit in use.",
		Keys:   "build areas.<name>: volume, encloses"}
	ruleBanding = &source.Rule{Name: "pwm-banding", Severity: source.Warn,
		Source: "ripple about one over the pulses in an exposure; threshold: " + practice,
		Reason: "Few pulses in one exposure show as bands or flicker in the film; below 5 % they rarely do.",
		Keys:   "build circuits[].branches[]: control; workshop: camera"}
	ruleFibre = &source.Rule{Name: "fibre-count", Severity: source.Warn, Source: "packing of 75 %: " + practice,
		Reason: "A lamp's face feeds only the strands that fit before it.",
		Keys:   "build circuits[].fibres[]: from, count, size; lamps <name>: size"}
	ruleReading = &source.Rule{Name: "reading-off", Severity: source.Warn, Source: "the circuit's own bands, and a meter's 1 %",
		Reason: "A reading outside its band means that something is not as declared.",
		Keys:   "sitting readings[]: current, volts"}
	ruleReadingPlace = &source.Rule{Name: "reading-place", Severity: source.Warn, Source: arithmetic,
		Reason: "A reading counts only where it is known what was measured.",
		Keys:   "sitting readings[]: at, current, volts"}
)

// What is worth knowing.
var (
	ruleReverse = &source.Rule{Name: "reverse-voltage", Severity: source.Note, Source: "the lamp's data sheet",
		Reason: "Wired the wrong way round, a lamp takes the whole supply in reverse, and few stand more than 5 V.",
		Keys:   "build circuits[]: supply; lamps <name>: reverse"}
	ruleUnmeasured = &source.Rule{Name: "adapter-unmeasured", Severity: source.Note, Source: "trade reports: 17 to 20 V from \"12 V\"",
		Reason: "Unregulated adapters give much more than is printed on them while little is drawn.",
		Keys:   "supplies <name>: regulated, measured"}
	ruleInfrared = &source.Rule{Name: "lamp-infrared", Severity: source.Note, Source: "IEC 60050-845: visible radiation",
		Reason: "Infrared light cannot be seen; some cameras record it as violet.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour"}
	ruleSteadyLight = &source.Rule{Name: "navigation-steady", Severity: source.Note, Source: "COLREGs rule 21",
		Reason: "Running lights of ships are steady lights.",
		Keys:   "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows"}
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

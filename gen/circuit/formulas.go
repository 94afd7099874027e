package circuit

import "spruelight/gen/quantity"

// The sums by which figures are made.
var (
	exactResistor = &quantity.Formula{Name: "exact resistor", Sum: "R = (U − ΣV) / I − R_l", Unit: "Ω",
		Where: []string{"R: resistor, Ω", "U: voltage at the junction, V",
			"ΣV: forward voltages of the lamps in series at the wanted current, V",
			"I: wanted current, A", "R_l: resistance of its lead there and back, Ω"},

		Source: "Ohm's law and Kirchhoff's voltage law",
		Note:   "The value fitted is the next preferred one above, and higher where the freshest supply and the lowest forward voltage would take a lamp over its limit."}
	balance = &quantity.Formula{Name: "solved branch", Sum: "U = I · (R + R_l) + ΣV", Unit: "V",
		Where: []string{"U: voltage at the junction, V", "I: current of the branch, A", "R: its resistor, Ω", "R_l: resistance of its lead, Ω",
			"ΣV: forward voltages of its lamps at that current, V"},
		Source: "Kirchhoff's voltage law, modified nodal analysis",
		Note:   "The current has no closed form: the whole circuit is solved until every branch keeps this balance."}
	headroom = &quantity.Formula{Name: "headroom", Sum: "h = U_R / U", Unit: "share",
		Where:  []string{"h: share of the supply over the resistor", "U_R: volts over it", "U: supply under load, V"},
		Source: practice, Note: "A fifth to a quarter is wanted."}
	limiterHeat = &quantity.Formula{Name: "heat in a resistor", Sum: "P = U_R · I", Unit: "W",
		Where:  []string{"P: heat, W", "U_R: volts over it", "I: current, A"},
		Source: "Joule's law", Note: "The rating is at least twice that."}
	copperWire = &quantity.Formula{Name: "copper wire", Sum: "R = l / (58 · A)", Unit: "Ω",
		Where:  []string{"R: resistance at 20 °C, Ω", "l: length of the wire there and back, m", "A: cross-section, mm²"},
		Source: "IEC 60028: 1/58 Ω·mm²/m"}
	warmCopper = &quantity.Formula{Name: "warm copper", Sum: "R = R₂₀ · (1 + 0.00393 · (t − 20 °C))", Unit: "Ω",
		Where:  []string{"R₂₀: resistance at 20 °C", "t: temperature, °C"},
		Source: "IEC 60028"}
	wireDrop = &quantity.Formula{Name: "volts lost in wire", Sum: "U = I · R", Unit: "V",
		Where:  []string{"I: current in the wire, A", "R: its resistance there and back, Ω"},
		Source: "Ohm's law", Note: "What a shared feed loses depends on all branches behind it; the circuit is solved as a whole."}
	runOhms = &quantity.Formula{Name: "wire with contacts", Sum: "R = l / (58 · A) + R_c", Unit: "Ω",
		Where: []string{"R: resistance there and back, Ω", "l: length of the wire there and back, m", "A: cross-section, mm²",
			"R_c: resistance of its contacts, Ω"},
		Source: "IEC 60028: 1/58 Ω·mm²/m"}
	currents = &quantity.Formula{Name: "total current", Sum: "I = ΣI_b", Unit: "A",
		Where: []string{"I_b: currents of the branches, A"}, Source: "Kirchhoff's current law, modified nodal analysis"}
	meanCurrent = &quantity.Formula{Name: "average current", Sum: "I_m = ΣI_b", Unit: "A",
		Where: []string{"I_b: current of each branch, times its mean over the control's period, A"}, Source: arithmetic}
	supplied = &quantity.Formula{Name: "power from the supply", Sum: "P = U · I", Unit: "W",
		Where: []string{"U: voltage of the supply unloaded, V", "I: total current, A"}, Source: "Joule's law"}
	heats = &quantity.Formula{Name: "heat in resistors or wires", Sum: "P = ΣP_i", Unit: "W",
		Where: []string{"P_i: heat of each: volts times current, or current squared times resistance, W"}, Source: "Joule's law"}
	efficiency = &quantity.Formula{Name: "efficiency", Sum: "η = P_L / P", Unit: "share",
		Where: []string{"P_L: power into the lamps, W", "P: power from the supply, W"}, Source: arithmetic}
	used = &quantity.Formula{Name: "share of the supply's limit", Sum: "u = I / I_max", Unit: "share",
		Where: []string{"I: total current, A", "I_max: what the supply gives at most, A"}, Source: arithmetic}
	overResistor = &quantity.Formula{Name: "drop of a resistor", Sum: "U_R = I · R", Unit: "V",
		Where: []string{"I: current, A", "R: resistor, Ω"}, Source: "Ohm's law"}
	ripple = &quantity.Formula{Name: "bands on film", Sum: "r = 1 / (f · t)", Unit: "share",
		Where:  []string{"r: ripple of the light from picture to picture", "f: pulses a second, Hz", "t: exposure, s"},
		Source: practice, Note: "Below 5 % bands rarely show."}
	strandsFit = &quantity.Formula{Name: "strands before a lamp", Sum: "n = 0.75 · (D / d)², rounded down",
		Where:  []string{"n: strands that fit", "D: diameter of the lamp, mm", "d: diameter of a strand, mm"},
		Source: "packing of 75 %: " + practice}
	fibreBuy = &quantity.Formula{Name: "fibre to buy", Sum: "l = 1.15 · n · L", Unit: "m",
		Where:  []string{"l: fibre to buy, m", "n: strands", "L: length of a strand, m"},
		Source: practice, Note: "The spare is for cutting, polishing and the one that snaps."}
	fullSize = &quantity.Formula{Name: "lamp at full size", Sum: "D = d · S", Unit: "m",
		Where:  []string{"D: how large the lamp would be in truth", "d: its diameter", "S: ratio of the scale"},
		Source: "proportion"}
	shellRise = &quantity.Formula{Name: "warmth in a closed shell", Sum: "ΔT = P / (2 · 6 · V^(2/3))", Unit: "K",
		Where:  []string{"ΔT: by how many kelvin it warms", "P: heat of lamps and resistors in it, W", "V: its volume, m³, taken as a cube"},
		Source: "2 W/(m²·K) through the shell: handbook values from memory, lowered to fit one measured shell", Note: "An estimate."}
	bankHours = &quantity.Formula{Name: "power bank", Sum: "t = 3.7 V · Q · k / (U · I)", Unit: "h",
		Where: []string{"t: hours", "Q: capacity on the label, Ah", "k: what the converter leaves, 85 % (75 to 90 %)",
			"U: its own voltage, V", "I: current drawn on average, A"},
		Source: bankSource}
	flashRate = &quantity.Formula{Name: "timer", Sum: "f = 1.44 / ((R_A + 2 · R_B) · C)", Unit: "Hz",
		Where:  []string{"f: flashes a second, Hz", "R_A, R_B: the timer's resistors, Ω", "C: its capacitor, F"},
		Source: "NE555 data sheet, TI SLFS022I, 8.3.2"}
	charging = &quantity.Formula{Name: "charging a capacitor", Sum: "u = 1 − e^(−t / (R · C))", Unit: "share",
		Where:  []string{"u: share of the supply's voltage reached", "t: time, s", "R: resistor, Ω", "C: capacitor, F"},
		Source: "any textbook"}
)

// Formulas are the sums of this room, for the guide. The working point of a
// whole circuit has no closed form: these are its parts.
var Formulas = []*quantity.Formula{
	{Name: "lamp", Sum: "V = a + b · ln(I / 1 mA) + c · I", Where: []string{"V: forward voltage, V", "I: current, mA in the logarithm and A in the last term", "a, b, c: fitted to the data sheet's points by least squares, b at least kT/q, c never negative; three points fit all, two fit a and b, one takes b = 2 kT/q and at most 5 ohm for c, and is marked assumed"},
		Source: "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489, with series resistance; equals a SPICE diode with N = b/(kT/q) and RS = c at 27 °C"},
	exactResistor,
	balance,
	currents,
	meanCurrent,
	supplied,
	heats,
	efficiency,
	used,
	overResistor,
	headroom,
	limiterHeat,
	copperWire,
	warmCopper,
	runOhms,
	wireDrop,
	{Name: "mean of a fade", Sum: "Y = ((L* + 16) / 116)³, and L* / 903.3 up to 8", Where: []string{"Y: share of the full light", "L*: lightness, 0 to 100, rising evenly over the fade"}, Source: "CIE 15"},
	ripple,
	strandsFit,
	fibreBuy,
	fullSize,
	shellRise,
	{Name: "lamps that should match", Sum: "they differ to the eye from I₁ / I₂ = 1.08² = 1.17 on", Where: []string{"I₁, I₂: luminous intensities, or currents of equal lamps"}, Source: "Weber fraction 0.08 (Teghtsoonian 1971), exponent 0.5 for point sources (Stevens 1975)"},
	bankHours,
	flashRate,
	charging,
}

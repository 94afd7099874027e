package circuit

import "spruelight/gen/quantity"

// Formulas are the sums of this room, for the guide. The working point of a
// whole circuit has no closed form: these are its parts.
var Formulas = []quantity.Formula{
	{Name: "lamp", Sum: "V = a + b · ln(I / 1 mA) + c · I", Where: []string{"V: forward voltage, V", "I: current, mA in the logarithm and A in the last term", "a, b, c: fitted to the data sheet's points by least squares, b at least kT/q, c never negative; three points fit all, two fit a and b, one takes b = 2 kT/q and at most 5 ohm for c, and is marked assumed"},
		Source: "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489, with series resistance; equals a SPICE diode with N = b/(kT/q) and RS = c at 27 °C"},
	{Name: "exact resistor", Sum: "R = (U − V₁ − V₂ − …) / I", Where: []string{"R: resistance of the branch, its lead included, ohm", "U: voltage at the junction, V", "V₁, V₂ …: forward voltages of the lamps in series at the wanted current, V", "I: wanted current, A"},
		Source: "Ohm's law and Kirchhoff's voltage law",
		Note:   "The value fitted is the next preferred one above, and higher where the freshest supply and the lowest forward voltage would take a lamp over its limit."},
	{Name: "headroom", Sum: "h = U_R / U", Where: []string{"h: share of the supply over the resistor", "U_R: volts over it", "U: supply under load, V"}, Source: practice, Note: "A fifth to a quarter is wanted."},
	{Name: "heat in a resistor", Sum: "P = U_R · I", Where: []string{"P: heat, W", "U_R: volts over it", "I: current, A"}, Source: "Joule's law", Note: "The rating is at least twice that."},
	{Name: "copper wire", Sum: "R = l / (58 · A)", Where: []string{"R: resistance at 20 °C, ohm", "l: length of the wire there and back, m", "A: cross-section, mm²"}, Source: "IEC 60028: 1/58 ohm·mm²/m"},
	{Name: "warm copper", Sum: "R = R₂₀ · (1 + 0.00393 · (t − 20))", Where: []string{"R₂₀: resistance at 20 °C", "t: temperature, °C"}, Source: "IEC 60028"},
	{Name: "volts lost in wire", Sum: "U = I · R", Where: []string{"I: current in the wire, A", "R: its resistance there and back, ohm"}, Source: "Ohm's law", Note: "What a shared feed loses depends on all branches behind it; the circuit is solved as a whole."},
	{Name: "mean of a fade", Sum: "Y = ((L* + 16) / 116)³, and L* / 903.3 up to 8", Where: []string{"Y: share of the full light", "L*: lightness, 0 to 100, rising evenly over the fade"}, Source: "CIE 15"},
	{Name: "bands on film", Sum: "r = 1 / (f · t)", Where: []string{"r: ripple of the light from picture to picture", "f: pulses a second, Hz", "t: exposure, s"}, Source: practice, Note: "Below 5 % bands rarely show."},
	{Name: "strands before a lamp", Sum: "n = 0.75 · (D / d)²", Where: []string{"n: strands that fit", "D: diameter of the lamp, mm", "d: diameter of a strand, mm"}, Source: "packing of 75 %: " + practice},
	{Name: "fibre to buy", Sum: "l = 1.15 · n · L", Where: []string{"l: fibre to buy, m", "n: strands", "L: length of a strand, m"}, Source: practice, Note: "The spare is for cutting, polishing and the one that snaps."},
	{Name: "lamp at full size", Sum: "D = d · S", Where: []string{"D: how large the lamp would be in truth", "d: its diameter", "S: ratio of the scale"}, Source: "proportion"},
	{Name: "warmth in a closed shell", Sum: "ΔT = P / (2 · 6 · V^(2/3))", Where: []string{"ΔT: by how many kelvin it warms", "P: heat of lamps and resistors in it, W", "V: its volume, m³, taken as a cube"}, Source: "2 W/(m²·K) through the shell: handbook values from memory, lowered to fit one measured shell", Note: "An estimate."},
	{Name: "lamps that should match", Sum: "they differ to the eye from I₁ / I₂ = 1.08² = 1.17 on", Where: []string{"I₁, I₂: luminous intensities, or currents of equal lamps"}, Source: "Weber fraction 0.08 (Teghtsoonian 1971), exponent 0.5 for point sources (Stevens 1975)"},
	{Name: "power bank", Sum: "t = 3.7 V · Q · 0.85 / (5 V · I)", Where: []string{"t: hours", "Q: capacity on the label, Ah", "I: current drawn at 5 V, A"}, Source: bankSource},
	{Name: "timer", Sum: "f = 1.44 / ((R_A + 2 R_B) · C)", Where: []string{"f: flashes a second, Hz", "R_A, R_B: the timer's resistors, ohm", "C: its capacitor, F"}, Source: "NE555 data sheet, TI SLFS022I, 8.3.2"},
	{Name: "charging a capacitor", Sum: "u = 1 − e^(−t / (R · C))", Where: []string{"u: share of the supply's voltage reached", "t: time, s", "R: resistor, ohm", "C: capacitor, F"}, Source: "any textbook"},
}

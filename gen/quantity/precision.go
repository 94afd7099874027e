package quantity

import "strings"

// LastPlace returns half a unit of the last place in which a length was
// written: 0.05 m for "9.4 m", half an inch for 5' 9", a sixteenth of an inch
// for "3/8 in". That is how far a published figure may be rounded, or a
// reading lie from the mark (JCGM 100:2008, F.2.2.1). Zeros that end a whole
// number count as read. False where the text is no plain length.
func LastPlace(text string) (Metres, bool) {
	t := strings.TrimSpace(text)
	var whole Metres
	if whole.UnmarshalText([]byte(t)) != nil {
		return 0, false
	}
	if _, inches, ok := splitFeet(t); ok {
		t = inches
	}
	step := 1.0
	digits, rest := splitNumber(t)
	if slash := strings.IndexByte(t, '/'); slash >= 0 {
		below, after := splitNumber(strings.TrimSpace(t[slash+1:]))
		denominator, err := number(below, 0)
		if err != nil || denominator == 0 {
			return 0, false
		}
		step, rest = 1/denominator, after
	} else if strings.ContainsAny(digits, "eE") {
		return 0, false
	} else if _, decimals, ok := strings.Cut(digits, "."); ok {
		for range decimals {
			step /= 10
		}
	}
	u, shift, ok := length.unit(strings.TrimSpace(rest))
	if !ok {
		return 0, false
	}
	half, err := number(decimal(step*u.factor/2, 0), shift)
	return Metres(half), err == nil
}

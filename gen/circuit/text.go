package circuit

import (
	"fmt"
	"strings"

	"spruelight/gen/quantity"
)

// inAmps, inVolts, inOhms and inWatts print a worked-out value for a sentence:
// three figures at most and a fitting prefix.
func inAmps(i quantity.Amps) string {
	if i < 1e-9 {
		return "0 mA"
	}
	v, unit := quantity.Prefixed(float64(i), "A")
	if unit == "A" && v < 10 {
		v, unit = v*1000, "mA"
	}
	return quantity.Round(v, 3) + " " + unit
}

func inVolts(v quantity.Volts) string {
	if v < 0.1 && v > -0.1 {
		return quantity.Round(float64(v)*1000, 2) + " mV"
	}
	return quantity.Round(float64(v), 3) + " V"
}

func inWatts(w quantity.Watts) string {
	v, unit := quantity.Prefixed(float64(w), "W")
	return quantity.Round(v, 2) + " " + unit
}

func inPercent(s quantity.Share) string {
	return quantity.Round(float64(s)*100, 2) + " %"
}

// list joins names: "D1", "D1 and D2", "D1, D2 and D3".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// bandText prints a band of currents: "4.1 to 5.6 mA".
func bandText(b Band[quantity.Amps]) string {
	low, high := inAmps(b.Low), inAmps(b.High)
	if strings.HasSuffix(low, " mA") && strings.HasSuffix(high, " mA") {
		low = strings.TrimSuffix(low, " mA")
	}
	return fmt.Sprintf("%s to %s", low, high)
}

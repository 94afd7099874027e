package circuit

import (
	"errors"
	"testing"

	"spruelight/gen/quantity"
)

// What may be written after resistor, control, cells and discharge, and what
// it is printed as.
func TestLightWords(t *testing.T) {
	for text, want := range map[string]Limiter{
		"auto": {}, "none": {Kind: None}, "470R": {Kind: Fixed, Ohms: 470}, "4k7 1 %": {Kind: Fixed, Ohms: 4700, Tolerance: 0.01},
		"470 ohm 0.25 W": {Kind: Fixed, Ohms: 470, Rated: 0.25}, "1 kohm 0.5 W 5 %": {Kind: Fixed, Ohms: 1000, Rated: 0.5, Tolerance: 0.05}, "220R 125 mW": {Kind: Fixed, Ohms: 220, Rated: 0.125},
	} {
		var got Limiter
		if err := got.UnmarshalText([]byte(text)); err != nil || got != want {
			t.Errorf("%q: %+v %v", text, got, err)
		}
		var again Limiter
		if err := again.UnmarshalText([]byte(got.String())); err != nil || again != got {
			t.Errorf("%q is printed as %q", text, got)
		}
	}
	for text, want := range map[string]Control{
		"steady": {Kind: Steady}, "blink 1.2 Hz 20 %": {Kind: Blink, Frequency: 1.2, Duty: 0.2}, "blink 1 Hz": {Kind: Blink, Frequency: 1},
		"fade 4 s": {Kind: Fade, Period: 4.0 / 3600}, "pwm 30 %": {Kind: PWM, Duty: 0.3}, "pwm 490 Hz 30%": {Kind: PWM, Frequency: 490, Duty: 0.3}, "Blink 2Hz 50%": {Kind: Blink, Frequency: 2, Duty: 0.5},
	} {
		var got, again Control
		if err := got.UnmarshalText([]byte(text)); err != nil || got.Kind != want.Kind || got.Frequency != want.Frequency || got.Duty != want.Duty || got.Period-want.Period > 1e-12 || want.Period-got.Period > 1e-12 {
			t.Errorf("%q: %+v %v", text, got, err)
		}
		if err := again.UnmarshalText([]byte(got.String())); err != nil || again.String() != got.String() {
			t.Errorf("%q is printed as %q", text, got)
		}
	}
	for text, want := range map[string]Cells{"6LR61": {"6LR61", 1, 1}, "3 LR6": {"LR6", 3, 1}, "2 x 3 LR6": {"LR6", 3, 2}, "2×3 lr6": {"LR6", 3, 2}, "2 CR2032": {"CR2032", 2, 1}} {
		var got, again Cells
		if err := got.UnmarshalText([]byte(text)); err != nil || got != want {
			t.Errorf("%q: %+v %v", text, got, err)
		}
		if err := again.UnmarshalText([]byte(got.String())); err != nil || again != got {
			t.Errorf("%q is printed as %q", text, got)
		}
	}
	var d Depth
	if err := d.UnmarshalText([]byte("8.1 V @ 40 %")); err != nil || d != (Depth{8.1, 0.4}) {
		t.Errorf("%+v %v", d, err)
	}
}

// A control is said as it is written; of a steady one nothing is said.
func TestControlsAreSaid(t *testing.T) {
	for text, want := range map[string]string{
		"steady": "", "blink 0.5 Hz": "blink 0.5 Hz", "blink 1.2 Hz 20 %": "blink 1.2 Hz 20 %", "fade 4 s": "fade 4 s",
		"pwm 30 %": "pwm 30 %", "pwm 490 Hz 30 %": "pwm 490 Hz 30 %",
	} {
		var c Control
		if err := c.UnmarshalText([]byte(text)); err != nil || c.Says().String() != want || c.Says().Empty() != (want == "") {
			t.Errorf("%q: %v says %q, want %q", text, err, c.Says(), want)
		}
	}
}

// What is wrong is underlined, and the remedy says what would be right.
func TestLightWordsRefused(t *testing.T) {
	for _, c := range []struct {
		into         interface{ UnmarshalText([]byte) error }
		text, marked string
	}{
		{new(Limiter), "atuo", "atuo"}, {new(Limiter), "470 volts", "470 volts"}, {new(Limiter), "470R 5 furlongs", "furlongs"}, {new(Limiter), "", ""},
		{new(Control), "wink", "wink"}, {new(Control), "blink", "blink"}, {new(Control), "blink 20 %", "blink"}, {new(Control), "fade", "fade"}, {new(Control), "fade 4 m", "m"},
		{new(Control), "steady 5 s", "5 s"}, {new(Control), "pwm 490 Hz", "pwm"}, {new(Control), "pwm 490 Hz 130 %", "130 %"}, {new(Control), "blink 1.2 Hx 20 %", "Hx"},
		{new(Cells), "LR6 3", "LR6 3"}, {new(Cells), "3", "3"}, {new(Cells), "1 x 2 x 3 LR6", "1 x 2 x 3 LR6"}, {new(Depth), "8 V", "8 V"}, {new(Depth), "8 V @ 40 V", "V"},
	} {
		err := c.into.UnmarshalText([]byte(c.text))
		var e *quantity.Error
		if !errors.As(err, &e) {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := c.text[e.Offset : e.Offset+e.Length]; got != c.marked || e.Remedy.Empty() {
			t.Errorf("%q: %q is marked, want %q (%v)", c.text, got, c.marked, e)
		}
	}
}

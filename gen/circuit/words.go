package circuit

import (
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Limiter is what stands after resistor: auto, none, or a value with its
// rating and tolerance.
type Limiter struct {
	Kind      LimiterKind
	Ohms      quantity.Ohms  // Fixed
	Rated     quantity.Watts // Fixed, 0: not said
	Tolerance quantity.Share // Fixed, 0: not said
}

// LimiterKind is one way to limit a current.
type LimiterKind int

// The ways to limit a current.
const (
	Auto            LimiterKind = iota // a resistor chosen by Solve
	Fixed                              // a resistor of given value
	ConstantCurrent                    // a driver
	None                               // nothing but wire and the supply's inside resistance
)

// resistor reports whether the current is limited by a resistor.
func (k LimiterKind) resistor() bool { return k == Auto || k == Fixed }

// UnmarshalText reads "auto", "none", "470R", "4k7 1 %", "470 ohm 0.25 W 5 %".
func (l *Limiter) UnmarshalText(text []byte) error {
	words, err := splitValues(string(text))
	if err != nil {
		return err
	}
	if len(words) == 1 {
		switch strings.ToLower(words[0].text) {
		case "auto":
			*l = Limiter{}
			return nil
		case "none":
			*l = Limiter{Kind: None}
			return nil
		}
	}
	out := Limiter{Kind: Fixed}
	for i, w := range words {
		var err error
		switch {
		case i == 0:
			err = out.Ohms.UnmarshalText([]byte(w.text))
		case strings.HasSuffix(w.text, "%"):
			err = out.Tolerance.UnmarshalText([]byte(w.text))
		default:
			err = out.Rated.UnmarshalText([]byte(w.text))
		}
		if err != nil {
			if i == 0 && !quantity.Decimal(w.text) {
				return quantity.Wrong(w.at, len(w.text), "write auto, none, or a value like 470R or 470R 0.25 W 5 %",
					"%q is no resistance", w.text)
			}
			return movedBy(err, w.at)
		}
	}
	*l = out
	return nil
}

// String prints the limiter as it is written.
func (l Limiter) String() string {
	switch l.Kind {
	case Auto:
		return "auto"
	case None:
		return "none"
	}
	text := l.Ohms.String()
	if l.Rated > 0 {
		text += " " + l.Rated.String()
	}
	if l.Tolerance > 0 {
		text += " " + l.Tolerance.String()
	}
	return text
}

// ControlKind is a way to drive a branch over time.
type ControlKind string

// The ways to drive a branch.
const (
	Steady ControlKind = "steady"
	Blink  ControlKind = "blink"
	Fade   ControlKind = "fade"
	PWM    ControlKind = "pwm"
)

// Control says how a branch is driven over time.
type Control struct {
	Kind      ControlKind
	Frequency quantity.Hertz // Blink, PWM; 0: not said
	Period    quantity.Hours // Fade: from dark to bright and back
	Duty      quantity.Share // Blink, PWM: share of the time lit
}

// UnmarshalText reads "steady", "blink 1.2 Hz 20 %", "fade 4 s", "pwm 30 %",
// "pwm 490 Hz 30 %".
func (c *Control) UnmarshalText(text []byte) error {
	words, err := splitValues(string(text))
	if err != nil {
		return err
	}
	out := Control{Kind: ControlKind(strings.ToLower(words[0].text))}
	const remedy = "write steady, blink 1.2 Hz 20 %, fade 4 s or pwm 490 Hz 30 %"
	bad := func(w word, form string, args ...any) error {
		return quantity.Wrong(w.at, len(w.text), remedy, form, args...)
	}
	for _, w := range words[1:] {
		var err error
		switch {
		case strings.HasSuffix(w.text, "%") && (out.Kind == Blink || out.Kind == PWM):
			err = out.Duty.UnmarshalText([]byte(w.text))
		case out.Kind == Fade:
			err = out.Period.UnmarshalText([]byte(w.text))
		case out.Kind == Blink || out.Kind == PWM:
			err = out.Frequency.UnmarshalText([]byte(w.text))
		default:
			return bad(w, "%q does not belong to %s", w.text, out.Kind)
		}
		if err != nil {
			return movedBy(err, w.at)
		}
	}
	switch out.Kind {
	case Steady:
	case Blink:
		if out.Frequency <= 0 {
			return bad(words[0], "blink does not say how often")
		}
	case Fade:
		if out.Period <= 0 {
			return bad(words[0], "fade does not say how long")
		}
	case PWM:
		if out.Duty <= 0 {
			return bad(words[0], "pwm does not say which share of the time the lamp is lit")
		}
	default:
		return bad(words[0], "%q is no way to drive a lamp", words[0].text)
	}
	if out.Duty < 0 || out.Duty > 1 {
		return bad(words[len(words)-1], "the share lit lies between %s and %s", quantity.Share(0), quantity.Share(1))
	}
	*c = out
	return nil
}

// String prints the control as it is written: "blink 1.2 Hz 20 %", "fade 4 s".
func (c Control) String() string {
	text := string(c.Kind)
	if c.Frequency > 0 {
		text += " " + c.Frequency.String()
	}
	if c.Period > 0 {
		text += " " + c.Period.String()
	}
	if c.Duty > 0 && c.Kind != Fade {
		text += " " + c.Duty.String()
	}
	return text
}

// Says is how the branch is driven; of a steady one nothing is said.
func (c Control) Says() source.Message {
	switch {
	case c.Kind == Fade:
		return source.Say("fade %s", quantity.Amount{Value: float64(c.Period) * 3600, Unit: "s", Digits: 3})
	case c.Kind == Blink && c.Duty > 0:
		return source.Say("blink %s %s", c.Frequency, c.Duty)
	case c.Kind == Blink:
		return source.Say("blink %s", c.Frequency)
	case c.Kind == PWM && c.Frequency > 0:
		return source.Say("pwm %s %s", c.Frequency, c.Duty)
	case c.Kind == PWM:
		return source.Say("pwm %s", c.Duty)
	}
	return source.Message{}
}

// Cells is a pack of equal cells.
type Cells struct {
	Type             string // IEC 60086 designation: LR6
	Series, Parallel int
}

// UnmarshalText reads "6LR61", "3 LR6" (in series), "2 x 3 LR6" (two such rows
// side by side).
func (c *Cells) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	out := Cells{Series: 1, Parallel: 1}
	fields := strings.Fields(strings.ReplaceAll(s, "×", " x "))
	bad := quantity.Wrong(0, len(text), "write it like 6LR61, 3 LR6, or 2 x 3 LR6 for two rows of three",
		"%q is no pack of cells", s)
	var counts []int
	for i, f := range fields {
		n, err := strconv.Atoi(f)
		switch {
		case err == nil && n >= 1 && n <= 100 && i < len(fields)-1:
			counts = append(counts, n)
		case strings.EqualFold(f, "x") && i > 0 && i < len(fields)-1:
		case i == len(fields)-1 && err != nil:
			out.Type = strings.ToUpper(f)
		default:
			return bad
		}
	}
	switch {
	case out.Type == "" || len(counts) > 2:
		return bad
	case len(counts) == 2:
		out.Parallel, out.Series = counts[0], counts[1]
	case len(counts) == 1:
		out.Series = counts[0]
	}
	*c = out
	return nil
}

// String prints the pack as it is written.
func (c Cells) String() string {
	text := c.Type
	if c.Series > 1 || c.Parallel > 1 {
		text = strconv.Itoa(c.Series) + " " + text
	}
	if c.Parallel > 1 {
		text = strconv.Itoa(c.Parallel) + " x " + text
	}
	return text
}

// Depth is a point of a discharge curve.
type Depth struct {
	Volts quantity.Volts // of the whole supply, unloaded
	Used  quantity.Share // of its capacity
}

// UnmarshalText reads "8.1 V @ 40 %".
func (d *Depth) UnmarshalText(text []byte) error {
	left, right, ok := strings.Cut(string(text), "@")
	if !ok {
		return quantity.Wrong(0, len(text), "write it like 8.1 V @ 40 %",
			"%q does not say at which share used", text)
	}
	var out Depth
	if err := out.Volts.UnmarshalText([]byte(left)); err != nil {
		return err
	}
	if err := out.Used.UnmarshalText([]byte(right)); err != nil {
		return movedBy(err, len(left)+1)
	}
	*d = out
	return nil
}

// String prints the point as it is written.
func (d Depth) String() string { return d.Volts.String() + " @ " + d.Used.String() }

// word is one part of a text and the byte at which it begins.
type word struct {
	text string
	at   int
}

// splitValues parts a text into its words, a number and the unit after it
// being one: "blink 1.2 Hz 20 %" has three.
func splitValues(text string) ([]word, error) {
	var words []word
	for at := 0; at < len(text); {
		if text[at] == ' ' {
			at++
			continue
		}
		end := at
		for end < len(text) && text[end] != ' ' {
			end++
		}
		w := word{text[at:end], at}
		if last := len(words) - 1; last >= 0 && bareNumber(words[last].text) {
			words[last].text = text[words[last].at:end]
		} else {
			words = append(words, w)
		}
		at = end
	}
	if len(words) == 0 {
		return nil, quantity.Wrong(0, 0, "write a value", "nothing is written")
	}
	return words, nil
}

func bareNumber(text string) bool {
	_, err := strconv.ParseFloat(text, 64)
	return err == nil
}

// movedBy moves the place of a value's error to where the value begins.
func movedBy(err error, by int) error {
	if e, ok := err.(*quantity.Error); ok {
		moved := *e
		moved.Offset += by
		return &moved
	}
	return err
}

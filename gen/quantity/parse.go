package quantity

import (
	"regexp"
	"strings"

	"spruelight/gen/source"
)

func (v Volts) String() string     { return text(v) }
func (v Amps) String() string      { return text(v) }
func (v Ohms) String() string      { return text(v) }
func (v Watts) String() string     { return text(v) }
func (v Farads) String() string    { return text(v) }
func (v Hertz) String() string     { return text(v) }
func (v AmpHours) String() string  { return text(v) }
func (v Metres) String() string    { return text(v) }
func (v Kilograms) String() string { return text(v) }
func (v Litres) String() string    { return text(v) }
func (v Candelas) String() string  { return text(v) }
func (v Lux) String() string       { return text(v) }
func (v Pascals) String() string   { return text(v) }
func (v Celsius) String() string   { return text(v) }
func (v Share) String() string     { return text(v) }
func (v Degrees) String() string   { return text(v) }

// set stores a scanned value, or reports why it is none.
func set[T ~float64](target *T, d *dimension, text []byte) error {
	v, err := d.scan(string(text))
	if err != nil {
		return err
	}
	*target = T(v)
	return nil
}

func (v *Volts) UnmarshalText(text []byte) error     { return set(v, &voltage, text) }
func (v *Amps) UnmarshalText(text []byte) error      { return set(v, &current, text) }
func (v *Watts) UnmarshalText(text []byte) error     { return set(v, &power, text) }
func (v *Farads) UnmarshalText(text []byte) error    { return set(v, &capacitance, text) }
func (v *Hertz) UnmarshalText(text []byte) error     { return set(v, &frequency, text) }
func (v *AmpHours) UnmarshalText(text []byte) error  { return set(v, &charge, text) }
func (v *Kilograms) UnmarshalText(text []byte) error { return set(v, &mass, text) }
func (v *Litres) UnmarshalText(text []byte) error    { return set(v, &volume, text) }
func (v *Candelas) UnmarshalText(text []byte) error  { return set(v, &intensity, text) }
func (v *Lux) UnmarshalText(text []byte) error       { return set(v, &illuminance, text) }
func (v *Pascals) UnmarshalText(text []byte) error   { return set(v, &pressure, text) }
func (v *Celsius) UnmarshalText(text []byte) error   { return set(v, &temperature, text) }
func (v *Share) UnmarshalText(text []byte) error     { return set(v, &share, text) }
func (v *Degrees) UnmarshalText(text []byte) error   { return set(v, &angle, text) }

// UnmarshalText reads a resistance with its unit ("470 ohm", "4.7 kΩ") or by
// letter code (IEC 60062: "4k7", "470R", "R22").
func (v *Ohms) UnmarshalText(text []byte) error {
	if code, ok := letterCode(strings.TrimSpace(string(text))); ok {
		*v = code
		return nil
	}
	if m := pointCode.FindStringSubmatch(strings.TrimSpace(string(text))); m != nil {
		return fault(string(text), m[0], source.Say("write the letter in the place of the point: %s", m[1]+m[3]+m[2]), "%s is no resistance",
			quote(m[0]))
	}
	return set(v, &resistance, text)
}

// pointCode is a letter code written with a point: "4.7k".
var pointCode = regexp.MustCompile(`^(\d+)[.,](\d+)([RkKM])$`)

// Decimal reports whether a resistance is written as a letter code with a
// point, which Ohms answers with the right one.
func Decimal(text string) bool { return pointCode.MatchString(text) }

// UnmarshalText reads a length: "180 mm", "7 in", "3/8 in", "5' 9\"", "5 ft 9 1/2 in".
func (v *Metres) UnmarshalText(text []byte) error {
	value, err := scanLength(string(text))
	if err == nil {
		*v = Metres(value)
	}
	return err
}

// MarshalText forms are those of String, so that what is printed reads back.
func (v Volts) MarshalText() ([]byte, error)  { return []byte(v.String()), nil }
func (v Amps) MarshalText() ([]byte, error)   { return []byte(v.String()), nil }
func (v Ohms) MarshalText() ([]byte, error)   { return []byte(v.String()), nil }
func (v Metres) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

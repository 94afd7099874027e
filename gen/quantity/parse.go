package quantity

import (
	"regexp"
	"strings"

	"spruelight/gen/source"
)

func (v Volts) String() string     { return voltage.print(float64(v)) }
func (v Amps) String() string      { return current.print(float64(v)) }
func (v Ohms) String() string      { return resistance.print(float64(v)) }
func (v Watts) String() string     { return power.print(float64(v)) }
func (v Farads) String() string    { return capacitance.print(float64(v)) }
func (v AmpHours) String() string  { return charge.print(float64(v)) }
func (v Kilograms) String() string { return mass.print(float64(v)) }
func (v Litres) String() string    { return volume.print(float64(v)) }
func (v Candelas) String() string  { return intensity.print(float64(v)) }
func (v Lux) String() string       { return illuminance.print(float64(v)) }
func (v Pascals) String() string   { return pressure.print(float64(v)) }
func (v Celsius) String() string   { return temperature.print(float64(v)) }
func (v Share) String() string     { return share.print(float64(v)) }
func (v Degrees) String() string   { return decimal(float64(v), 0) + "°" }

// String prints a frequency; a slow one in Hz, as blinking is written: 0.5 Hz.
func (v Hertz) String() string {
	if v < 1 && v >= 0.001 {
		return decimal(float64(v), 0) + " Hz"
	}
	return frequency.print(float64(v))
}

// String prints a length in metres, or in millimetres below one metre.
func (v Metres) String() string {
	if v < 1 && v > -1 {
		return decimal(float64(v), -3) + " mm"
	}
	return decimal(float64(v), 0) + " m"
}

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
		return fault(string(text), m[0], source.Say("write the letter in the place of the point: %s", m[1]+m[3]+m[2]), "%s is no resistance", quote(m[0]))
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

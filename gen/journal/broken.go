package journal

import (
	"reflect"

	"spruelight/gen/source"
)

// What could not be read, or names what is not there, makes whatever is worked
// out of it wrong. The mappings that sums start from have a field Broken, which
// the decoder sets for values and markBroken for names.

// markBroken sets Broken in every mapping of a value that was read in which a
// finding stops.
func markBroken(read any, found source.Findings) {
	stops := map[source.Span]bool{}
	for _, f := range found {
		if f.Severity() == source.Stop && f.At.Known() {
			stops[f.At] = true
		}
	}
	if len(stops) > 0 {
		breakIn(reflect.ValueOf(read).Elem(), stops)
	}
}

var placedType = reflect.TypeFor[interface {
	Slot() (any, *source.Span, *bool)
}]()

// breakIn walks a value and reports whether a finding stops at one within it.
func breakIn(v reflect.Value, stops map[source.Span]bool) (broken bool) {
	if v.CanAddr() && v.Addr().Type().Implements(placedType) {
		_, at, _ := v.Addr().Interface().(interface {
			Slot() (any, *source.Span, *bool)
		}).Slot()
		return stops[*at]
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Type != spanType {
				broken = breakIn(v.Field(i), stops) || broken
			}
		}
		if mark := v.FieldByName("Broken"); broken && mark.IsValid() && mark.CanSet() {
			mark.SetBool(true)
		}
	case reflect.Slice:
		for i := range v.Len() {
			broken = breakIn(v.Index(i), stops) || broken
		}
	case reflect.Pointer:
		if !v.IsNil() {
			broken = breakIn(v.Elem(), stops)
		}
	}
	return broken
}

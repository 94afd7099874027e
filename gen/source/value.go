package source

// Value is a value together with the place where it was written.
type Value[T any] struct {
	V   T
	At  Span
	Set bool // false: nothing was written, V is the zero value or a default
}

// Written returns a value that was written at a place.
func Written[T any](v T, at Span) Value[T] { return Value[T]{V: v, At: at, Set: true} }

// Or returns the value, or another one where none was written.
func (v Value[T]) Or(other T) T {
	if v.Set {
		return v.V
	}
	return other
}

// Slot gives a decoder access to the value without knowing its type.
func (v *Value[T]) Slot() (value any, at *Span, set *bool) { return &v.V, &v.At, &v.Set }

// Entry is one name and what stands under it.
type Entry[T any] struct {
	Name  Value[string]
	Value T
}

// Entries is a mapping that keeps the order in which it was written.
type Entries[T any] []Entry[T]

// Get returns the entry of a name.
func (e Entries[T]) Get(name string) (T, bool) {
	for i := range e {
		if e[i].Name.V == name {
			return e[i].Value, true
		}
	}
	var none T
	return none, false
}

// Names returns the names in their order.
func (e Entries[T]) Names() []string {
	names := make([]string, len(e))
	for i := range e {
		names[i] = e[i].Name.V
	}
	return names
}

// Grow appends an empty entry for a decoder to fill.
func (e *Entries[T]) Grow() (name *Value[string], value any) {
	*e = append(*e, Entry[T]{})
	last := &(*e)[len(*e)-1]
	return &last.Name, &last.Value
}

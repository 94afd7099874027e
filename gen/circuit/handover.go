package circuit

import "strconv"

// LampRef is the reference of a lamp by its number through all circuits.
func LampRef(number int) string { return "D" + strconv.Itoa(number) }

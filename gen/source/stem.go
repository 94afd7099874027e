package source

import "strings"

// Stem keeps letters, digits and hyphens of a file's name, in small letters and
// at most 60: the rest would need escaping in an address.
func Stem(name string) string {
	clean := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9', c == '-':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '-'
	}, name)
	return clean[:min(len(clean), 60)]
}

package journal

import (
	"slices"
	"strconv"
	"strings"
)

// Nearest returns the known spelling that a mistyped word most likely meant,
// if one is near enough: at most a third of its letters differ.
func Nearest(word string, known []string) (string, bool) {
	best, distance := "", len(word)/3+2
	if len(word) > 64 {
		return "", false
	}
	for _, k := range known {
		if d := edits(strings.ToLower(word), strings.ToLower(k)); d < distance {
			best, distance = k, d
		}
	}
	return best, best != ""
}

// meant returns "; did you mean …?" for a message, or nothing.
func meant(word string, known []string) string {
	if near, ok := Nearest(word, known); ok {
		return "; did you mean " + strconv.Quote(near) + "?"
	}
	return ""
}

// edits counts the insertions, deletions, replacements and swaps of
// neighbours that turn one word into another (optimal string alignment).
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := [3][]int{make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(x); i++ {
		rows[2][0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			rows[2][j] = slices.Min([]int{rows[1][j] + 1, rows[2][j-1] + 1, rows[1][j-1] + cost})
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[2][j] = min(rows[2][j], rows[0][j-2]+1)
			}
		}
		rows[0], rows[1], rows[2] = rows[1], rows[2], rows[0]
	}
	return rows[1][len(y)]
}

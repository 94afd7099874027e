package journal

import (
	"slices"
	"strings"

	"spruelight/gen/source"
)

var ruleName = &source.Rule{Name: "unknown-name", Severity: source.Stop, Source: "common practice, no source",
	Reason: "A name that is not declared anywhere stands for nothing.",
	Keys: "build circuits[]: supply; build circuits[].branches[].lamps[]: lamp; build parts[]: area; " +
		"build areas.<name>: encloses, other face, meets; build paint.<name>[]: coat; build choices[]: areas; " +
		"build repair: day one; build: stages done, paint; sitting: stage; sitting coats[]: area, coat; " +
		"sitting masked[]: area; sitting handled[]: area; sitting leaks[]: area; sitting light tests[]: area; " +
		"sitting light tests[].readings[]: after; sitting before closing[]: area; sitting closed[]: area; " +
		"sitting markings[]: area; workshop: line-up"}

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

// meant adds to a finding of an unknown word which one it most likely is.
func meant(f source.Finding, word string, known []string) source.Finding {
	if near, ok := Nearest(word, known); ok {
		f.Says = source.Say("%s; did you mean %q?", f.Says, near)
	}
	return f
}

// noSuch reports a name that is none of a kind, such as "area of this build".
func noSuch(name Text, names []string, kind string, do any) source.Finding {
	return meant(ruleName.At(name.At, do, "%q is no %s", name.V, source.Word(kind)), name.V, names)
}

// orOne says what to do about an unknown name, with the known ones where they
// are few.
func orOne(do string, names []string) source.Message {
	const few = 12
	if len(names) == 0 || len(names) > few {
		return source.Word(do)
	}
	return source.Say("%s: %s", source.Word(do), source.Row(names))
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

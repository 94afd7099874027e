package journal

import (
	"fmt"

	"spruelight/gen/source"
)

var ruleLimit = &source.Rule{Name: "limit", Severity: source.Stop, Source: "common practice, no source",
	Reason: "Limits keep a damaged or hostile file from using up the machine.",
	Keys:   source.NoKey}

// Limits of what is read: far above what a person writes, low enough that a
// damaged or hostile file costs little.
const (
	maxFile    = 4 << 20 // bytes of one file
	maxNames   = 5_000   // files of one folder
	maxBuilds  = 2_000
	maxEntries = 2_000 // sittings of one build, and pictures that it names

	maxFront     = 256 << 10 // bytes of front matter, or of a file of YAML
	maxDepth     = 24        // mappings and lists inside one another
	maxKeys      = 20_000    // keys and list entries of one file
	maxBlockKeys = 4_000     // keys outside brackets, for which the parser's work grows with the square
	maxMarks     = 64        // anchors, aliases, tags, --- lines; none of them is read
	maxOnLine    = 64        // keys and marks of one line outside brackets

	maxBody           = 256 << 10 // bytes of a text
	maxLine           = 16 << 10
	maxQuotes         = 16       // quotes and lists inside one another
	maxColumns        = 64       // of a table
	maxCells          = 20_000   // of a table
	maxParagraphMarks = 4_000    // marks of emphasis, links and quotation between two empty lines
	maxDefined        = 1_000    // addresses and footnotes given apart from the text
	maxReach          = 1 << 20  // bytes of addresses behind the links of one text
	maxCoded          = 32 << 10 // bytes of a program text that is coloured
)

// Limits lists the bounds of this package for the guide.
var Limits = []source.Limit{
	{Of: "builds of a workshop", Most: fmt.Sprint(maxBuilds), Why: "Every build is read on every run; keep finished ones in a workshop of their own.", Rule: ruleLimit.Name},
	{Of: "files in one folder", Most: fmt.Sprint(maxNames), Why: "A folder of more is not a journal; the wrong folder may have been named.", Rule: ruleLimit.Name},
	{Of: "sittings of a build, and pictures that it names", Most: fmt.Sprintf("%d each", maxEntries), Why: "Pages that list them would be too long to read.", Rule: ruleLimit.Name},
	{Of: "one journal or rack file", Most: kibibytes(maxFile), Why: "A larger file is no text that somebody wrote.", Rule: ruleLimit.Name},
	{Of: "front matter, or one file of the rack", Most: kibibytes(maxFront), Why: "Long text belongs below the front matter; the rack may be split, as in lamps-old.yaml.", Rule: ruleLimit.Name},
	{Of: "keys and list entries of one file", Most: fmt.Sprint(maxKeys), Why: "Memory grows with them.", Rule: ruleLimit.Name},
	{Of: "keys of one file on lines of their own", Most: fmt.Sprint(maxBlockKeys), Why: "Time grows with their square; entries in braces on one line count less.", Rule: ruleLimit.Name},
	{Of: "keys and marks of one line, outside brackets", Most: fmt.Sprint(maxOnLine), Why: "Nobody writes so many, and time grows with their square.", Rule: ruleLimit.Name},
	{Of: "mappings and lists inside one another", Most: fmt.Sprint(maxDepth), Why: "The deepest that a journal needs is eight.", Rule: ruleLimit.Name},
	{Of: "YAML anchors, aliases, tags and --- lines", Most: fmt.Sprintf("none is read, %d are named", maxMarks), Why: "An alias can stand for more than the machine holds; values are written out.", Rule: ruleShape.Name},
	{Of: "the text below the front matter", Most: kibibytes(maxBody), Why: "A longer account is easier to read in several sittings.", Rule: ruleLimit.Name},
	{Of: "one line of text", Most: kibibytes(maxLine), Why: "Editors and version control struggle with longer ones.", Rule: ruleLimit.Name},
	{Of: "quotes and lists inside one another", Most: fmt.Sprint(maxQuotes), Why: "No page has room for deeper ones.", Rule: ruleLimit.Name},
	{Of: "columns of a table", Most: fmt.Sprint(maxColumns), Why: "No page has room for more.", Rule: ruleLimit.Name},
	{Of: "cells of a table", Most: fmt.Sprint(maxCells), Why: "Cells that a row leaves out are printed all the same.", Rule: ruleLimit.Name},
	{Of: "stars, brackets, quotes and backquotes between two empty lines", Most: fmt.Sprint(maxParagraphMarks), Why: "Time grows with their square.", Rule: ruleLimit.Name},
	{Of: "addresses and footnotes of one text that are given apart", Most: fmt.Sprint(maxDefined), Why: "Time grows with their square.", Rule: ruleLimit.Name},
	{Of: "addresses behind the links of one text", Most: kibibytes(maxReach), Why: "An address given apart is printed wherever it is named.", Rule: ruleLimit.Name},
}

func kibibytes(n int) string { return fmt.Sprintf("%d KiB", n>>10) }

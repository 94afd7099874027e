package bag

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

const declarationFile = "bagit.txt"

// declaration is what bagit.txt says.
type declaration struct {
	version  string
	encoding string
	strict   bool // version 1.0 or later
}

const declared = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"

var (
	versionForm  = regexp.MustCompile(`^BagIt-Version: ([0-9]+\.[0-9]+)$`)
	encodingForm = regexp.MustCompile(`^Tag-File-Character-Encoding: ([!-~]+)$`)
	looseVersion = regexp.MustCompile(`(?i)^BagIt-Version[ \t]*:[ \t]*([0-9]+\.[0-9]+)[ \t]*$`)
	looseCoding  = regexp.MustCompile(`(?i)^Tag-File-Character-Encoding[ \t]*:[ \t]*([!-~]+)[ \t]*$`)
)

// earlier are the versions before 1.0 that bags were made by.
var earlier = []string{"0.93", "0.94", "0.95", "0.96", "0.97"}

// parseDeclaration reads bagit.txt (section 2.1.1): exactly two lines, UTF-8
// without a byte-order mark. What can be made out of a faulty one is used, so
// that the rest of the bag can be looked at too.
func parseDeclaration(data []byte) (declaration, []Fault) {
	d := declaration{encoding: "UTF-8", strict: true}
	var faults []Fault
	wrong := func(line int, format string, args ...any) {
		faults = append(faults, Fault{Declaration, declarationFile, line, fmt.Sprintf(format, args...)})
	}
	text, err := decodeUTF8(data)
	if err != nil {
		faults = append(faults, Fault{Kind: Encoding, File: declarationFile, Says: err.Error()})
		text = strings.ToValidUTF8(strings.TrimPrefix(string(data), "\ufeff"), "\ufffd")
	}
	var lines [2]string
	count := 0
	for n, line := range eachLine(text) {
		if count = n; n <= len(lines) {
			lines[n-1] = line
		}
	}
	if count != len(lines) {
		wrong(0, "has %d lines, not the two of a bag declaration", count)
	}
	version, exact := find(lines[0], versionForm, looseVersion)
	if !exact {
		wrong(1, "is not of the form \"BagIt-Version: 1.0\"")
	}
	coding, exact := find(lines[1], encodingForm, looseCoding)
	if !exact {
		wrong(2, "is not of the form \"Tag-File-Character-Encoding: UTF-8\"")
	}
	if coding != "" {
		d.encoding = coding
	}
	d.version = version
	d.strict = !slices.Contains(earlier, version)
	if version != "" && d.strict && version != "1.0" {
		wrong(1, "version %s of BagIt is not known to this program; checked by the rules of 1.0", version)
	}
	return d, faults
}

func find(line string, exact, loose *regexp.Regexp) (value string, inForm bool) {
	if m := exact.FindStringSubmatch(line); m != nil {
		return m[1], true
	}
	if m := loose.FindStringSubmatch(line); m != nil {
		return m[1], false
	}
	return "", false
}

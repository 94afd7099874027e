package bag

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"iter"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// eachLine goes through the lines of a tag file, counted from 1. LF, CR and CRLF
// each end a line (section 2.3).
func eachLine(text string) iter.Seq2[int, string] {
	return func(yield func(int, string) bool) {
		for n := 1; text != ""; n++ {
			end := strings.IndexAny(text, "\r\n")
			if end < 0 {
				yield(n, text)
				return
			}
			if !yield(n, text[:end]) {
				return
			}
			if strings.HasPrefix(text[end:], "\r\n") {
				end++
			}
			text = text[end+1:]
		}
	}
}

// isEnded reports whether the last line of a tag file is ended.
func isEnded(text string) bool {
	return text == "" || strings.HasSuffix(text, "\n") || strings.HasSuffix(text, "\r")
}

// maxFaulty is how many faulty lines of one tag file are told: a file of another
// kind would give as many as it has lines.
const maxFaulty = 1000

// lineFaults collects the faults of one tag file.
type lineFaults struct {
	file string
	all  []Fault
}

// add reports whether the rest of the file is worth looking at.
func (l *lineFaults) add(kind Kind, line int, says string) bool {
	if len(l.all) == maxFaulty {
		l.all = append(l.all, Fault{Limit, l.file, line, "has too many faults; the rest of the file is not looked at"})
		return false
	}
	l.all = append(l.all, Fault{kind, l.file, line, says})
	return true
}

// decode turns a tag file into text by the encoding that bagit.txt names. UTF-8
// and the few others that old bags use are known.
func decode(data []byte, encoding string) (string, error) {
	switch strings.ToUpper(encoding) {
	case "UTF-8":
		return decodeUTF8(data)
	case "US-ASCII", "ASCII":
		for i, c := range data {
			if c >= utf8.RuneSelf {
				return "", fmt.Errorf("byte %d is not ASCII, the declared encoding", i+1)
			}
		}
		return string(data), nil
	case "ISO-8859-1", "LATIN1":
		var b strings.Builder
		for _, c := range data {
			b.WriteRune(rune(c)) // Latin-1 is the first 256 code points
		}
		return b.String(), nil
	case "UTF-16":
		return decodeUTF16Marked(data)
	case "UTF-16BE":
		return decodeUTF16(data, binary.BigEndian)
	case "UTF-16LE":
		return decodeUTF16(data, binary.LittleEndian)
	}
	return "", fmt.Errorf("the declared encoding %q is not known to this program", encoding)
}

func decodeUTF8(data []byte) (string, error) {
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		return "", fmt.Errorf("begins with a byte-order mark, which UTF-8 tag files must not")
	}
	if !utf8.Valid(data) {
		return "", fmt.Errorf("byte %d is not UTF-8", firstInvalid(data)+1)
	}
	return string(data), nil
}

func firstInvalid(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return len(data)
}

// decodeUTF16Marked reads UTF-16 with the byte-order mark that tells the order;
// without one it is big-endian (RFC 2781 section 4.3).
func decodeUTF16Marked(data []byte) (string, error) {
	if bytes.HasPrefix(data, []byte{0xFF, 0xFE}) {
		return decodeUTF16(data[2:], binary.LittleEndian)
	}
	return decodeUTF16(bytes.TrimPrefix(data, []byte{0xFE, 0xFF}), binary.BigEndian)
}

func decodeUTF16(data []byte, order binary.ByteOrder) (string, error) {
	if len(data)%2 != 0 {
		return "", fmt.Errorf("has an odd number of bytes, which UTF-16 cannot")
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	text := string(utf16.Decode(units))
	if strings.ContainsRune(text, utf8.RuneError) {
		return "", fmt.Errorf("is not UTF-16, the declared encoding")
	}
	return text, nil
}

// encodePath writes a path for a manifest: CR, LF and the percent sign, and
// only those, are percent-encoded (section 2.1.3).
func encodePath(p string) string { return pathEncoder.Replace(p) }

var pathEncoder = strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A")

// decodePath undoes encodePath. From version 1.0 on every percent sign must be
// part of one of the three codes; before, it was an ordinary character.
func decodePath(p string, strict bool) (string, error) {
	if !strings.Contains(p, "%") {
		return p, nil
	}
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(p, "%")
		b.WriteString(before)
		if !found {
			return b.String(), nil
		}
		code := ""
		if len(rest) >= 2 {
			code = strings.ToUpper(rest[:2])
		}
		switch {
		case code == "0D":
			b.WriteByte('\r')
		case code == "0A":
			b.WriteByte('\n')
		case code == "25" && strict:
			b.WriteByte('%')
		case strict:
			return "", fmt.Errorf("has a percent sign that is not one of the codes %%0D, %%0A and %%25")
		default:
			b.WriteByte('%')
			p = rest
			continue
		}
		p = rest[2:]
	}
}

// leadsOut reports why a path in a bag might be taken for one outside it on
// some system, or is not in its plain form; "" when it is safe (section 5.1).
func leadsOut(p string) string {
	switch {
	case p == "":
		return "is empty"
	case strings.ContainsRune(p, 0):
		return "has a NUL in it"
	case strings.HasPrefix(p, "/") || strings.HasPrefix(p, `\`):
		return "is absolute"
	case strings.HasPrefix(p, "~"):
		return "begins with ~, a home folder on some systems"
	case len(p) >= 2 && p[1] == ':' && isLetter(p[0]):
		return "begins with a drive letter"
	}
	for _, name := range strings.FieldsFunc(p, func(r rune) bool { return r == '/' || r == '\\' }) {
		if name == ".." {
			return "leads upwards with .."
		}
	}
	for name := range strings.SplitSeq(p, "/") {
		if name == "" || name == "." {
			return "has an empty or . part in it"
		}
	}
	return ""
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

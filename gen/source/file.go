// Package source holds texts, the places in them, values that know where they
// were written, and findings: what the checks have to say about a place. It also
// knows which file names other systems cannot store or take for one.
//
// Inside, places are byte offsets into a file; they become a line and a column
// only when a finding is printed. Lines and columns count from 1, and columns
// count characters (Unicode code points), so that an editor's cursor agrees.
package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// File is a text and the name it is known by: its path in the workshop, with
// forward slashes.
type File struct {
	Name string
	Text string

	lines []int // byte offset at which each line begins
}

// NewFile returns a file of the given name and text.
func NewFile(name, text string) *File {
	f := &File{Name: name, Text: text, lines: make([]int, 1, strings.Count(text, "\n")+1)}
	for i := 0; i < len(text); i++ {
		if text[i] == '\n' {
			f.lines = append(f.lines, i+1)
		}
	}
	return f
}

// At returns the span of length bytes from offset.
func (f *File) At(offset, length int) Span {
	offset = min(max(offset, 0), len(f.Text))
	return Span{File: f, Start: offset, End: min(max(offset+length, offset), len(f.Text))}
}

// Whole returns the span at the top of the file that stands for all of it.
func (f *File) Whole() Span { return Span{File: f} }

// Position is a place as people and editors count it, both from 1.
type Position struct {
	Line, Column int
}

// Position returns the line and column of a byte offset.
func (f *File) Position(offset int) Position {
	offset = min(max(offset, 0), len(f.Text))
	i := sort.SearchInts(f.lines, offset+1) - 1
	return Position{Line: i + 1, Column: utf8.RuneCountInString(f.Text[f.lines[i]:offset]) + 1}
}

// Offset returns the byte offset of a line and column, both from 1.
func (f *File) Offset(line, column int) int {
	if line < 1 || line > len(f.lines) {
		return len(f.Text)
	}
	offset := f.lines[line-1]
	for ; column > 1 && offset < len(f.Text) && f.Text[offset] != '\n'; column-- {
		_, size := utf8.DecodeRuneInString(f.Text[offset:])
		offset += size
	}
	return offset
}

// Line returns the text of a line, counted from 1, without its line ending.
func (f *File) Line(line int) string {
	if line < 1 || line > len(f.lines) {
		return ""
	}
	rest := f.Text[f.lines[line-1]:]
	if end := strings.IndexByte(rest, '\n'); end >= 0 {
		rest = rest[:end]
	}
	return strings.TrimSuffix(rest, "\r")
}

// Span is a stretch of bytes in a file. The zero Span stands nowhere: it marks
// what was assumed and never written.
type Span struct {
	File       *File
	Start, End int
}

// Known reports whether the span stands in a file.
func (s Span) Known() bool { return s.File != nil }

// Text returns what is written there.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return s.File.Text[s.Start:s.End]
}

// Position returns the line and column at which the span begins.
func (s Span) Position() Position {
	if s.File == nil {
		return Position{}
	}
	return s.File.Position(s.Start)
}

// Name returns the name of the span's file, or "" for the zero Span.
func (s Span) Name() string {
	if s.File == nil {
		return ""
	}
	return s.File.Name
}

// Within returns the part of the span that begins offset bytes into it and is
// length bytes long, clipped to the span.
func (s Span) Within(offset, length int) Span {
	start := min(max(s.Start+offset, s.Start), s.End)
	return Span{File: s.File, Start: start, End: min(max(start+length, start), s.End)}
}

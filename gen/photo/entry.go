package photo

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"spruelight/gen/source"
)

// An entry of the cache is one file: a line that names the form, a line with
// the SHA-256 of the next, a line of JSON that describes what was made, and the
// bytes of the renditions one after the other.
const entryForm = "spruelight photo cache entry 2"

// description is the line of JSON in an entry.
type description struct {
	Info       Info
	Content    string
	Colour     string
	Blur       []byte
	BlurSize   Size
	Notes      []note
	Renditions []stored
}

// note is a Problem of severity note, as stored: its message is a form with its
// values printed, for verbs that take texts.
type note struct {
	Rule, Form    string
	Args          []string
	Remedy, Cause string
}

// noteOf returns a problem as it is stored.
func noteOf(p *Problem) note {
	n := note{Rule: p.Rule.Name, Form: p.Says.Form, Remedy: p.Remedy.Form}
	for _, v := range p.Says.Args {
		n.Args = append(n.Args, fmt.Sprint(v))
	}
	if p.aloud {
		n.Cause = p.Cause.Error()
	}
	return n
}

// problem returns a stored note as it was.
func (n note) problem() *Problem {
	p := &Problem{Rule: ruleNamed(n.Rule), Says: source.Say(n.Form, source.Anys(n.Args)...), Remedy: source.Word(n.Remedy)}
	if n.Cause != "" {
		p.because(errors.New(n.Cause))
	}
	return p
}

// stored is a rendition as the description lists it; its bytes lie at Offset
// from the end of the description.
type stored struct {
	Size   Size
	Format Format
	Offset int64
	Bytes  int64
	Hash   string
}

var errDamagedEntry = errors.New("damaged cache entry")

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// pack writes an entry.
func pack(set Set, renditions []made) ([]byte, error) {
	d := description{Info: set.Info, Content: set.Content, Colour: set.Placeholder.Colour,
		Blur: set.Placeholder.Blur, BlurSize: set.Placeholder.Size}
	for _, p := range set.Notes {
		d.Notes = append(d.Notes, noteOf(p))
	}
	offset := int64(0)
	for _, m := range renditions {
		d.Renditions = append(d.Renditions, stored{m.size, m.format, offset, int64(len(m.bytes)), hash(m.bytes)})
		offset += int64(len(m.bytes))
	}
	line, err := json.Marshal(d)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n%s\n%s\n", entryForm, hash(line), line)
	for _, m := range renditions {
		b.Write(m.bytes)
	}
	return b.Bytes(), nil
}

// maxDescription bounds what is read of an entry before its checksum is known.
const maxDescription = 1 << 20

// unpack reads the description of an entry of the given size and returns it
// with the offset at which the renditions begin.
func unpack(r io.Reader, size int64) (description, int64, error) {
	lines := bufio.NewReaderSize(io.LimitReader(r, maxDescription), 8<<10)
	form, err1 := lines.ReadString('\n')
	sum, err2 := lines.ReadString('\n')
	line, err3 := lines.ReadBytes('\n')
	if errors.Join(err1, err2, err3) != nil || form != entryForm+"\n" || sum != hash(bytes.TrimSuffix(line, []byte("\n")))+"\n" {
		return description{}, 0, errDamagedEntry
	}
	var d description
	if err := json.Unmarshal(line, &d); err != nil {
		return d, 0, errDamagedEntry
	}
	begin := int64(len(form) + len(sum) + len(line))
	end := begin
	for _, r := range d.Renditions {
		end += r.Bytes
	}
	if end != size {
		return d, 0, errDamagedEntry
	}
	return d, begin, nil
}

// set returns the entry as the caller sees it, without its renditions.
func (d description) set() Set {
	s := Set{Info: d.Info, Content: d.Content, Reused: true,
		Placeholder: Placeholder{Colour: d.Colour, Blur: d.Blur, Size: d.BlurSize}}
	for _, n := range d.Notes {
		s.Notes = append(s.Notes, n.problem())
	}
	return s
}

func ruleNamed(name string) *source.Rule {
	for _, r := range Rules {
		if r.Name == name {
			return r
		}
	}
	return &source.Rule{Name: name}
}

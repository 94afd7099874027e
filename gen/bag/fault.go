package bag

import (
	"cmp"
	"fmt"
	"slices"
)

// Kind names a class of faults, for programs.
type Kind string

const (
	Container   Kind = "container"   // the zip is damaged, or there is no bag in it
	Declaration Kind = "declaration" // bagit.txt (section 2.1.1)
	Payload     Kind = "payload"     // no payload folder (section 2.1.2)
	Manifest    Kind = "manifest"    // name, form or content of a manifest (sections 2.1.3, 2.2.1)
	Encoding    Kind = "encoding"    // a tag file's characters (section 2.3)
	Metadata    Kind = "metadata"    // form of bag-info.txt (section 2.2.2)
	Oxum        Kind = "oxum"        // Payload-Oxum does not fit (section 2.2.2)
	Fetch       Kind = "fetch"       // form of fetch.txt, or a file that is still to be fetched (section 2.2.3)
	Missing     Kind = "missing"     // listed, but not there
	Extra       Kind = "extra"       // there, but not listed
	Duplicate   Kind = "duplicate"   // listed or stored twice
	Outside     Kind = "outside"     // a path that leads out of the bag (section 5.1)
	Irregular   Kind = "irregular"   // a link or device in the place of a file
	Limit       Kind = "limit"       // too large to be read safely
	Changed     Kind = "changed"     // the checksum does not agree
	Algorithm   Kind = "algorithm"   // a checksum that this program does not know (section 2.4)
	Advice      Kind = "advice"      // what the standard recommends and the bag does not do
)

// spoils reports whether a fault of this kind makes a bag incomplete, not only
// invalid (section 3).
func (k Kind) spoils() bool { return k != Changed && k != Algorithm && k != Advice }

// Fault is one thing that is wrong with a bag.
type Fault struct {
	Kind Kind   `json:"kind"`
	File string `json:"file"`           // path in the bag; "" for the bag as a whole
	Line int    `json:"line,omitempty"` // of a tag file, from 1; 0 where none applies
	Says string `json:"says"`           // lower case, no full stop
}

// String returns the fault as one line: file:line: what is wrong.
func (f Fault) String() string {
	switch {
	case f.File == "":
		return f.Says
	case f.Line > 0:
		return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.Says)
	}
	return f.File + ": " + f.Says
}

// Report is what a check found.
type Report struct {
	Version    string   `json:"version"`    // of BagIt, as declared
	Algorithms []string `json:"algorithms"` // of the payload manifests, in order of name
	Files      int      `json:"files"`      // payload files
	Bytes      int64    `json:"bytes"`      // of payload
	Info       []Tag    `json:"info"`       // what bag-info.txt says, in its order
	Complete   bool     `json:"complete"`   // all that is required and listed is there and in form
	Valid      bool     `json:"valid"`      // complete, and every checksum agrees
	Faults     []Fault  `json:"faults"`     // what is against the standard, in order of file and line
	Advice     []Fault  `json:"advice"`     // what it only recommends
	Left       []string `json:"left"`       // of Restore: files whose names cannot be stored safely, each with the reason
}

// settle sorts the faults and draws the verdict from them.
func (r *Report) settle(all []Fault) {
	slices.SortFunc(all, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Says, b.Says))
	})
	r.Complete, r.Valid = true, true
	for _, f := range slices.Compact(all) {
		if f.Kind == Advice {
			r.Advice = append(r.Advice, f)
			continue
		}
		r.Faults = append(r.Faults, f)
		r.Valid = false
		r.Complete = r.Complete && !f.Kind.spoils()
	}
	r.Faults, r.Advice = atMost(r.Faults), atMost(r.Advice)
}

// atMost keeps a report readable where a large bag has lost everything.
func atMost(faults []Fault) []Fault {
	const most = 10_000
	if len(faults) <= most {
		return faults
	}
	return append(faults[:most:most], Fault{Kind: Limit, Says: fmt.Sprintf("and %d more", len(faults)-most)})
}

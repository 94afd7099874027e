package output

import (
	"errors"
	"io/fs"
	"os"
	"strings"
)

// Refusal says that something was not written, or not wholly cleared away, and
// what can be done about it. The place is named first.
type Refusal struct {
	Path   string // file or folder that it is about
	Says   string // what is the matter, lower case, no full stop
	Remedy string // what to do, may be empty
	Err    error  // the system's error, may be nil
}

// Error returns path, matter, the system's words and the remedy in one line.
func (r *Refusal) Error() string {
	var b strings.Builder
	b.WriteString(r.Path + ": " + r.Says)
	if r.Err != nil {
		b.WriteString(": " + r.Err.Error())
	}
	if r.Remedy != "" {
		b.WriteString("; " + r.Remedy)
	}
	return b.String()
}

// Unwrap returns the system's error.
func (r *Refusal) Unwrap() error { return r.Err }

// failed wraps an error of the file system with what was being done and, for
// the usual causes, the way out. Errors that were explained already pass.
func failed(path, doing string, err error) error {
	var explained *Refusal
	if err == nil || errors.As(err, &explained) {
		return err
	}
	says, remedy := doing, ""
	switch {
	case isDiskFull(err):
		says, remedy = doing+": the drive is full", "free some space and run again; what was there before is untouched"
	case isReadOnly(err):
		says, remedy = doing+": the drive is read-only", "choose another folder with --out"
	case errors.Is(err, fs.ErrPermission):
		says, remedy = doing+": not permitted", "change the permissions of that folder, or choose another with --out"
	case errors.Is(err, fs.ErrNotExist):
		says, remedy = doing+": it has vanished meanwhile", "run again"
	}
	return &Refusal{Path: path, Says: says, Remedy: remedy, Err: bare(err)}
}

// Within says of a file that has its place, where nobody can choose another by
// --out, what to do in place of that: elsewhere is a way out in words.
func Within(err error, elsewhere string) error {
	var r *Refusal
	switch {
	case !errors.As(err, &r):
		return err
	case isReadOnly(r.Err):
		r.Remedy = "make the drive writable, or " + elsewhere
	case errors.Is(r.Err, fs.ErrPermission):
		r.Remedy = "change the permissions of that folder, or " + elsewhere
	}
	return err
}

// bare takes off what a system call adds to its error, its name and paths,
// which the Refusal says in plainer words.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}

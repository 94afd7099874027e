// Package kept remembers a run of assemble between runs, so that one that would
// only repeat it is not made.
package kept

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"spruelight/gen"
	"time"
)

// Repeat tells whether a run would only repeat the last one: the same program
// with the same flags, over a workshop and a site in which no file has changed.
// Then what the last run said can be said again, and nothing has to be read.
//
// It is safe because every doubt means a run. A file counts as unchanged when
// name, size, kind, inode, time of writing and time of change are those of the
// last run; the time of change cannot be set by hand. Times that are as young as
// the run itself prove nothing, since a clock counts in steps, so that a run
// which met one is not remembered. A run that fails, or that is cut off, is not
// remembered either: what was remembered is forgotten before it begins.
type Repeat struct {
	Folder   string   // where runs are remembered
	Workshop string   // absolute paths
	Site     string   //
	Skip     []string // folders in the workshop that no run reads
	Program  string   // whatever else decides what is made: the program itself, its flags
	Workers  int
}

// Said is what a run had to say.
type Said struct {
	Counts        gen.Counts
	Files         int // of the site
	Plain, Colour string
	JSON          []byte
	Hidden        []string
}

// remembered is a run as it is written down.
type remembered struct {
	Form           int
	Program        string
	Workshop, Site string    // digests of their files
	At             time.Time // when it was written down
	Until          time.Time // when clocks, embargoes or the day change what is made
	Said           Said
}

// rememberedForm changes when the meaning of what is written down does.
const rememberedForm = 1

// path is where a run is remembered: by workshop and site, so that several
// sites of one workshop do not forget each other.
func (p *Repeat) path() string {
	sum := sha256.Sum256([]byte(p.Workshop + "\x00" + p.Site))
	return filepath.Join(p.Folder, "run-"+hex.EncodeToString(sum[:8])+".json")
}

// Recall returns what the last run said where a run at a moment would only
// repeat it.
func (p *Repeat) Recall(ctx context.Context, now time.Time) (*Said, bool) {
	text, err := os.ReadFile(p.path())
	if err != nil {
		return nil, false
	}
	var r remembered
	if json.Unmarshal(text, &r) != nil || r.Form != rememberedForm || r.Program != p.Program || now.Before(r.At) || !now.Before(r.Until) {
		return nil, false
	}
	site, err := list(ctx, p.Workers, p.Site)
	if err != nil || site.digest() != r.Site {
		return nil, false
	}
	workshop, err := list(ctx, p.Workers, p.Workshop, p.Skip...)
	if err != nil || workshop.digest() != r.Workshop {
		return nil, false
	}
	return &r.Said, true
}

// Begin forgets the last run and looks at the workshop before the next one
// reads it. What it returns is for Keep.
func (p *Repeat) Begin(ctx context.Context) *Begun {
	os.Remove(p.path())
	b := &Begun{at: time.Now()}
	b.workshop, b.err = list(ctx, p.Workers, p.Workshop, p.Skip...)
	return b
}

// Begun is a workshop as it was when a run began.
type Begun struct {
	at       time.Time
	workshop *listing
	err      error
}

// Steps of the clocks by which file systems time their files.
const (
	coarseStep = 2 * time.Second       // FAT
	fineStep   = 20 * time.Millisecond // twice the coarsest tick that Linux is built with
)

// Keep remembers a run that has been written, until the moment at which its
// result would change by itself. That it cannot be remembered is no error: the
// next run is made in full.
func (p *Repeat) Keep(ctx context.Context, b *Begun, until time.Time, said Said) {
	now := time.Now()
	if b.err != nil || !now.Before(until) || !b.workshop.newest.Before(b.at.Add(-coarseStep)) {
		return
	}
	workshop, err := list(ctx, p.Workers, p.Workshop, p.Skip...)
	if err != nil || workshop.digest() != b.workshop.digest() {
		return
	}
	site, err := list(ctx, p.Workers, p.Site)
	if err != nil || !site.settled(now) {
		return
	}
	text, err := json.Marshal(remembered{rememberedForm, p.Program, workshop.digest(), site.digest(), b.at, until, said})
	if err != nil {
		return
	}
	fresh := p.path() + ".new"
	if os.WriteFile(fresh, text, 0o644) == nil {
		os.Rename(fresh, p.path())
	}
}

// settled waits for the step of the clock to end in which the newest file was
// written, and reports whether it soon did.
func (l *listing) settled(now time.Time) bool {
	step := fineStep
	if l.newest.Nanosecond()%int(10*time.Millisecond) == 0 {
		step = coarseStep
	}
	left := l.newest.Add(step).Sub(now)
	if left > fineStep {
		return false
	}
	time.Sleep(max(left, 0))
	return true
}

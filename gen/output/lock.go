package output

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/gofrs/flock"
)

// Holder says which run holds a lock.
type Holder struct {
	PID     int       `json:"pid"`
	Host    string    `json:"host"`
	Started time.Time `json:"started"`
}

// String names the run for a message.
func (h Holder) String() string {
	if h.PID == 0 {
		return "another run"
	}
	return fmt.Sprintf("process %d on %s, at it since %s", h.PID, h.Host, h.Started.Format("2006-01-02 15:04:05"))
}

const (
	lockPurpose = "lock"

	usualWait = time.Minute
	lookAgain = 50 * time.Millisecond
)

// waiting is how a lock is waited for.
type waiting struct {
	atMost time.Duration // 0 means usualWait, negative not at all
	notice func(Holder)  // called once when there is something to wait for; may be nil
}

// lock takes the lock of one target, a file beside it, and returns what gives
// it back. A run that dies loses its lock at once; the file it leaves is
// harmless.
func lock(ctx context.Context, target string, wait waiting) (release func(), err error) {
	path := beside(target, lockPurpose)
	atMost := wait.atMost
	if atMost == 0 {
		atMost = usualWait
	}
	until := time.Now().Add(atMost)
	for noticed := false; ; noticed = true {
		fl, err := tryLock(path)
		if err != nil {
			return nil, failed(filepath.Dir(target), "cannot prepare "+filepath.Base(target)+" in this folder", err)
		}
		if fl != nil {
			writeHolder(path)
			return func() { unlock(fl, path) }, nil
		}
		if !noticed && wait.notice != nil {
			wait.notice(readHolder(path))
		}
		if !time.Now().Before(until) {
			return nil, &Refusal{Path: target, Says: "is being written by " + readHolder(path).String(),
				Remedy: "wait until it has ended, then run again"}
		}
		select {
		case <-ctx.Done():
			return nil, fmt.Errorf("%s: waiting for %s: %w", target, readHolder(path), context.Cause(ctx))
		case <-time.After(lookAgain):
		}
	}
}

// tryLock returns nil without an error where another run holds the lock.
func tryLock(path string) (*flock.Flock, error) {
	fl := flock.New(path, flock.SetFlag(os.O_CREATE|os.O_RDWR), flock.SetPermissions(0o644))
	ok, err := fl.TryLock()
	if err != nil {
		return nil, err
	}
	if !ok {
		fl.Close()
		return nil, nil
	}
	// The run before us removes the file as it leaves: a lock on a file that
	// no longer bears the name keeps nobody out.
	held, err := fl.Stat()
	if now, e := os.Stat(path); err != nil || e != nil || !os.SameFile(held, now) {
		fl.Close()
		return nil, nil
	}
	return fl, nil
}

// unlock removes the files while the lock is still held, and lets go. Windows
// may refuse to remove an open file; there it is safe afterwards, since it also
// refuses while another run has it open.
func unlock(fl *flock.Flock, path string) {
	os.Remove(holderFile(path))
	err := os.Remove(path)
	fl.Close()
	if err != nil && runtime.GOOS == "windows" {
		os.Remove(path)
	}
}

// The holder stands in a file of its own: on Windows the locked one cannot be
// read by others.
func holderFile(lock string) string { return lock + "-holder" }

func writeHolder(path string) {
	host, _ := os.Hostname()
	data, err := json.Marshal(Holder{PID: os.Getpid(), Host: host, Started: time.Now().Round(time.Second)})
	if err == nil {
		// Only for messages: a run goes on without it.
		_ = os.WriteFile(holderFile(path), append(data, '\n'), 0o644)
	}
}

func readHolder(path string) Holder {
	var h Holder
	if data, err := os.ReadFile(holderFile(path)); err == nil {
		_ = json.Unmarshal(data, &h) // half written counts as unknown
	}
	return h
}

// beside returns the hidden name next to target for one of our purposes.
func beside(target, purpose string) string {
	return filepath.Join(filepath.Dir(target), "."+filepath.Base(target)+"."+purpose)
}

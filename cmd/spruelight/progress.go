package main

import (
	"os"
	"sync"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// progress shows how far a run is, by a bar on a terminal; elsewhere it would
// only be noise in a log.
type progress struct {
	mu   sync.Mutex
	bar  *progressbar.ProgressBar
	step string
	live bool
}

func newProgress(c *common) *progress {
	return &progress{live: term.IsTerminal(int(os.Stderr.Fd())) && !c.quiet && !c.json}
}

// report is told about every photo and page; it may be called by several workers.
func (p *progress) report(step string, done, total int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if !p.live {
		return
	}
	if step != p.step {
		p.step = step
		p.bar = progressbar.NewOptions(total, progressbar.OptionSetDescription(step), progressbar.OptionSetWriter(os.Stderr),
			progressbar.OptionShowCount(), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(30))
	}
	p.bar.Add(1)
}

package main

import (
	"fmt"
	"os"
	"sync"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// progress shows how far a run is: a bar on a terminal, else a line a step.
type progress struct {
	mu   sync.Mutex
	bar  *progressbar.ProgressBar
	step string
	live bool
	mute bool
}

func newProgress(c *common) *progress {
	return &progress{live: term.IsTerminal(int(os.Stderr.Fd())), mute: c.quiet || c.json}
}

// report is told about every photo and page; it may be called by several workers.
func (p *progress) report(step string, done, total int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.mute {
		return
	}
	if step != p.step {
		p.step = step
		if p.live {
			p.bar = progressbar.NewOptions(total, progressbar.OptionSetDescription(step), progressbar.OptionSetWriter(os.Stderr),
				progressbar.OptionShowCount(), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(30))
		} else {
			fmt.Fprintf(os.Stderr, "%s: %d\n", step, total)
		}
	}
	if p.live {
		p.bar.Add(1)
	}
}

package commands

import (
	"fmt"
	"io"
	"time"

	"boxbook/report"
	"boxbook/report/display"
)

// progress tells a person at a terminal how far long work has come: nothing for
// work that is quick, nothing in a pipe.
type progress struct {
	w       io.Writer // nil: nobody is told
	doing   string
	now     func() time.Time
	started time.Time
	shown   time.Time
	drawn   bool
}

const (
	// progressAfter is how long work may take before it is told of, progressEvery
	// how often.
	progressAfter = 400 * time.Millisecond
	progressEvery = 100 * time.Millisecond
)

// progressRoom is what stands behind the words, "  100%", and a column that
// keeps a terminal from going on to the next line.
const progressRoom = len("  100%") + 1

// newProgress tells on standard error, if it is a terminal.
func (a *app) newProgress(doing string) *progress {
	p := &progress{doing: doing, now: a.now, started: a.now()}
	if room := a.errWidth - progressRoom; room > 0 {
		p.doing = report.Shorten(doing, room)
	}
	if a.errTerminal {
		p.w = a.err
	}
	return p
}

// step says that done of total parts are through.
func (p *progress) step(done, total int) {
	if p.w == nil || total == 0 {
		return
	}
	now := p.now()
	if now.Sub(p.started) < progressAfter || now.Sub(p.shown) < progressEvery {
		return
	}
	p.shown, p.drawn = now, true
	fmt.Fprintf(p.w, "\r%s  %3d%%", p.doing, 100*done/total)
}

// part tells of a part of the work, from one percent of the whole to another.
func (p *progress) part(from, to int) func(done, total int) {
	return func(done, total int) { p.step(from*total+(to-from)*done, 100*total) }
}

// end takes the line away again.
func (p *progress) end() {
	if p.drawn {
		p.drawn = false
		fmt.Fprintf(p.w, "\r%*s\r", display.Width(p.doing)+len("  100%"), "")
	}
}

package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/solver"
)

// progress shows on one line of a terminal how far a search has come, even while
// the solver has nothing to say. Where nobody is looking it is silent.
type progress struct {
	w     io.Writer // nil: silent
	shown int       // width of what stands on the line
	stop  chan struct{}
	over  sync.WaitGroup

	mu   sync.Mutex
	what string           // is done at present
	last *solver.Progress // nil until the solver has told something of that
}

// newProgress starts showing: what is done is a search until now says otherwise. done has to be called in the end.
func newProgress(w io.Writer) *progress {
	p := &progress{stop: make(chan struct{}), what: "looking for the cheapest set"}
	if !terminal(w) {
		return p
	}
	p.w = w
	began := time.Now()
	p.over.Go(func() {
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		for {
			select {
			case <-p.stop:
				return
			case <-tick.C:
				p.write(p.text(time.Since(began)))
			}
		}
	})
	return p
}

// terminal says whether somebody may be looking at w.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// now says what is done from here on.
func (p *progress) now(what string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.what, p.last = what, nil
}

// told is given to the solver, which calls it now and then.
func (p *progress) told(now solver.Progress) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.last = &now
}

// settings are those of a search that tells of itself on the line.
func (p *progress) settings() solver.Settings { return solver.Settings{Progress: p.told} }

func (p *progress) text(elapsed time.Duration) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	text := fmt.Sprintf("%s, %d s", p.what, int(elapsed.Seconds()))
	if p.last == nil {
		return text
	}
	if !p.last.Has {
		return text + ": nothing in hand yet"
	}
	return text + ": in hand, at most " + catalog.FormatMoney(catalog.Cents(p.last.Total-p.last.Bound)) + " above the best"
}

// done stops showing and clears the line.
func (p *progress) done() {
	close(p.stop)
	p.over.Wait()
	if p.shown > 0 {
		p.write("")
		fmt.Fprint(p.w, "\r")
	}
}

func (p *progress) write(text string) {
	width := report.Width(text)
	fmt.Fprint(p.w, "\r", text, strings.Repeat(" ", max(0, p.shown-width)))
	p.shown = width
}

package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/solver"
)

// progress shows on one line of a terminal how far a search has come. Before
// half a second it is quiet, and so it is where nobody is looking.
type progress struct {
	w     io.Writer // nil: quiet
	shown int       // width of what stands on the line
}

func newProgress(w io.Writer) *progress {
	if f, ok := w.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			return &progress{w: w}
		}
	}
	return &progress{}
}

// show is given to the solver.
func (p *progress) show(now solver.Progress) {
	if p.w == nil || now.Elapsed < time.Second/2 {
		return
	}
	text := fmt.Sprintf("searching, %d s: nothing costs less than %s",
		int(now.Elapsed.Seconds()), catalog.FormatMoney(catalog.Cents(now.Bound)))
	if now.Has {
		text += ", in hand " + catalog.FormatMoney(catalog.Cents(now.Total))
	}
	p.write(text)
}

// done clears the line.
func (p *progress) done() {
	if p.w != nil && p.shown > 0 {
		p.write("")
		fmt.Fprint(p.w, "\r")
	}
}

func (p *progress) write(text string) {
	width := report.Width(text)
	fmt.Fprint(p.w, "\r", text, strings.Repeat(" ", max(0, p.shown-width)))
	p.shown = width
}

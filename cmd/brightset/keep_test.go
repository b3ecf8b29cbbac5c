package main

import (
	"context"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"brightset/catalog"
	"brightset/testdata/campaign"
)

// endsAfter is a context that ends when it has been asked about so often, as if somebody
// pressed Ctrl-C, or a time limit ran out, just then.
type endsAfter struct {
	context.Context
	why   error
	mutex sync.Mutex
	left  int
	ended chan struct{}
}

func endAfter(n int, why error) *endsAfter {
	return &endsAfter{Context: context.Background(), why: why, left: n, ended: make(chan struct{})}
}

func (e *endsAfter) asked() bool {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	if e.left--; e.left == 0 {
		close(e.ended)
	}
	return e.left <= 0
}

func (e *endsAfter) Done() <-chan struct{} {
	e.asked()
	return e.ended
}

func (e *endsAfter) Err() error {
	if e.asked() {
		return e.why
	}
	return nil
}

func (e *endsAfter) over() bool {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	return e.left <= 0
}

// endingAt gives every command a context that ends after so many questions.
func endingAt(t *testing.T, n int, why error) *endsAfter {
	t.Helper()
	ctx := endAfter(n, why)
	was := interruptible
	interruptible = func() (context.Context, func()) { return ctx, func() {} }
	t.Cleanup(func() { interruptible = was })
	return ctx
}

// later is the next question to be interrupted at: in everyday runs few are tried.
func later(n int) int {
	if campaign.Long() {
		return n*5/4 + 1
	}
	return n * 4
}

// TestInterruptedKeepsNothing: wherever Ctrl-C is pressed while a plan is looked for that
// is to be kept, in between or while it is shown, nothing is kept, and that is said; else
// the plan is.
func TestInterruptedKeepsNothing(t *testing.T) {
	demo := func(t *testing.T) []string { return []string{filepath.Join(demoCopy(t), "job.toml")} }
	three := func(t *testing.T) []string {
		_, jobs := threeJobs(t)
		return jobs
	}
	for name, c := range map[string]struct {
		args []string
		jobs func(*testing.T) []string
	}{
		"plan":          {[]string{"plan", "--full"}, demo},
		"best":          {[]string{"plan", "--full", "--best"}, demo},
		"others":        {[]string{"plan", "--others", "1"}, demo},
		"orders":        {[]string{"orders"}, demo},
		"jobs together": {[]string{"plan"}, three},
	} {
		t.Run(name, func(t *testing.T) {
			interruptions, shown := 0, 0
			for n := 1; ; n = later(n) {
				jobs := c.jobs(t)
				ctx := endingAt(t, n, context.Canceled)
				code, out, errs := brightset(append(append(c.args[:len(c.args):len(c.args)], "--keep"), jobs...)...)
				journals, _ := filepath.Glob(filepath.Join(filepath.Dir(jobs[0]), "*.journal"))
				if !ctx.over() {
					if code != exitAnswered || len(journals) == 0 || !strings.Contains(errs, "Kept as the plan") {
						t.Errorf("not interrupted: exit %d, %v, %s", code, journals, errs)
					}
					break
				}
				if code != exitInterrupted || len(journals) > 0 {
					t.Fatalf("interrupted at question %d: exit %d, kept: %v; %s", n, code, journals, errs)
				}
				if interruptions++; out == "" {
					continue
				}
				if shown++; !strings.Contains(errs, "Interrupted: nothing is kept") {
					t.Errorf("interrupted at question %d: a plan is shown, and not a word that it is not kept: %s", n, errs)
				}
			}
			if interruptions < 4 || shown == 0 {
				t.Errorf("%d interruptions, %d of them with a plan in hand: too few to tell", interruptions, shown)
			}
		})
	}
}

// TestKeptAtTheLimit: what was found by the end of the time that was given is kept.
func TestKeptAtTheLimit(t *testing.T) {
	kept := 0
	for n := 1; ; n = later(n) {
		job := filepath.Join(demoCopy(t), "job.toml")
		ctx := endingAt(t, n, context.DeadlineExceeded)
		code, out, errs := brightset("plan", "--full", "--keep", job)
		st, err := catalog.Load(job, catalog.Options{Today: now()})
		if err != nil {
			t.Fatal(err)
		}
		if (out != "") != (st.Kept != nil) || code == exitInterrupted || strings.Contains(errs, "Interrupted") {
			t.Errorf("out of time at question %d: exit %d, shown: %v, kept: %v, %s", n, code, out != "", st.Kept != nil, errs)
		}
		if !ctx.over() {
			break
		}
		if st.Kept != nil {
			kept++
		}
	}
	if kept == 0 {
		t.Error("never out of time with a plan in hand")
	}
}

// Package parallel does several things at once whose results don't depend on each other.
//
// What is done has its place by its number, so that a result does not depend on which is
// done first, nor on how many are done at a time.
package parallel

import (
	"context"
	"runtime"
	"sync"
)

// helping is how many goroutines help with things besides those that asked for them. It
// is shared by all that is asked, within each other too, so that there are hardly ever
// more than there are processors. Who asks works as well, and doesn't wait for help: it
// comes when it gets free. Who waits for his helpers to end is replaced meanwhile.
var helping struct {
	sync.Mutex
	n int
}

// take takes on a helper if there is one to be had.
func take() bool {
	helping.Lock()
	defer helping.Unlock()
	if helping.n >= runtime.GOMAXPROCS(0)-1 {
		return false
	}
	helping.n++
	return true
}

// count counts helpers that come, or go.
func count(come int) {
	helping.Lock()
	defer helping.Unlock()
	helping.n += come
}

// tooMany says whether more work than there are processors: somebody who waited goes on.
func tooMany() bool {
	helping.Lock()
	defer helping.Unlock()
	return helping.n > runtime.GOMAXPROCS(0)-1
}

// work is n things, handed out in their order.
type work struct {
	do   func(i int) error
	most int // at a time
	all  sync.WaitGroup

	mu      sync.Mutex
	working int
	next    int
	n       int
	failed  int // the first that failed, n where none did
	err     error
	panics  any
}

// Do does n things, the first first, as many at a time as there are processors to be had.
// Once the context has ended none is begun any more; those that are being done are told
// by it, and waited for. If some fail none is begun any more, and the error is that of the
// first of them by number; a panic is carried to the caller in the same way.
func Do(ctx context.Context, n int, do func(i int) error) error { return AtMost(ctx, n, n, do) }

// AtMost does n things as Do does, but never more than most of them at a time; one at least.
func AtMost(ctx context.Context, most, n int, do func(i int) error) error {
	w := &work{do: do, most: most, working: 1, n: n, failed: n}
	w.run(ctx, false)
	count(-1)
	w.all.Wait()
	count(1)
	if w.panics != nil {
		panic(w.panics)
	}
	return w.err
}

// All does n things none of which fails, at most most of them at a time. Nothing ends it
// early: whoever is told to stop still has something to say of each.
func All(most, n int, do func(i int)) {
	_ = AtMost(context.Background(), most, n, func(i int) error {
		do(i)
		return nil
	})
}

// run does one thing after the other until none is left, or there is no need for a helper.
func (w *work) run(ctx context.Context, helper bool) {
	for {
		w.mu.Lock()
		i := w.next
		if w.failed < w.n || i == w.n || ctx.Err() != nil {
			w.mu.Unlock()
			return
		}
		if helper && tooMany() {
			w.working--
			w.mu.Unlock()
			return
		}
		w.next++
		if w.next < w.n && w.working < w.most && take() {
			w.working++
			w.all.Go(func() {
				defer count(-1)
				w.run(ctx, true)
			})
		}
		w.mu.Unlock()
		w.one(i)
	}
}

// one does one thing. Those before it have all been begun, and come to their ends: which
// failure is the first does not depend on the processors.
func (w *work) one(i int) {
	var err error
	defer func() {
		p := recover()
		w.mu.Lock()
		defer w.mu.Unlock()
		if (err != nil || p != nil) && i < w.failed {
			w.failed, w.err, w.panics = i, err, p
		}
	}()
	err = w.do(i)
}

// Parts does several things of different kinds, as Do does.
func Parts(ctx context.Context, parts ...func() error) error {
	return Do(ctx, len(parts), func(i int) error { return parts[i]() })
}

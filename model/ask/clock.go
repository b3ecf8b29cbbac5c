package ask

import (
	"context"
	"time"

	"brightset/solver"
	"brightset/solver/parallel"
)

// One limit of time is for all that is asked at once, and it is the context's: whatever
// searches ends when that does, with what it has, and says so. Settings limit a single
// search.

// What stands beside a plan is worth waiting for, but not long: where the context sets
// no end, a search for it ends after the first time, all of one kind after the second.
const (
	besideSearch = 6 * time.Second
	besideAll    = 20 * time.Second
	shortest     = time.Millisecond // less is not worth starting in
)

// clock shares a limit of time out among searches that follow each other.
type clock struct {
	ctx context.Context
	set solver.Settings
	end time.Time
	cap time.Duration // for one search
}

// overdrawn is how many times its fair share a question may take. Most need far less than
// theirs, so that one that is cut off at it would leave most of the time unused.
const overdrawn = 8

// newClock starts to count: to the context's end, if it has one.
func newClock(ctx context.Context, set solver.Settings) *clock {
	c := &clock{ctx: ctx, set: set, end: time.Now().Add(besideAll), cap: besideSearch}
	if end, ok := ctx.Deadline(); ok {
		c.end, c.cap = end, time.Until(end)
	}
	return c
}

// within is the context, ended when the clock's time is up.
func (c *clock) within() (context.Context, context.CancelFunc) {
	return context.WithDeadline(c.ctx, c.end)
}

func newShares(ctx context.Context, n int) *parallel.Shares {
	return parallel.NewShares(ctx, n, overdrawn)
}

// next gives the settings of one more search; ok is false once time is up or the
// user has had enough.
func (c *clock) next() (set solver.Settings, ok bool) {
	set = c.set
	set.TimeLimit = min(c.cap, time.Until(c.end))
	return set, c.ctx.Err() == nil && set.TimeLimit > shortest
}

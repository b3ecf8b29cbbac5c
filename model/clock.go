package model

import (
	"context"
	"time"

	"brightset/solver"
)

// What stands beside a plan is worth waiting for, but not long: unless the user set a
// limit, a search for it ends after the first time, all of one kind after the second.
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

// newClock starts to count: set.TimeLimit, if there is one, is for all searches
// together.
func newClock(ctx context.Context, set solver.Settings) *clock {
	c := &clock{ctx: ctx, set: set, end: time.Now().Add(besideAll), cap: besideSearch}
	if set.TimeLimit > 0 {
		c.end, c.cap = time.Now().Add(set.TimeLimit), set.TimeLimit
	}
	return c
}

// next gives the settings of one more search; ok is false once time is up or the
// user has had enough.
func (c *clock) next() (set solver.Settings, ok bool) {
	set = c.set
	set.TimeLimit = min(c.cap, time.Until(c.end))
	return set, c.ctx.Err() == nil && set.TimeLimit > shortest
}

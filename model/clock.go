package model

import (
	"context"
	"time"

	"brightset/solver"
)

// clock shares one limit of time out among searches that follow each other.
type clock struct {
	ctx context.Context
	set solver.Settings
	end time.Time // zero: no limit
}

// shortest is less time than any search is worth starting in.
const shortest = time.Millisecond

// newClock starts to count: set.TimeLimit, if there is one, is for all searches
// together.
func newClock(ctx context.Context, set solver.Settings) *clock {
	c := &clock{ctx: ctx, set: set}
	if set.TimeLimit > 0 {
		c.end = time.Now().Add(set.TimeLimit)
	}
	return c
}

// next gives the settings of one more search; ok is false once time is up or the
// user has had enough.
func (c *clock) next() (set solver.Settings, ok bool) {
	if c.ctx.Err() != nil {
		return set, false
	}
	set = c.set
	if !c.end.IsZero() {
		set.TimeLimit = time.Until(c.end)
		return set, set.TimeLimit > shortest
	}
	return set, true
}

// Package jobs draws jobs for tests: random ones whose features are forced on or off one by
// one, those with figures of the sizes that jobs really have, those in the middle of things
// with pieces at platers' and back, and fixed small ones.
package jobs

import (
	"context"
	"os"
	"testing"
	"time"
)

// Campaign is how many cases a random test tries: the small number by default, four times as
// many where BRIGHTSET_LONG=1 asks for what a change has to pass, and the large number where
// BRIGHTSET_LONG=all asks for a night's worth.
func Campaign(short, long int) int {
	switch os.Getenv("BRIGHTSET_LONG") {
	case "all":
		return long
	case "1":
		return min(long, 4*short)
	}
	return short
}

// OutOfTime is a context whose time is up already.
func OutOfTime(t *testing.T) context.Context { return Within(t, -time.Second) }

// Within is a context that ends after a time, and with the test.
func Within(t *testing.T, limit time.Duration) context.Context {
	ctx, stop := context.WithTimeout(context.Background(), limit)
	t.Cleanup(stop)
	return ctx
}

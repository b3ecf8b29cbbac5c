package jobs

import (
	"context"
	"testing"
	"time"
)

// OutOfTime is a context whose time is up already.
func OutOfTime(t *testing.T) context.Context { return Within(t, -time.Second) }

// Within is a context that ends after a time, and with the test.
func Within(t *testing.T, limit time.Duration) context.Context {
	ctx, stop := context.WithTimeout(context.Background(), limit)
	t.Cleanup(stop)
	return ctx
}

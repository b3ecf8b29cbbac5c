package ask

import (
	"context"
	"runtime"
	"testing"
	"time"
)

// TestSharesOverdrawn: a question among many may take more than its fair share, since most
// take less, and never what lies beyond the end; the last ones have all that is left.
func TestSharesOverdrawn(t *testing.T) {
	end := time.Now().Add(time.Hour)
	ctx, cancel := context.WithDeadline(context.Background(), end)
	defer cancel()
	const n = 1000
	s := newShares(ctx, n)
	fair := time.Hour / n * time.Duration(runtime.GOMAXPROCS(0))
	first, stop := s.Next(ctx)
	stop()
	until, _ := first.Deadline()
	if got := time.Until(until); got < (overdrawn-1)*fair || got > (overdrawn+1)*fair {
		t.Errorf("the first of %d may take %v, its fair share is %v", n, got, fair)
	}
	for range n - 2 {
		q, stop := s.Next(ctx)
		if until, _ := q.Deadline(); until.After(end) {
			t.Fatal("a question may go on after the end")
		}
		stop()
	}
	last, stop := s.Next(ctx)
	defer stop()
	if until, _ := last.Deadline(); !until.Equal(end) {
		t.Errorf("the last may take until %v, the end is %v", until, end)
	}
}

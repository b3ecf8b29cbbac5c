package parallel

import (
	"context"
	"runtime"
	"sync"
	"time"
)

// Shares shares out what time there is among questions that are asked at the same time:
// each that begins may take what is left, by the number of those left, for as many as are
// worked on at once, and so many times over. What one doesn't need is for those after it.
type Shares struct {
	over  int
	mu    sync.Mutex
	left  int
	end   time.Time
	ended bool // there is an end
}

// NewShares shares the time that a context leaves out among n questions, each of which may
// take so many times its fair share.
func NewShares(ctx context.Context, n, over int) *Shares {
	end, ended := ctx.Deadline()
	return &Shares{over: over, left: n, end: end, ended: ended}
}

// Next is the context of the next question.
func (s *Shares) Next(ctx context.Context) (context.Context, context.CancelFunc) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at := min(runtime.GOMAXPROCS(0), s.left)
	part := max(s.left, 1)
	s.left--
	if !s.ended || part <= at*s.over {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, time.Duration(at*s.over)*time.Until(s.end)/time.Duration(part))
}

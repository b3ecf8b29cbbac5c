package program

import (
	"context"
	"time"
)

// Over says whether a context has ended.
func Over(ctx context.Context) func() bool { return func() bool { return ctx.Err() != nil } }

// Portion is for a step that may take a share of the time that is left; all it likes
// where there is no end to it.
func Portion(ctx context.Context, share float64) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, time.Duration(share*float64(time.Until(end))))
}

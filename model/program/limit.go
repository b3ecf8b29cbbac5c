package program

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/solver"
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

// AtMost is for a step that somebody would wait for so long, where he has not said how
// long: a context that has an end of its own keeps it.
func AtMost(ctx context.Context, longest time.Duration) (context.Context, context.CancelFunc) {
	if _, ends := ctx.Deadline(); ends {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, longest)
}

// CompileWithin is Compile, left unfinished (GaveUp) where the context ends first.
func CompileWithin(ctx context.Context, st *catalog.State, opt Options) *Program {
	opt.GiveUp = Over(ctx)
	return Compile(st, opt)
}

// NotMade is the answer where the context ended before the program was made.
func NotMade(ctx context.Context) solver.Result {
	res := solver.Result{Status: solver.Stopped, Stop: solver.Cancelled, Bound: -int64(catalog.MaxSum)}
	if ctx.Err() == context.DeadlineExceeded {
		res.Stop = solver.TimeLimit
	}
	return res
}

package main

import (
	"context"
	"os"
	"os/signal"
	"time"
)

// interruptible is onInterrupt; tests end it where they like.
var interruptible = onInterrupt

// onInterrupt gives a context that Ctrl-C ends; a second Ctrl-C ends the program
// at once. stop gives the signal back.
func onInterrupt() (ctx context.Context, stop func()) {
	ctx, stop = signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// searching gives a context that the time limit, unless it is 0, ends as well.
func searching(limit time.Duration) (ctx context.Context, stop func()) {
	ctx, giveBack := interruptible()
	if limit == 0 {
		return ctx, giveBack
	}
	ctx, end := context.WithTimeout(ctx, limit)
	return ctx, func() { end(); giveBack() }
}

// interrupted says whether the user has had enough, rather than the time been up.
func interrupted(ctx context.Context) bool { return ctx.Err() == context.Canceled }

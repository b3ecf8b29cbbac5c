package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"time"
)

// interruptible gives a context that Ctrl-C ends; a second Ctrl-C ends the program
// at once. stop gives the signal back.
func interruptible() (ctx context.Context, stop func()) {
	ctx, stop = signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// goodLimit refuses a time limit below nothing; usage is how a good one is typed.
func goodLimit(limit time.Duration, usage string) error {
	if limit < 0 {
		return usageError{fmt.Sprintf("a time limit of %q is negative; type: %s", limit.String(), usage)}
	}
	return nil
}

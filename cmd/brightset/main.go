// Command brightset finds the cheapest way to hang a complete set of bright
// trim: which piece goes in which slot, what is done to it, by whom, and what
// is held in reserve.
package main

import (
	"os"
	"os/signal"
	"syscall"
)

func main() {
	// A reader that has gone away is a failed write with a message, not a
	// silent death.
	signal.Ignore(syscall.SIGPIPE)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

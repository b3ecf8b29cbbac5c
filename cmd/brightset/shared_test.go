package main

import (
	"slices"
	"strings"
)

// reply is what the program said.
type reply struct {
	code      int
	out, errs string
}

// asked are the answers that tests share, by day and question.
var asked = map[string]reply{}

// shared gives the answer to a question about jobs that no test changes, with all the time
// it takes: it is asked once for all tests.
func shared(args ...string) (code int, out, errs string) {
	searches := []string{"plan", "why", "hunt", "risk", "frontier", "orders", "report"}
	if len(args) > 0 && slices.Contains(searches, args[0]) && !strings.Contains(strings.Join(args, " "), "--time-limit") {
		args = slices.Insert(slices.Clone(args), 1, "--time-limit", "10m")
	}
	key := now().String() + "\x00" + strings.Join(args, "\x00")
	a, known := asked[key]
	if !known {
		a.code, a.out, a.errs = brightset(args...)
		asked[key] = a
	}
	return a.code, a.out, a.errs
}

package main

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
)

// asking are all commands that search, as they are typed about a job.
func asking(job string) map[string][]string {
	return map[string][]string{
		"plan":      {"plan", job},
		"best":      {"plan", "--best", job},
		"why":       {"why", "crest", job},
		"instead":   {"why", "crest", "--instead", "crest-1", job},
		"frontier":  {"frontier", job},
		"hunt":      {"hunt", job},
		"risk":      {"risk", job},
		"orders":    {"orders", job},
		"report":    {"report", job},
		"unlimited": {"risk", "--time-limit", "0s", job},
	}
}

// An interrupt shows what is in hand, if anything is, and says so by the code: 130 for the
// user who has had enough, and another one where only the time was up. Whole answers are
// neither, wherever the end comes.
func TestBrokenOff(t *testing.T) {
	for name, args := range asking("") {
		for _, why := range []error{context.Canceled, context.DeadlineExceeded} {
			t.Run(name+" "+why.Error(), func(t *testing.T) {
				job := filepath.Join(demoCopy(t), "job.toml")
				typed := append(append([]string{}, args[:len(args)-1]...), job)
				endingAt(t, 1, why)
				code, out, errs := brightset(typed...)
				if interrupted := code == exitInterrupted; interrupted != (why == context.Canceled) || code == exitAnswered ||
					code == exitUsage {
					t.Errorf("exit %d", code)
				}
				if out+errs == "" || strings.Contains(out, "proven, nothing") {
					t.Errorf("stdout %q, stderr %q", out, errs)
				}
			})
		}
	}
}

// A limit below nothing is refused by every command that takes one, with a good one to
// type; JSON is offered by all of them.
func TestLimitBelowNothing(t *testing.T) {
	for name, args := range asking("testdata/demo") {
		code, out, errs := brightset(append(args, "--time-limit", "-1s")...)
		good := "type: brightset " + args[0]
		if args[0] == "why" {
			good += " SLOT"
		}
		if code != exitUsage || out != "" || !strings.Contains(errs, `"-1s" is negative; `+good+" --time-limit ") {
			t.Errorf("%s: exit %d, stdout %q, stderr %q", name, code, out, errs)
		}
	}
}

// What broke an answer off decides its code, unless there is no plan to break off.
func TestExitOfAnswers(t *testing.T) {
	open := context.Background()
	gone, cancel := context.WithCancel(open)
	cancel()
	late, end := context.WithTimeout(open, 0)
	defer end()
	for _, c := range []struct {
		ctx   context.Context
		code  int
		early bool
		want  int
	}{
		{open, exitAnswered, false, exitAnswered},
		{open, exitAnswered, true, exitUnproven},
		{open, exitUnproven, false, exitUnproven},
		{late, exitAnswered, false, exitAnswered},
		{late, exitAnswered, true, exitUnproven},
		{late, exitFailed, false, exitFailed},
		{gone, exitAnswered, false, exitInterrupted},
		{gone, exitAnswered, true, exitInterrupted},
		{gone, exitUnproven, true, exitInterrupted},
		{gone, exitInfeasible, false, exitInfeasible},
		{open, exitInfeasible, true, exitInfeasible},
	} {
		a := answer{code: c.code, early: c.early}
		if got := a.exit(c.ctx); got != c.want {
			t.Errorf("ended by %v, code %d, early %v: exit %d, want %d", c.ctx.Err(), c.code, c.early, got, c.want)
		}
	}
}

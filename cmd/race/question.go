package main

import (
	"bytes"
	"context"
	"fmt"
	"os/exec"
	"time"
)

// question is a command of brightset's, as somebody types it who has just seen the plan.
type question struct {
	name  string
	first bool // what counts is when the first of the answer is there
	args  func(job, out string) []string
	bars  [2]float64 // seconds that it may take at 30 and at 60 slots
}

var questions = []question{
	{"plan, first screen", true, func(job, _ string) []string { return []string{"plan", job} }, [2]float64{0.3, 0.3}},
	{"plan, whole", false, func(job, _ string) []string { return []string{"plan", "--json", job} }, [2]float64{1, 2}},
	{"why", false, func(job, _ string) []string { return []string{"why", "slot-1", job} }, [2]float64{1, 2}},
	{"hunt", false, func(job, _ string) []string { return []string{"hunt", job} }, [2]float64{1, 2}},
	{"find out", false, func(job, _ string) []string { return []string{"risk", "--find-out", job} }, [2]float64{3, 5}},
	{"frontier", false, func(job, _ string) []string { return []string{"frontier", job} }, [2]float64{2, 10}},
	{"orders", false, func(job, out string) []string { return []string{"orders", "--out", out, job} }, [2]float64{2, 4}},
	{"report", false, func(job, out string) []string { return []string{"report", "--out", out + ".html", job} },
		[2]float64{5, 12}},
}

// answered is what one question to one program took.
type answered struct {
	first, whole float64 // seconds of wall clock until the first of the answer, and until its end
	busy         float64 // seconds of processor time
	early        bool    // it ended before all was known
	fault        string  // why there is no answer, "" if there is
}

// firstWritten takes what a program writes and when it began to.
type firstWritten struct {
	began time.Time
	first time.Duration
	text  bytes.Buffer
}

func (w *firstWritten) Write(p []byte) (int, error) {
	if w.first == 0 {
		w.first = time.Since(w.began)
	}
	return w.text.Write(p)
}

// ask runs a program with a question until it has answered. It is told the limit, and
// ended from outside where it does not keep to it.
func (q *question) ask(ctx context.Context, program, job, out string, limit time.Duration) answered {
	ctx, cancel := context.WithTimeout(ctx, patience(limit))
	defer cancel()
	args := append(q.args(job, out), "--time-limit", limit.String())
	cmd := exec.CommandContext(ctx, program, args...)
	w := &firstWritten{began: time.Now()}
	var errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = w, &errs
	err := cmd.Run()
	a := answered{first: w.first.Seconds(), whole: time.Since(w.began).Seconds()}
	if w.first == 0 {
		a.first = a.whole
	}
	if cmd.ProcessState == nil {
		a.fault = err.Error()
		return a
	}
	a.busy = (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds()
	switch code := cmd.ProcessState.ExitCode(); {
	case code == exitEarly || bytes.Contains(w.text.Bytes(), []byte(besideCut)):
		a.early = true
	case code != 0:
		a.fault = fmt.Sprintf("%v: %s", err, firstLine(append(w.text.Bytes(), errs.Bytes()...)))
	}
	return a
}

// besideCut is in the JSON of a plan that is proven, where time was up before all that stands
// beside it was known.
const besideCut = `"strip_whole": false`

// exitEarly is brightset's exit code where time was up before all was known.
const exitEarly = 5

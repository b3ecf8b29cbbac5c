package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"syscall"
	"time"
)

// The race starts every solver through a small process of its own: the system
// counts the memory of whoever starts a process towards the process's peak, and
// the race itself holds whole programs.
const childCommand = "child-process"

// measured is what a launcher reports of a process, and all it wrote.
type measured struct {
	Seconds float64 // wall clock, whole process
	PeakKB  int64
	Failure string // why it didn't end well, "" if it did
	Output  []byte // standard output and errors
}

// runChild is what a process of the race's own does: launch another or solve.
func runChild(args []string, out, errs io.Writer) int {
	var err error
	switch {
	case len(args) > 1 && args[0] == "launch":
		err = json.NewEncoder(out).Encode(launchHere(args[1:]))
	case len(args) == 2 && args[0] == "solve":
		err = solveHere(args[1], out)
	default:
		err = fmt.Errorf("the race starts this by itself")
	}
	if err != nil {
		fmt.Fprintln(errs, err)
		return 1
	}
	return 0
}

// launchHere runs a command and measures it.
func launchHere(args []string) measured {
	cmd := exec.Command(args[0], args[1:]...)
	var b bytes.Buffer
	cmd.Stdout, cmd.Stderr = &b, &b
	began := time.Now()
	err := cmd.Run()
	m := measured{Seconds: time.Since(began).Seconds(), Output: b.Bytes()}
	if err != nil {
		m.Failure = err.Error()
	}
	if use, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		m.PeakKB = use.Maxrss
	}
	return m
}

// launch runs a command through a launcher. Both are ended after patience, or
// when the race is interrupted.
func launch(ctx context.Context, patience time.Duration, environment []string, args ...string) measured {
	self, err := os.Executable()
	if err != nil {
		return measured{Failure: err.Error()}
	}
	limited, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	cmd := exec.CommandContext(limited, self, append([]string{childCommand, "launch"}, args...)...)
	cmd.Env = append(os.Environ(), environment...)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // so that ending it ends its child
	cmd.Cancel = func() error { return syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
	text, err := cmd.Output()
	if limited.Err() != nil {
		return measured{Seconds: patience.Seconds(),
			Failure: fmt.Sprintf("still at it after %v, so it was ended", patience.Round(time.Second))}
	}
	if err != nil {
		return measured{Failure: err.Error()}
	}
	var m measured
	if err := json.Unmarshal(text, &m); err != nil {
		return measured{Failure: err.Error()}
	}
	return m
}

//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
)

// fewFiles is the variable that makes the test's own program, as a child, brightset with
// so many files that it may open besides those that are open already.
const fewFiles = "BRIGHTSET_TEST_FEW_FILES"

// TestFewFilesChild is that child: its limit is for a process, so it needs one of its own.
func TestFewFilesChild(t *testing.T) {
	more := 0
	if n, _ := fmt.Sscan(os.Getenv(fewFiles), &more); n == 0 {
		t.Skip("not a child")
	}
	_, args, _ := strings.Cut(strings.Join(os.Args, "\x00"), "\x00--\x00")
	null, err := os.Open(os.DevNull) // the lowest number that is free
	if err != nil {
		t.Fatal(err)
	}
	limit := syscall.Rlimit{Cur: uint64(null.Fd()) + uint64(more), Max: uint64(null.Fd()) + uint64(more)}
	null.Close()
	if err := syscall.Setrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil {
		t.Fatal(err)
	}
	os.Exit(run(strings.Split(args, "\x00"), os.Stdin, os.Stdout, os.Stderr))
}

// TestTooManyOpenFiles: a command that can open no more files says so and changes nothing.
// It does not say that something is not there, or has changed. An empty journal may be left,
// in which nothing is recorded.
func TestTooManyOpenFiles(t *testing.T) {
	empty := regexp.MustCompile(`(?m)^\w+\.journal \S+ ""\n`)
	for _, args := range [][]string{{"check"}, {"record", "broke", "drawer-rail"}, {"plan", "--keep"}} {
		failed := 0
		for more := 0; ; more++ {
			dir := ownJob(t)
			before := kept(t, dir)
			cmd := exec.Command(os.Args[0], append(append([]string{"-test.run=^TestFewFilesChild$", "--"}, args...),
				filepath.Join(dir, "job.toml"))...)
			cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%d", fewFiles, more))
			var errs bytes.Buffer
			cmd.Stderr = &errs
			if err := cmd.Run(); err == nil {
				break
			}
			failed++
			if !strings.Contains(errs.String(), "too many") || strings.Contains(errs.String(), "changed") ||
				strings.Contains(errs.String(), "no such") {
				t.Errorf("%v, with %d files: %s\n%s", args, more, cmd.ProcessState, &errs)
			}
			if now := empty.ReplaceAllString(kept(t, dir), ""); now != before {
				t.Errorf("%v, with %d files, changed\n%s\nto\n%s", args, more, before, now)
			}
			if more > 30 {
				t.Fatalf("%v: still failing with %d files: %s", args, more, &errs)
			}
		}
		if failed == 0 {
			t.Errorf("%v: needs no file at all", args)
		}
	}
}

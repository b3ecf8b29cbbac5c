package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"brightset/testdata/campaign"
)

// TestProcessors: every answer is the same, byte for byte, with as many processors as the
// machine has, with one, and with eight: what is asked at the same time is asked from what
// was known before.
func TestProcessors(t *testing.T) {
	was := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(was)
	others := []int{1}
	if campaign.Long() || was == 1 {
		others = []int{1, 8}
	}
	for _, args := range [][]string{
		{"plan", "--full", "testdata/demo"}, {"why", "crest", "testdata/demo"}, {"hunt", "testdata/demo"},
		{"risk", "--find-out", "testdata/demo"}, {"frontier", "testdata/demo"},
		{"plan", "--others", "2", "--differ", "1", "testdata/locked"},
	} {
		_, first, _ := shared(args...)
		for _, n := range others {
			runtime.GOMAXPROCS(n)
			if code, out, errs := brightset(args...); code != exitAnswered || out != first {
				t.Errorf("%q with %d processors: exit code %d, the same answer: %v, %s", args, n, code, out == first, errs)
			}
		}
		runtime.GOMAXPROCS(was)
	}
	page := filepath.Join(t.TempDir(), "report.html")
	var first string
	for _, n := range []int{1, 8} {
		runtime.GOMAXPROCS(n)
		// With a limit of its own: how long is looked for what stands beside a plan otherwise, 20 s of
		// each kind, is too short for eight on two processors and the race detector.
		code, out, errs := brightset("report", "--out", page, "--time-limit", "5m", "testdata/demo")
		written, err := os.ReadFile(page)
		if code != exitAnswered || err != nil {
			t.Fatalf("a report with %d processors: exit code %d, %v, %s", n, code, err, errs)
		}
		if text := out + string(written); n == 1 {
			first = text
		} else if text != first {
			t.Errorf("another report with %d processors", n)
		}
	}
}

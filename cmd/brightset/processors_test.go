package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// TestProcessors: every answer is the same, byte for byte, with one processor and with
// eight: what is asked at the same time is asked from what was known before.
func TestProcessors(t *testing.T) {
	was := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(was)
	page := filepath.Join(t.TempDir(), "report.html")
	for _, args := range [][]string{
		{"plan", "--full", "testdata/demo"}, {"why", "crest", "testdata/demo"}, {"hunt", "testdata/demo"},
		{"risk", "--find-out", "testdata/demo"}, {"frontier", "testdata/demo"},
		{"plan", "--others", "2", "testdata/locked"}, {"report", "--out", page, "testdata/demo"},
	} {
		var first string
		for _, n := range []int{1, 8} {
			runtime.GOMAXPROCS(n)
			var out, errs bytes.Buffer
			if code := run(args, nil, &out, &errs); code != exitAnswered {
				t.Fatalf("%q with %d processors: exit code %d: %s", args, n, code, errs.String())
			}
			text := out.String()
			if args[0] == "report" {
				written, err := os.ReadFile(page)
				if err != nil {
					t.Fatal(err)
				}
				text += string(written)
			}
			if n == 1 {
				first = text
			} else if text != first {
				t.Errorf("%q: another answer with %d processors", args, n)
			}
		}
	}
}

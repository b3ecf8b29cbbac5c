package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/seeded"
)

// TestQuestions: every question is answered, by two programs side by side, and stands in
// the table with both.
func TestQuestions(t *testing.T) {
	program := filepath.Join(t.TempDir(), "brightset")
	if text, err := exec.Command("go", "build", "-o", program, "brightset/cmd/brightset").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	opt := small(t)
	opt.seeds, opt.questions, opt.programs = 1, true, program+","+program
	opt.families[0].Slots, opt.families[0].Pieces = 2, 2
	var out bytes.Buffer
	if err := compete(context.Background(), opt, &out); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(opt.markdown)
	if err != nil {
		t.Fatal(err)
	}
	for i := range questions {
		at := strings.Index(string(text), "| "+questions[i].name+" |")
		if at < 0 {
			t.Fatalf("%q has no row in:\n%s", questions[i].name, text)
		}
		if row, _, _ := strings.Cut(string(text)[at:], "\n"); strings.Count(row, "| 1/1 |") != 2 {
			t.Errorf("%q is not answered by both programs: %s", questions[i].name, row)
		}
	}
}

// TestQuestionsFail: a program that does not answer is named with what it said.
func TestQuestionsFail(t *testing.T) {
	program := filepath.Join(t.TempDir(), "mute")
	if err := os.WriteFile(program, []byte("#!/bin/sh\necho no idea >&2\nexit 1\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	a := questions[0].ask(context.Background(), program, "job", "out", time.Second)
	if !strings.Contains(a.fault, "no idea") {
		t.Errorf("the fault is %q", a.fault)
	}
	opt := &options{seeds: 1, limit: time.Second, questions: true, programs: program,
		progress: io.Discard, temporary: t.TempDir(), families: small(t).families}
	var out bytes.Buffer
	if err := askAll(context.Background(), opt, &out); err != nil ||
		!strings.Contains(out.String(), "why, "+program+": exit status 1: no idea") {
		t.Errorf("(%v) %s", err, out.String())
	}
}

// TestQuestionFamilies: the jobs with trades have 15 or more, and 20 leads or about.
func TestQuestionFamilies(t *testing.T) {
	for _, f := range questionFamilies() {
		if !strings.HasSuffix(f.Name, "-trades") {
			continue
		}
		for seed := range uint64(3) {
			st, leads := seeded.Job(f, seed+1), 0
			for i := range st.Pieces {
				if c := st.Pieces[i].Chance; c < catalog.One {
					leads++
				}
			}
			if len(st.Trades) < 12 || len(st.Trades) > 40 || leads < 12 || leads > 32 || len(st.Platers) != 5 {
				t.Errorf("%s, seed %d: %d trades, %d leads, %d platers", f.Name, seed+1, len(st.Trades), leads, len(st.Platers))
			}
		}
	}
}

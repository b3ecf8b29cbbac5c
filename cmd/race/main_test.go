package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/model/seeded"
	"brightset/testdata/campaign"
)

// TestMain lets the test's own program be the child that the race starts.
func TestMain(m *testing.M) {
	if len(os.Args) > 1 && os.Args[1] == childCommand {
		os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

func TestRunAnswers(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"-install"}, 0, "npm install -g highs"},
		{[]string{"-help"}, 0, "against general solvers"},
		{[]string{"-family", "boat"}, 2, `there is no family "boat"; there are car-30,`},
		{[]string{"-solvers", "abacus"}, 2, `there is no solver "abacus"; there are brightset,`},
		{[]string{"-seeds", "0"}, 2, "more than 0"},
		{[]string{"-limit", "-1"}, 2, "more than 0"},
		{[]string{"fast"}, 2, `"fast" is not a flag`},
		{[]string{"-fast"}, 2, "not defined: -fast"},
		{[]string{"-questions", "-threads", "2"}, 2, "leave it out, or type it without -growth"},
		{[]string{"-questions", "-solvers", "cbc"}, 2, "-solvers has no meaning here"},
		{[]string{"-questions", "-keep", "x"}, 2, "-keep has no meaning here"},
		{[]string{"-questions", "-svg", "x"}, 2, "-svg has no meaning here; leave it out, or type it with -growth"},
		{[]string{"-growth", "-family", "car-30"}, 2, "-family has no meaning here"},
		{[]string{"-program", "x"}, 2, "-program has no meaning here; leave it out, or type it with -questions"},
		{[]string{"-growth", "-questions"}, 2, "two things"},
	} {
		var b bytes.Buffer
		if code := run(c.args, &b, &b); code != c.code || !strings.Contains(b.String(), c.want) {
			t.Errorf("%q: exit code %d, want %d and %q in:\n%s", c.args, code, c.code, c.want, b.String())
		}
	}
}

// small is a race that takes no time, of brightset and of cbc where it is there.
func small(t *testing.T) *options {
	return &options{
		seeds: 2, limit: 20 * time.Second, threads: 1, solvers: []string{"brightset", "cbc"}, progress: io.Discard,
		families: []seeded.Family{{Name: "small", Slots: 5, Pieces: 3, Platers: 2, Vendors: 2, Bundles: 1, Matches: 1,
			Completion: 0.8, Mean: 80, Floor: 60}},
		markdown: filepath.Join(t.TempDir(), "new", "RESULTS.md"),
	}
}

func TestSmallRace(t *testing.T) {
	opt := small(t)
	var out bytes.Buffer
	if err := compete(context.Background(), opt, &out); err != nil {
		t.Fatalf("%v\n%s", err, out.String())
	}
	text, err := os.ReadFile(opt.markdown)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"| small |", "| brightset |", "| 2/2 |", "go run ./cmd/race -seeds 2 -limit 20",
		"Clp"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	if missingCbc() == "" && !strings.Contains(out.String(),
		"2 of the 2 jobs that two or more solvers proved have one optimum") {
		t.Errorf("brightset and cbc don't agree:\n%s", out.String())
	}
	for line := range strings.Lines(out.String()) {
		if len(line) > 101 {
			t.Errorf("%d columns: %s", len(line)-1, line)
		}
	}
	if _, err := os.Stat(opt.temporary); !os.IsNotExist(err) {
		t.Errorf("the temporary folder is still there: %v", err)
	}
}

func TestInterruptedRace(t *testing.T) {
	opt := small(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := compete(ctx, opt, io.Discard); !errors.Is(err, errInterrupted) {
		t.Errorf("got %v", err)
	}
	if _, err := os.Stat(opt.markdown); !os.IsNotExist(err) {
		t.Errorf("it wrote results: %v", err)
	}
}

func TestGrowth(t *testing.T) {
	slots, pieces := slotSizes, pieceSizes
	defer func() { slotSizes, pieceSizes = slots, pieces }()
	slotSizes, pieceSizes = []int{3, 6}, []int{2}
	opt := small(t)
	if campaign.Long() { // it takes a build
		opt.solvers = append(opt.solvers, "without-c")
	}
	opt.growth, opt.seeds, opt.svg = true, 1, filepath.Join(filepath.Dir(opt.markdown), "growth.svg")
	var out bytes.Buffer
	if err := compete(context.Background(), opt, &out); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(opt.markdown)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "(growth.svg)") {
		t.Errorf("no picture in:\n%s", text)
	}
	picture, err := os.ReadFile(opt.svg)
	if err != nil {
		t.Fatal(err)
	}
	circles := 0
	for d := xml.NewDecoder(bytes.NewReader(picture)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the picture is not well-formed: %v", err)
		}
		if start, ok := token.(xml.StartElement); ok && start.Name.Local == "circle" {
			circles++
		}
	}
	if want := 6 * len(present(opt, io.Discard)); circles != want { // three sizes, in seconds and in memory
		t.Errorf("%d points in the picture, want %d", circles, want)
	}
	for _, name := range opt.solvers {
		if entrantNamed(name).missing() == "" && strings.Count(string(text), "| "+name+" |") != 3 {
			t.Errorf("%s is not there for all three sizes:\n%s", name, text)
		}
	}
	if strings.Count(string(text), "| 1/1 |") != 3*len(present(opt, io.Discard)) {
		t.Errorf("not everything is proven:\n%s", text)
	}
}

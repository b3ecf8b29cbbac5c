package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
)

// TestFirstScreens shows the first screen in the situations that a job comes into, and
// holds every one to a terminal of 24 rows and 80 columns.
func TestFirstScreens(t *testing.T) {
	defer func(was func() time.Time) { now = was }(now)
	now = func() time.Time { return time.Date(2031, 3, 25, 9, 0, 0, 0, time.UTC) }
	lots := [][]string{
		{"record", "sent", "crest-2,drawer-grille", "--to", "pell", "--on", "2031-02-01"},
		{"record", "sent", "spear-l1,spear-r1,bullet-1,bullet-2", "--to", "brackwater", "--level", "driver", "--on",
			"2031-02-03"},
		{"record", "approved", "crest-2,drawer-grille,spear-l1,spear-r1,bullet-1,bullet-2", "--on", "2031-02-10"},
	}
	for name, c := range map[string]struct {
		job    string
		first  [][]string
		budget string
		code   int
	}{
		"nothing-fits": {job: "testdata/demo", code: exitInfeasible, first: [][]string{
			{"record", "lost", "crest-1,crest-nos,crest-friend"}, {"record", "lost", "crest-2"}}},
		"start":    {job: "testdata/demo"},
		"two-lots": {job: "testdata/demo", first: lots},
		"broken": {job: "testdata/demo", first: append(lots[:3:3], []string{"record", "broke", "drawer-grille",
			"--on", "2031-02-20"}), budget: "2700.00"},
		"above-stop": {job: "testdata/demo", first: append(lots[:1:1],
			[]string{"record", "sent", "bullet-1,bullet-2", "--to", "brackwater", "--level", "driver", "--on", "2031-02-03"},
			[]string{"record", "priced", "bullet-1", "--cost", "380.00", "--on", "2031-02-20"},
			[]string{"record", "priced", "bullet-2", "--cost", "104.00", "--on", "2031-02-20"})},
		"all-hung":   {job: "testdata/one-for-two", first: allHung},
		"over-quote": {job: "testdata/locked"},
		"lead-came": {
			job:   "testdata/demo",
			first: [][]string{{"plan", "--keep"}, {"record", "came", "crest-friend", "--on", "2031-01-20"}},
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			if err := os.CopyFS(dir, os.DirFS(c.job)); err != nil {
				t.Fatal(err)
			}
			if c.budget != "" {
				rebudget(t, filepath.Join(dir, "job.toml"), c.budget)
			}
			for _, args := range c.first {
				if code, _, errs := brightset(append(args[:len(args):len(args)], dir)...); code != exitAnswered {
					t.Fatal(args, code, errs)
				}
			}
			code, out, errs := brightset("plan", dir)
			if code != c.code {
				t.Fatal(code, out, errs)
			}
			fits(t, out)
			sameAsGolden(t, "screen-"+name, strings.ReplaceAll(out, dir, "JOB"))
		})
	}
}

// allHung hangs every piece of the small job as its plan has it.
var allHung = [][]string{
	{"record", "sent", "cap-l1,cap-r1", "--to", "tern", "--on", "2031-02-01"},
	{"record", "back", "cap-l1,cap-r1", "--grade", "88", "--on", "2031-03-20"},
	{"record", "hung", "cap-l1", "--slot", "cap-left", "--on", "2031-03-22"},
	{"record", "hung", "cap-r1", "--slot", "cap-right", "--on", "2031-03-22"},
	{"record", "hung", "strip-1", "--slot", "strip-top", "--on", "2031-03-22"},
	{"record", "hung", "strip-2", "--slot", "strip-foot", "--on", "2031-03-22"},
}

// TestFirstScreenOfManySlots: eighty slots and names as long as they come fit too.
func TestFirstScreenOfManySlots(t *testing.T) {
	st := seeded.Job(seeded.Family{Name: "many", Slots: 80, Pieces: 4, Platers: 6, Vendors: 5, Bundles: 2, Trades: 3,
		Matches: 3, Quotes: 0.3, Leads: 0.2, Mean: 70}, 2)
	for i := range st.Slots {
		st.Slots[i].Name = strings.Repeat("long name ", 1+i%12) + "\x1b[31m 輝くトリム"
	}
	for i := range st.Platers {
		st.Platers[i].Name = strings.Repeat("Plating and Polishing ", 5)
	}
	p, err := program.Solve(context.Background(), st, solver.Settings{NodeLimit: 50})
	if err != nil || p.Status != plan.Optimal { // what a search that is stopped has in hand is the engine's
		t.Fatal(err, p.Status)
	}
	out := report.FirstScreen(p, screenOf(context.Background(), newProgress(io.Discard), p, nil))
	if !strings.Contains(out, "more: brightset plan --full") || !strings.Contains(out, "Look at") {
		t.Error("nothing had to be left out of it: too small to tell")
	}
	fits(t, out)
	sameAsGolden(t, "screen-many-slots", out)
	stopped := *p
	stopped.Status, stopped.Bound = plan.Stopped, p.Expected-164_07
	out = report.FirstScreen(&stopped, screenOf(context.Background(), newProgress(io.Discard), &stopped, nil))
	if !strings.Contains(out, "not proven the cheapest, at most 164.07 above it") {
		t.Errorf("stopped: %s", out)
	}
	fits(t, out)
}

// TestFirstScreenOfSeveralJobs: several jobs have one too, in the same order.
func TestFirstScreenOfSeveralJobs(t *testing.T) {
	code, out, errs := shared("plan", "testdata/together/solo.toml", "testdata/together/outfit.toml",
		"testdata/together/racer.toml")
	if code != exitAnswered {
		t.Fatal(code, errs)
	}
	fits(t, out)
	sameAsGolden(t, "screen-several-jobs", out)
}

// TestTogetherPaidOnce: what is to be done for several jobs costs in all what they spend if
// all goes well: what they share is in it once.
func TestTogetherPaidOnce(t *testing.T) {
	three := []string{"testdata/together/solo.toml", "testdata/together/outfit.toml", "testdata/together/racer.toml"}
	for _, jobs := range [][]string{three, three[:2], three[1:], {three[0], three[2]}} {
		_, out, errs := brightset(append([]string{"plan", "--json"}, jobs...)...)
		var doc struct {
			Sums struct {
				Outlay int64 `json:"outlay_cents"`
			}
			DoNow []struct{ Cents int64 } `json:"do_now"`
		}
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err, errs)
		}
		sum := int64(0)
		for _, a := range doc.DoNow {
			sum += a.Cents
		}
		if sum != doc.Sums.Outlay || sum == 0 {
			t.Errorf("%v: what is to be done costs %d, the outlay is %d", jobs, sum, doc.Sums.Outlay)
		}
	}
}

// TestFirstScreenOfManyJobs: twelve jobs fit as well, and what found no room is counted.
func TestFirstScreenOfManyJobs(t *testing.T) {
	_, jobs := threeJobs(t)
	for len(jobs) < 12 {
		data, err := os.ReadFile(jobs[len(jobs)%3])
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(filepath.Dir(jobs[0]), "more-"+string(rune('a'+len(jobs)))+".toml")
		writeTo(t, file, string(data))
		jobs = append(jobs, file)
	}
	code, out, errs := brightset(append([]string{"plan", "--within", "5"}, jobs...)...)
	if code != exitAnswered || !strings.Contains(out, "and 9 more") || !strings.Contains(out, "Do now") {
		t.Error(code, out, errs)
	}
	fits(t, out)
}

// TestFirstScreenOfSharedSpares: a plan that holds one spare for two positions has a first
// screen too, which says so.
func TestFirstScreenOfSharedSpares(t *testing.T) {
	code, out, errs := shared("plan", "--one-for-two", "testdata/one-for-two")
	if code != exitAnswered || !strings.Contains(out, "one spare for two") || !strings.Contains(out, "Do now") {
		t.Error(code, out, errs)
	}
	fits(t, out)
}

// TestNineInTenIsWhatIsSetAside: the first screen and the owner's quote reckon with the same
// sum for nine jobs in ten, however coarse the rest has to be told.
func TestNineInTenIsWhatIsSetAside(t *testing.T) {
	_, p := planned(t)
	s := screenOf(context.Background(), newProgress(io.Discard), p, nil)
	papers := &report.Papers{Plan: p, StopsWhole: true}
	quoteTo(papers, setAside(context.Background(), p))
	with := paper.OwnerQuoteOf(p, nil, true, s.Outlook.Nine-p.Outlay)
	if s.Outlook.Nine <= p.Outlay || with.Contingency != papers.Sums.Contingency {
		t.Errorf("the screen says %d, the quote sets %d aside", s.Outlook.Nine, papers.Sums.Contingency)
	}
}

// TestFirstScreenWaits: where nothing can be done, and not all hangs, it says so.
func TestFirstScreenWaits(t *testing.T) {
	st := seeded.Job(seeded.Family{Name: "few", Slots: 2, Pieces: 2, Platers: 1, Vendors: 1}, 1)
	p, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !p.Has {
		t.Fatal(err)
	}
	out := report.FirstScreen(p, &report.Screen{})
	if !strings.Contains(out, "Nothing to do today") || strings.Contains(out, "Do now") {
		t.Error(out)
	}
}

// fits says whether a text fits a terminal of 24 rows with the prompt in the last.
func fits(t *testing.T, out string) {
	t.Helper()
	rows := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if len(rows) > 23 {
		t.Errorf("%d rows:\n%s", len(rows), out)
	}
	for _, row := range rows {
		if report.Width(row) > 80 || strings.ContainsAny(row, "\x1b\r\t") {
			t.Errorf("too wide, or with what steers a terminal: %q", row)
		}
	}
}

func rebudget(t *testing.T, file, budget string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), `budget = "1900.00"`) {
		t.Fatal(err, "no such budget in the file")
	}
	text = []byte(strings.ReplaceAll(string(text), `budget = "1900.00"`, `budget = "`+budget+`"`))
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

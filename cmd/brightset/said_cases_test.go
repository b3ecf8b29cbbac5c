package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// saidCase is a question whose text and JSON are compared.
type saidCase struct {
	name string
	args []string
	jobs []string
	late bool // asked at the bench, on the day on which the job under way stands
}

// underWay is a copy of the demo job with pieces sent, back, broken, hung and bought.
func underWay(t *testing.T) string { return underWayOn(t, "2700.00") }

// underWayOn has another budget than the demo; with that one nothing fits any more.
func underWayOn(t *testing.T, budget string) string {
	t.Helper()
	defer func(was func() time.Time) { now = was }(now)
	now = benchDay
	dir := demoCopy(t)
	file := filepath.Join(dir, "job.toml")
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), `budget = "1900.00"`) {
		t.Fatal(err, "the demo has no such budget any more")
	}
	if err := os.WriteFile(file, []byte(strings.ReplaceAll(string(text), `budget = "1900.00"`, `budget = "`+budget+`"`)),
		0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"plan", dir, "--keep"},
		{"record", "sent", "crest-2,drawer-grille", dir, "--to", "pell", "--on", "2031-02-01"},
		{"record", "sent", "spear-r1", dir, "--to", "brackwater", "--level", "driver", "--on", "2031-02-03"},
		{"record", "broke", "drawer-grille", dir, "--on", "2031-02-15"},
		{"record", "back", "spear-r1", dir, "--grade", "81", "--cost", "130.00", "--on", "2031-03-20"},
		{"record", "hung", "spear-r1", dir, "--slot", "spear-right", "--on", "2031-03-22"},
		{"record", "spent", "a can of wax", dir, "--cost", "12.00", "--on", "2031-03-23"},
		{"record", "lock", "bezel-speed", dir, "--piece", "bezel-s1", "--reason", "straight before the eyes", "--on",
			"2031-03-24"},
	} {
		if code, out, errs := brightset(args...); code != exitAnswered {
			t.Fatal(args, code, out, errs)
		}
	}
	return dir
}

// saidCases are all commands with --json over jobs of all sorts; by default without those
// that take long, or ask again what another asks of a smaller job.
func saidCases(t *testing.T) []saidCase {
	t.Helper()
	papers, under := t.TempDir(), underWay(t)
	var all []saidCase
	add := func(name string, jobs []string, args ...string) {
		all = append(all, saidCase{name, append(args, jobs...), jobs, jobs[0] == under})
	}
	ask := map[string][]string{
		"plan": {"plan", "--full"}, "first": {"plan"}, "best": {"plan", "--full", "--best"},
		"others": {"plan", "--others", "2"}, "one for two": {"plan", "--full", "--one-for-two"},
		"check": {"check"}, "spec": {"check", "--spec", "--current", "4"}, "frontier": {"frontier"}, "hunt": {"hunt"},
		"risk": {"risk", "--detail"}, "find out": {"risk", "--find-out"}, "list": {"record", "list"}, "learn": {"learn"},
		"why": {"why", "grille"}, "why badge": {"why", "badge"}, "why crest": {"why", "crest"},
		"instead": {"why", "crest", "--instead", "crest-1"},
		"orders":  {"orders"}, "report": {"report"},
	}
	for _, c := range []struct {
		name, job, questions, long string
	}{
		{"demo", "testdata/demo", "first,plan,check,spec,risk,hunt,instead", "best,others,frontier,find out,why " +
			"crest,why,list,orders,learn,report"},
		{"locked", "testdata/locked", "plan,best,others,check,spec,frontier,hunt,risk,find out,why badge,list,orders",
			"report"},
		{"sharing", "testdata/one-for-two", "one for two,others,check,frontier,hunt,risk", "plan,best,spec,list,orders"},
		{"under way", under, "first,plan,list,learn,risk",
			"best,others,check,spec,frontier,hunt,find out,why,orders,report"},
		{"solo", "testdata/together/solo.toml", "first,plan,best,others,check,frontier,hunt,risk", "spec,list,orders"},
		{"namesakes", "testdata/cli/two-of-a-name.toml", "plan,best,others,check,spec,hunt,risk", "frontier,list,orders"},
		{"metals", "testdata/cli/metals.toml", "spec", "check"},
		{"too dear", "testdata/cli/too-dear.toml", "plan", ""},
		{"too high", "testdata/cli/too-high.toml", "plan", ""},
		{"no budget", "testdata/nothing-fits/budget.toml", "plan,best", ""},
		{"one piece", "testdata/nothing-fits/one-piece.toml", "plan", ""},
		{"no plater", "testdata/nothing-fits/no-plater.toml", "plan", ""},
		{"no taker", "testdata/nothing-fits/no-taker.toml", "plan,check", ""},
		{"a lock", "testdata/nothing-fits/lock.toml", "plan", ""},
	} {
		questions := c.questions
		if campaign.Cases(0, 1) == 1 && c.long != "" {
			questions += "," + c.long
		}
		for _, q := range strings.Split(questions, ",") {
			args := slices.Clone(ask[q])
			switch q {
			case "orders":
				args = append(args, "--out", filepath.Join(papers, c.name))
			case "report":
				args = append(args, "--out", filepath.Join(papers, c.name+".html"))
			}
			add(c.name+", "+q, []string{c.job}, args...)
		}
	}
	three := []string{"testdata/together/solo.toml", "testdata/together/outfit.toml", "testdata/together/racer.toml"}
	add("together", three, "plan", "--full")
	add("together, first", three, "plan")
	return all
}

// TestSaidInJSON: all that the text of an answer says is in its JSON.
func TestSaidInJSON(t *testing.T) {
	for _, c := range saidCases(t) {
		t.Run(c.name, func(t *testing.T) {
			if c.late {
				atTheBench(t)
			}
			text, doc := answers(t, c.args...)
			if lost := missing(text, thingsOf(t, c.jobs...), documentOf(t, doc, "")); len(lost) > 0 {
				t.Errorf("not in the JSON: %s", describe(lost))
			}
		})
	}
}

// atTheBench sets the day on which the job under way stands.
func atTheBench(t *testing.T) {
	was := now
	t.Cleanup(func() { now = was })
	now = benchDay
}

func benchDay() time.Time { return time.Date(2031, 3, 25, 9, 0, 0, 0, time.UTC) }

// TestSaidIsMissed: with any of these keys out of the JSON, the comparison finds that
// something is missing.
func TestSaidIsMissed(t *testing.T) {
	under := underWay(t)
	for _, c := range []struct {
		job, keys string
		args      []string
	}{
		{"testdata/nothing-fits/budget.toml", "budget_cents more_cents asks_new mean nearest lines give_up grade slot piece",
			[]string{"plan", "--full"}},
		{"testdata/nothing-fits/lock.toml", "without_any unfilled best grade within_days", []string{"plan", "--full"}},
		{"testdata/locked", "title grade locks costs_cents piece lines", []string{"plan", "--full"}},
		{"testdata/demo", "outlay_cents breakage asked done to_buy left_over cents chance " +
			"day_if_all_goes_well hours", []string{"plan", "--full"}},
		{"testdata/demo", "look_at owner_pays_cents nine_in_ten_cents", []string{"plan"}},
		{"testdata/locked", "others differences rest_cents more_cents", []string{"plan", "--others", "2"}},
		{"testdata/locked", "mean_cents p10_cents p50_cents p90_cents cash slots lots share", []string{"risk", "--detail"}},
		{"testdata/demo", "finds worth_cents|worth_at_most_cents slot metal tours chance where cost_cents likely_cents " +
			"skip_cents last_day last_on pairs together_cents|together_at_most_cents " +
			"one_by_one_cents|one_by_one_at_most_cents within_days", []string{"hunt"}},
		{"testdata/one-for-two", "one_for_two saves_cents rescues held_for_one completion",
			[]string{"plan", "--full", "--one-for-two"}},
		{under, "metals breakage_high platers days_late", []string{"learn"}},
		{under, "spent_cents day entries", []string{"record", "list"}},
		{under, "under_way sent_day expected_with_spent_cents outlay_with_spent_cents", []string{"plan", "--full"}},
	} {
		if c.job == under { // the last of them
			atTheBench(t)
		}
		text, doc := answers(t, append(slices.Clone(c.args), c.job)...)
		things := thingsOf(t, c.job)
		for _, key := range strings.Fields(c.keys) {
			if lost := missing(text, things, documentOf(t, doc, key)); len(lost) == 0 {
				t.Errorf("%v: nothing is missed without %q", c.args, key)
			}
		}
	}
}

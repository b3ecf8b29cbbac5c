package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fittedJobs are the three jobs, tried on: nothing is held back.
func fittedJobs(t *testing.T) (dir string, jobs []string) {
	dir, jobs = threeJobs(t)
	for _, job := range jobs {
		text, err := os.ReadFile(job)
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, job, strings.ReplaceAll(string(text), "kind = \"original\"\n", "kind = \"original\"\nfitted = true\n"))
	}
	return dir, jobs
}

// TestOrdersTogether: what goes to one plater for several jobs stands on one order, what they
// share on a sheet of the shop's, and each owner is told his part, in money that adds up.
func TestOrdersTogether(t *testing.T) {
	dir, jobs := fittedJobs(t)
	out := filepath.Join(dir, "papers")
	code, text, errs := brightset(append([]string{"orders", "--out", out, "--json"}, jobs...)...)
	if code != exitAnswered {
		t.Fatal(code, errs)
	}
	var doc struct {
		Expected int64    `json:"expected_cents"`
		Files    []string `json:"files"`
		Charges  []struct {
			Cents  int64   `json:"cents"`
			Shares []int64 `json:"shares_cents"`
		} `json:"charges"`
		Jobs []struct {
			Pays   int64 `json:"pays_cents"`
			Evened int64 `json:"evened_cents"`
			Sum    int64 `json:"shares_sum_cents"`
			Shares []struct {
				Share int64 `json:"share_cents"`
			} `json:"shares"`
		} `json:"jobs"`
	}
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	pays := int64(0)
	for j, job := range doc.Jobs {
		sum := job.Evened
		for _, s := range job.Shares {
			sum += s.Share
		}
		if pays += job.Pays; sum != job.Sum || sum == 0 {
			t.Errorf("job %d: shares of %d, and the sum is %d", j+1, sum, job.Sum)
		}
	}
	for _, c := range doc.Charges {
		for _, share := range c.Shares {
			c.Cents -= share
		}
		if c.Cents != 0 {
			t.Errorf("%d of a charge is on nobody's account", c.Cents)
		}
	}
	if pays != doc.Expected || len(doc.Jobs) != 3 || len(doc.Files) != 13 {
		t.Errorf("jobs pay %d of %d; %d files", pays, doc.Expected, len(doc.Files))
	}
	for name, wants := range map[string]string{
		"plater-kell": "work as above|328.14|freight there and back|46.00|in all|374.14|job 1|job 2|cap-1|rail-1",
		"buy":         "bundle crate|96.00|26.00|122.00|job 3, tank filler cap",
		"statement-1": "3 pieces of yours, of 5 in the lot|328.14|158.94|23.00|32.00|8.67|222.61",
		"statement-3": "8.66|40.66",
		"jobs":        "freight of kell|record sent cap-1,lever-1,strap-1|record bought crate|--freight 8.67|537.22",
		"bench-2":     "sidecar grab rail",
	} {
		page, err := os.ReadFile(filepath.Join(out, name+".html"))
		for _, want := range strings.Split(wants, "|") {
			if !strings.Contains(string(page), want) {
				t.Errorf("%s does not say %q (%v)", name, want, err)
			}
		}
		for _, not := range []string{"Kell Yard", "gantry", "Gantry"} {
			if strings.HasPrefix(name, "statement") && strings.Contains(string(page), not) {
				t.Errorf("%s names %s", name, not)
			}
		}
	}
}

// TestSharesBooked: each job's record books its share of a lot and of a bundle that the kept
// plans have in common, once; the bundle's pieces are then there for each of them. What comes
// later is paid in full, and undo brings the share back.
func TestSharesBooked(t *testing.T) {
	dir, jobs := fittedJobs(t)
	keep := []string{"orders", "--keep", "--out", filepath.Join(dir, "o")}
	if code, _, errs := brightset(append(keep, jobs...)...); code != 0 {
		t.Fatal(errs)
	}
	spent := func(job string, args ...string) string {
		t.Helper()
		code, _, errs := brightset(append(append([]string{"record"}, args...), "--on", "2031-02-17")...)
		if code != exitAnswered {
			t.Fatalf("%q: %s", args, errs)
		}
		_, list, _ := brightset("record", "list", job)
		_, sum, _ := strings.Cut(list, "Spent so far: ")
		sum, _, _ = strings.Cut(sum, ". ")
		return sum
	}
	for _, c := range []struct {
		want string
		args []string
	}{
		{"23.00", []string{"sent", "cap-1,lever-1", jobs[0], "--to", "kell"}},
		{"23.00", []string{"sent", "strap-1", jobs[0], "--to", "kell"}}, // the same lot
		{"55.00", []string{"bought", "crate", jobs[0]}},
		{"23.00", []string{"sent", "rim-1,rail-1", jobs[1], "--to", "kell"}},
		{"63.67", []string{"bought", "crate", jobs[1], "--freight", "8.67"}},
		{"32.00", []string{"bought", "crate", jobs[2]}},
	} {
		if got := spent(c.args[2], c.args...); got != c.want {
			t.Errorf("%q: spent %s, not %s", c.args, got, c.want)
		}
	}
	hung := []string{"record", "hung", "crate-rims", jobs[0], "--slot", "rim", "--on", "2031-03-20"}
	if _, _, errs := brightset(hung...); errs != "" {
		t.Error(errs)
	}
	if _, _, errs := brightset("record", "hung", "crate-rims", jobs[1], "--on", "2031-03-20"); !strings.Contains(errs,
		"what is left of the bag is called crate-rims-2") {
		t.Errorf("not said what the rest is called: %s", errs)
	}
	for n, piece := range []string{"crate-rims", "crate-rims-2", "crate-cap"} {
		if n == 0 {
			continue
		}
		slot := []string{"rim", "rim-side", "cap"}[n]
		if code, _, errs := brightset("record", "hung", piece, jobs[n], "--slot", slot, "--on", "2031-03-20"); code != 0 {
			t.Errorf("%s does not hang in job %d: %s", piece, n+1, errs)
		}
	}
	if code, _, errs := brightset("record", "bought", "crate", jobs[2]); code == exitAnswered {
		t.Errorf("the crate is bought twice for one job: %s", errs)
	}
}

// TestShareOfALotOfItsOwn: a lot that goes by itself pays its own way, and what is kept of the
// common one stands until that goes; a plan kept alone shares nothing.
func TestShareOfALotOfItsOwn(t *testing.T) {
	_, jobs := fittedJobs(t)
	say := func(want string, args ...string) {
		t.Helper()
		code, out, errs := brightset(args...)
		if got := strings.Join(strings.Fields(out), " "); code != exitAnswered || !strings.Contains(got, want) {
			t.Errorf("%q: %d %s%s", args, code, got, errs)
		}
	}
	say("", append([]string{"plan", "--keep"}, jobs...)...)
	say("46.00", "record", "sent", "strap-1", jobs[0], "--to", "kell", "--new-lot", "--on", "2031-02-17")
	say("share of the freight of kell, lot kell-2", "record", "sent", "cap-1,lever-1", jobs[0], "--to", "kell", "--on",
		"2031-02-18")
	say("", "record", "undo", jobs[0])
	say("share of the freight of kell, lot kell-2", "record", "sent", "cap-1,lever-1", jobs[0], "--to", "kell", "--on",
		"2031-02-19")
	say("", "plan", "--keep", jobs[1])
	say("freight of kell, lot kell-1", "record", "sent", "rim-1", jobs[1], "--to", "kell", "--on", "2031-02-18",
		"--anyway")
	if _, out, _ := brightset("record", "list", jobs[1]); strings.Contains(out, "share of") {
		t.Errorf("a plan kept alone shares a lot: %s", out)
	}
}

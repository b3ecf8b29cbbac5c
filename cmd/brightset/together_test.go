package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model"
	"brightset/solver"
)

// threeJobs copies the jobs of one shop to a folder of the test's own.
func threeJobs(t *testing.T) (dir string, jobs []string) {
	t.Helper()
	dir = t.TempDir()
	for _, name := range []string{"shop.toml", "solo.toml", "outfit.toml", "racer.toml"} {
		data, err := os.ReadFile(filepath.Join("testdata/together", name))
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, filepath.Join(dir, name), string(data))
		if name != "shop.toml" {
			jobs = append(jobs, filepath.Join(dir, name))
		}
	}
	return dir, jobs
}

func writeTo(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// alter writes a file with one text in it replaced.
func alter(t *testing.T, path, old, new string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(data), old) != 1 {
		t.Fatalf("%s: %q is there %d times", path, old, strings.Count(string(data), old))
	}
	writeTo(t, path, strings.Replace(string(data), old, new, 1))
}

// recorded runs record, which has to work.
func recorded(t *testing.T, args ...string) {
	t.Helper()
	if code, _, errs := brightset(append([]string{"record"}, args...)...); code != exitAnswered {
		t.Fatalf("record %v: exit %d, %s", args, code, errs)
	}
}

// jointAnswer is what the tests read of the JSON document.
type jointAnswer struct {
	Status   string
	Expected *int64 `json:"expected_cents"`
	Jobs     []struct {
		Job    string
		Alone  *int64 `json:"alone_cents"`
		Apart  *int64 `json:"apart_cents"`
		Lines  int64  `json:"lines_cents"`
		Shared int64  `json:"shared_cents"`
		Evened int64  `json:"evened_cents"`
		Pays   int64  `json:"pays_cents"`
		Each   []struct {
			Slot, Piece string
			Expected    int64 `json:"expected_cents"`
			Fallback    *struct{ Piece string }
		} `json:"lines"`
		Trades []struct{ Cents int64 }
	}
	Charges []struct {
		Kind, Of string
		Cents    int64
		Single   []int64 `json:"by_itself_cents"`
		Shares   []int64 `json:"shares_cents"`
	}
	Short []string `json:"more_of_one_would_do"`
}

func planJSON(t *testing.T, want int, args ...string) *jointAnswer {
	t.Helper()
	code, out, errs := brightset(append([]string{"plan", "--json"}, args...)...)
	if code != want {
		t.Fatalf("exit %d, %s", code, errs)
	}
	doc := &jointAnswer{}
	if err := json.Unmarshal([]byte(out), doc); err != nil {
		t.Fatalf("%v in %q", err, out)
	}
	return doc
}

// addUp checks all sums of the document.
func (d *jointAnswer) addUp(t *testing.T) {
	t.Helper()
	pays, whole, shared := int64(0), int64(0), make([]int64, len(d.Jobs))
	for _, c := range d.Charges {
		sum := int64(0)
		for j, share := range c.Shares {
			sum += share
			shared[j] += share
			if share < 0 || share > c.Single[j] {
				t.Errorf("%s of %s: job %d pays %d of it, by itself %d", c.Kind, c.Of, j+1, share, c.Single[j])
			}
		}
		if sum != c.Cents {
			t.Errorf("%s of %s: shares of %d, %d in all", c.Kind, c.Of, sum, c.Cents)
		}
		whole += c.Cents
	}
	for j, job := range d.Jobs {
		lines := int64(0)
		for _, l := range job.Each {
			lines += l.Expected
		}
		for _, tr := range job.Trades {
			lines += tr.Cents
		}
		if lines != job.Lines || shared[j] != job.Shared || job.Pays != job.Lines+job.Shared+job.Evened {
			t.Errorf("job %d: lines %d, shares %d; it says %d + %d + %d = %d", j+1, lines, shared[j], job.Lines, job.Shared, job.Evened, job.Pays)
		}
		pays += job.Pays
		whole += lines
	}
	if d.Expected == nil || *d.Expected != pays || *d.Expected != whole {
		t.Errorf("expected %v, the jobs pay %d, it adds up to %d", d.Expected, pays, whole)
	}
}

// uses counts how often jobs use a piece, as first choice or in reserve.
func (d *jointAnswer) uses(piece string) (n int) {
	for _, job := range d.Jobs {
		for _, l := range job.Each {
			if l.Piece == piece {
				n++
			}
			if l.Fallback != nil && l.Fallback.Piece == piece {
				n++
			}
		}
	}
	return n
}

// The sums add up, and no piece is used more often than there is, before anything was
// recorded and while the jobs are under way.
func TestTogetherUnderWay(t *testing.T) {
	for name, actions := range map[string][][]string{
		"nothing recorded": nil,
		"at the plater's":  {{"sent", "rim-drawer", "--to", "kell", "--level", "good", "racer.toml"}},
		"back from there":  {{"sent", "rim-drawer", "--to", "kell", "--level", "good", "racer.toml"}, {"back", "rim-drawer", "racer.toml"}},
		"hung":             {{"hung", "rim-drawer", "--slot", "rim", "solo.toml"}},
		"bundle bought":    {{"bought", "crate", "solo.toml"}, {"hung", "crate-rims", "--slot", "rim", "solo.toml"}},
		"broken":           {{"broke", "rim-drawer", "outfit.toml"}},
		"one of two":       {{"broke", "crate-rims", "--count", "1", "outfit.toml"}},
	} {
		t.Run(name, func(t *testing.T) {
			dir, jobs := threeJobs(t)
			alter(t, jobs[2], `budget = "260.00"`, `budget = "560.00"`)
			for _, a := range actions {
				a = slices.Clone(a)
				a[len(a)-1] = filepath.Join(dir, a[len(a)-1])
				recorded(t, a...)
			}
			doc := planJSON(t, exitAnswered, jobs...)
			doc.addUp(t)
			if doc.Status != "optimal" {
				t.Errorf("%s", doc.Status)
			}
			for piece, there := range map[string]int{"rim-drawer": 1, "cap-drawer": 1, "crate-rims": 2, "crate-cap": 1} {
				if name == "one of two" && piece == "crate-rims" || name == "bundle bought" && piece == "crate-rims" {
					there = 1
				}
				if name == "broken" && piece == "rim-drawer" {
					there = 0
				}
				if n := doc.uses(piece); n > there {
					t.Errorf("%s is used %d times", piece, n)
				}
			}
			for _, u := range []struct {
				in   string
				job  int
				slot string
				hang string
			}{{"hung", 0, "rim", "rim-drawer"}, {"bundle bought", 0, "rim", "crate-rims"}} {
				if u.in != name {
					continue
				}
				for _, l := range doc.Jobs[u.job].Each {
					if l.Slot == u.slot && l.Piece != u.hang {
						t.Errorf("%s in %s, though %s hangs there", l.Piece, u.slot, u.hang)
					}
				}
			}
		})
	}
}

// What several jobs want so that not all can have it is named, alone or together.
func TestTogetherInfeasible(t *testing.T) {
	dir, jobs := threeJobs(t)
	jobs = jobs[:2]
	shop := filepath.Join(dir, "shop.toml")
	for i, job := range jobs {
		writeTo(t, job, `[job]
title = "one of two"
shop = "shop.toml"
[target]
floor = 80
[slot.ring]
part = "ring"
[piece.own]
fits = ["ring"]
kind = "original"
metal = "brass"
grade = `+[]string{"30", "40"}[i]+"\n")
	}
	writeTo(t, shop, `[piece.spare]
fits = ["ring"]
kind = "original"
metal = "brass"
grade = 85
`)
	doc := planJSON(t, exitInfeasible, jobs...)
	if doc.Status != "infeasible" || doc.Expected != nil || !slices.Equal(doc.Short, []string{"spare"}) {
		t.Errorf("%s, expected %v, short of %v", doc.Status, doc.Expected, doc.Short)
	}
	code, out, _ := brightset(append([]string{"plan"}, jobs...)...)
	if code != exitInfeasible || !strings.Contains(out, "would be enough: spare.") {
		t.Errorf("exit %d: %s", code, out)
	}
	third := filepath.Join(dir, "third.toml") // so that two more are needed
	data, err := os.ReadFile(jobs[0])
	if err != nil {
		t.Fatal(err)
	}
	writeTo(t, third, string(data))
	code, out, _ = brightset("plan", jobs[0], jobs[1], third)
	if code != exitInfeasible || !strings.Contains(out, "More of any one of these") || strings.Contains(strings.ToLower(out), "one more") {
		t.Errorf("three jobs: exit %d: %s", code, out)
	}
	alter(t, jobs[1], "floor = 80", "floor = 86")
	code, out, errs := brightset(append([]string{"plan"}, jobs...)...)
	if code != exitInfeasible || strings.Contains(out, "spare") || !strings.Contains(errs, jobs[1]) || strings.Contains(errs, jobs[0]) {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	alter(t, jobs[1], "floor = 86", "floor = 35") // its own will do
	if doc := planJSON(t, exitAnswered, jobs...); *doc.Expected != 0 || doc.uses("spare") != 1 {
		t.Errorf("expected %d, the spare used %d times", *doc.Expected, doc.uses("spare"))
	}
}

// One job by two names is one job; one shop by two names has two journals.
func TestTogetherLinks(t *testing.T) {
	dir, jobs := threeJobs(t)
	link := filepath.Join(dir, "link.toml")
	if err := os.Symlink("solo.toml", link); err != nil {
		t.Skip(err)
	}
	code, _, errs := brightset("plan", jobs[0], link)
	if code != exitUsage || !strings.Contains(errs, `link.toml" is the same job as`) {
		t.Errorf("the job: exit %d, %s", code, errs)
	}
	if err := os.Symlink("shop.toml", filepath.Join(dir, "store.toml")); err != nil {
		t.Fatal(err)
	}
	alter(t, jobs[1], `shop = "shop.toml"`, `shop = "store.toml"`)
	if code, _, errs = brightset("plan", jobs[0], jobs[1]); code != exitUsage || !strings.Contains(errs, "two journals") {
		t.Errorf("the shop: exit %d, %s", code, errs)
	}
	alter(t, jobs[1], `shop = "store.toml"`, `shop = "../`+filepath.Base(dir)+`/shop.toml"`)
	if code, _, errs = brightset("plan", jobs[0], jobs[1]); code != exitAnswered {
		t.Errorf("by another path: exit %d, %s", code, errs)
	}
}

// Mistakes in all files are told in one run, those of the shop once.
func TestTogetherMistakesOnce(t *testing.T) {
	dir, jobs := threeJobs(t)
	alter(t, filepath.Join(dir, "shop.toml"), "hourly = \"48.00\"", "hourli = \"48.00\"")
	alter(t, jobs[0], "floor = 80", "flor = 80")
	alter(t, jobs[2], "floor = 75", "flor = 75")
	for _, args := range [][]string{jobs, append([]string{"--json"}, jobs...)} {
		code, out, errs := brightset(append([]string{"plan"}, args...)...)
		if code != exitMistakes || out != "" {
			t.Errorf("exit %d: %s", code, out)
		}
		for text, n := range map[string]int{`"hourli"`: 1, `"flor"`: 2, "solo.toml:": 1, "racer.toml:": 1, "outfit.toml:": 0} {
			if got := strings.Count(errs, text); got != n {
				t.Errorf("%s is there %d times in %s", text, got, errs)
			}
		}
	}
}

// A plan of all jobs is kept by all, or by none if one of them has changed.
func TestTogetherKeep(t *testing.T) {
	dir, jobs := threeJobs(t)
	states, err := loadAll(jobs)
	if err != nil {
		t.Fatal(err)
	}
	joint, err := model.PlanTogether(context.Background(), states, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	kept := func() (list []string) {
		for _, job := range jobs {
			if st, err := catalog.Load(job, catalog.Options{}); err == nil && st.Kept != nil {
				list = append(list, filepath.Base(job))
			}
		}
		return list
	}
	alter(t, jobs[2], "floor = 75", "floor = 76")
	var errs strings.Builder
	if err = keepAll(&call{err: &errs}, joint); err == nil || !strings.Contains(err.Error(), "racer.toml has changed") || len(kept()) > 0 {
		t.Errorf("changed meanwhile: %v, kept by %v", err, kept())
	}
	alter(t, jobs[2], "floor = 76", "floor = 75")
	if err = keepAll(&call{err: &errs}, joint); err != nil || len(kept()) != len(jobs) {
		t.Errorf("%v, kept by %v", err, kept())
	}
	if _, err := os.Stat(filepath.Join(dir, "shop.journal")); err == nil {
		t.Error("something was recorded of the shop's")
	}
}

// Stopped before there is a plan, it says so, and writes a document if one is asked for.
func TestTogetherNoTime(t *testing.T) {
	_, jobs := threeJobs(t)
	code, out, errs := brightset(append([]string{"plan", "--time-limit", "1ns"}, jobs...)...)
	if code == exitFailed && (out != "" || !strings.Contains(errs, "before a plan of all jobs was found")) || code != exitFailed && code != exitUnproven {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	doc := planJSON(t, code, append([]string{"--time-limit", "1ns"}, jobs...)...)
	if doc.Status != "stopped" || len(doc.Jobs) != len(jobs) || doc.Expected != nil != (code == exitUnproven) {
		t.Errorf("%s, expected %v, %d jobs", doc.Status, doc.Expected, len(doc.Jobs))
	}
}

// Six jobs with long titles and large sums, with everything there is to show, stay within
// 80 columns, and a job's row in the table of what each pays stays one line.
func TestTogetherWide(t *testing.T) {
	dir, jobs := threeJobs(t)
	money := regexp.MustCompile(`"[0-9]+\.00"`)
	for _, file := range append([]string{filepath.Join(dir, "shop.toml")}, jobs...) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, file, money.ReplaceAllStringFunc(string(data), func(m string) string { return strings.Replace(m, ".", "00.", 1) }))
	}
	alter(t, jobs[2], "club racer, bright trim", strings.Repeat("racer of the club in the valley ", 4))
	data, err := os.ReadFile(jobs[2])
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"d.toml", "e.toml", "f.toml"} {
		jobs = append(jobs, filepath.Join(dir, name))
		writeTo(t, jobs[len(jobs)-1], string(data))
	}
	code, out, errs := brightset(append([]string{"plan"}, jobs...)...)
	if code != exitAnswered {
		t.Fatalf("exit %d: %s", code, errs)
	}
	_, table, _ := strings.Cut(out, "What each job pays, expected:\n")
	table, _, _ = strings.Cut(table, "\n\n")
	lines := strings.Split(table, "\n")
	for _, head := range []string{"lines", "charges", "evened", "pays", "alone", "apart", "saves"} {
		if !strings.Contains(lines[0], head) {
			t.Errorf("no column of %s: the case shows too little\n%s", head, table)
		}
	}
	if len(lines) != 2+len(jobs)+2 {
		t.Errorf("rows don't stay one line:\n%s", table)
	}
	for _, line := range strings.Split(out, "\n") {
		if w := report.Width(line); w > report.Columns && !strings.Contains(line, dir) {
			t.Errorf("%d columns: %s", w, line)
		}
	}
	if _, again, _ := brightset(append([]string{"plan"}, jobs...)...); again != out {
		t.Error("another run gives another answer")
	}
}

// A bundle of the shop's is bought once, though every job has its own terms with the
// vendor; each pays its own freight.
func TestTogetherOwnVendors(t *testing.T) {
	dir, jobs := threeJobs(t)
	shop := filepath.Join(dir, "shop.toml")
	vendor := "[vendor.gantry]\nname = \"Gantry Cycle Breakers\"\nfreight = \"26.00\"\ndays = 9\n"
	alter(t, shop, vendor, "")
	for i, freight := range []string{"26.00", "12.00", "3.00"} {
		data, err := os.ReadFile(jobs[i])
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, jobs[i], string(data)+"\n"+strings.Replace(vendor, "26.00", freight, 1))
	}
	doc := planJSON(t, exitAnswered, jobs...)
	doc.addUp(t)
	crates, freights := 0, int64(0)
	for _, c := range doc.Charges {
		switch {
		case c.Kind == "bundle":
			crates++
			if c.Cents != 96_00 || !slices.Equal(c.Single, []int64{0, 96_00, 96_00}) {
				t.Errorf("the crate: %d, by itself %v", c.Cents, c.Single)
			}
		case c.Kind == "vendor-freight":
			freights += c.Cents
		}
	}
	if crates != 1 || freights != 15_00 || *doc.Expected != 526_22 {
		t.Errorf("%d crates, freights %d, expected %d in all", crates, freights, *doc.Expected)
	}
}

// Jobs that share a charge and start on different days are told so, others are not.
func TestTogetherStarts(t *testing.T) {
	_, jobs := threeJobs(t)
	told := func() string {
		_, out, _ := brightset(append([]string{"plan"}, jobs...)...)
		return strings.Join(strings.Fields(out), " ")
	}
	const text = "job 1 (start 2031-02-03), job 2 (start 2031-02-03), job 3 (start 2031-02-17) share freight of gantry, bundle crate: that must not wait"
	if out := told(); strings.Count(out, text) != 1 || strings.Count(out, "must not wait") != 1 {
		t.Errorf("not told: %s", out)
	}
	alter(t, jobs[2], "start = 2031-02-17", "start = 2031-02-03")
	if out := told(); strings.Contains(out, "must not wait") {
		t.Errorf("told, though all start on one day: %s", out)
	}
}

// Pieces out of one bundle of the shop's that stand in the jobs' files may be the same
// pieces: it is said that nobody can tell.
func TestTogetherBundleInJobs(t *testing.T) {
	dir, jobs := threeJobs(t)
	out := func() string {
		code, out, errs := brightset("plan", jobs[0], jobs[1])
		if code != exitAnswered {
			t.Fatalf("exit %d: %s", code, errs)
		}
		return strings.Join(strings.Fields(out), " ")
	}
	const text = "bundle box: job 1, job 2 use pieces out of it that stand in their own files"
	shop := filepath.Join(dir, "shop.toml")
	alter(t, shop, "[bundle.crate]", "[bundle.box]\nvendor = \"gantry\"\nprice = \"20.00\"\n\n[bundle.crate]")
	piece := "\n[piece.boxed]\nfits = [\"rim\"]\nkind = \"old-stock\"\nmetal = \"brass\"\nbundle = \"box\"\ngrade = 99\n"
	for i, want := range []bool{false, true} {
		data, err := os.ReadFile(jobs[i])
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, jobs[i], string(data)+piece)
		if got := out(); strings.Contains(got, text) != want || !strings.Contains(got, "boxed as-is") {
			t.Errorf("in the files of %d jobs: told %t: %s", i+1, !want, got)
		}
	}
}

package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

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
		_, out, _ := brightset(append([]string{"plan", "--full"}, jobs...)...)
		return strings.Join(strings.Fields(out), " ")
	}
	const text = "job 1 (start 2031-02-03), job 2 (start 2031-02-03), job 3 (start 2031-02-17) share freight of gantry, " +
		"bundle crate: that must not wait"
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
		code, out, errs := brightset("plan", "--full", jobs[0], jobs[1])
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
		if got := out(); strings.Contains(got, text) != want || !strings.Contains(got, "boxed, as it is") {
			t.Errorf("in the files of %d jobs: told %t: %s", i+1, !want, got)
		}
	}
}

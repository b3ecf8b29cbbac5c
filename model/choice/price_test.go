package choice

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// A piece out of a bundle of 60.00 with two pieces costs its half by itself, and a lead its
// whole price, whatever the chance that it comes.
func TestPriceByItself(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Sold].Chance = 250_000
	st.Pieces[jobs.Other].Bundle = 0
	asIs := func(piece int) catalog.Cents {
		return IfItComes(st, jobs.Pick(Choices(st)[jobs.Left], piece, catalog.WorkAsIs, catalog.None, ""))
	}
	if got := asIs(jobs.Bagged); got != 30_00 {
		t.Errorf("out of the bundle: %d", got)
	}
	if got := asIs(jobs.Sold); got != 100_00 {
		t.Errorf("the lead: %d", got)
	}
	st.Pieces[jobs.Other].Quantity = 2
	if got := asIs(jobs.Bagged); got != 20_00 {
		t.Errorf("out of three: %d", got)
	}
}

// A work that nobody does is told with the pieces that wait for it, until somebody takes it or
// a plater names a price.
func TestUntaken(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Findings = []catalog.Finding{{Defect: jobs.Bent, Severity: catalog.Severe, Count: 1}}
	if got := UntakenWorks(st); len(got) != 0 {
		t.Errorf("makers do posts: %+v", got)
	}
	st.Makers = nil
	got := UntakenWorks(st)
	if len(got) != 1 || st.Tables.Works[got[0].Work].Name != "posts" || len(got[0].Pieces) != 1 ||
		got[0].Pieces[0] != jobs.Twisted {
		t.Fatalf("%+v", got)
	}
	if with := WithTakers(st, []int{got[0].Work}); len(UntakenWorks(with)) != 0 || len(st.Makers) != 0 {
		t.Error("with a taker it still waits")
	}
	st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{ID: "a", Plater: jobs.North, Cost: 90_00}}
	if got := UntakenWorks(st); len(got) != 0 {
		t.Errorf("a price is named: %+v", got)
	}
}

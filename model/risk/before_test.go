package risk

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestBeforeItIsSent, by hand, of pot metal bent in two places, which north straightens,
// with three pits, which the shop fills before it goes to him:
//
//	plate    96.00 (3.2 dm2 at 30.00) and 1.4 h at 60.00 = 84.00: 180.00
//	before   3 x 0.2 h at 40.00 = 24.00, paid though he may send it back
//	his      1.2 x (1 - 0.92 x 0.80) = 0.3168; the factor is for his own works
//	breakage 1 - 0.6832 x 0.99 = 0.323632
//	refused  0.5 x 0.3 = 0.15
//	paid     24.00 + 0.15 x 8.00 + 0.85 x 180.00 = 178.20
//	fallback  the same, and his freight of 30.00: 208.20, and p x 450.00
//
// Once it is sent the filling is behind it: neither its cost nor its breakage counts.
func TestBeforeItIsSent(t *testing.T) {
	st := jobs.Tiny()
	p := &st.Pieces[jobs.Twisted]
	p.Metal = jobs.PotMetal
	p.Findings = append(p.Findings, catalog.Finding{ID: "p", Defect: jobs.Pits, Severity: catalog.Moderate, Count: 3})
	k := jobs.Pick(choice.Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	fails := catalog.One - catalog.Both(850_000, 676_368)
	if k == nil || k.Plate != 180_00 || k.Before != 24_00 || k.Other != 0 || k.Breakage != 323_632 ||
		k.Refused != 150_000 ||
		k.Fails != fails || k.ExpectedCost != 178_20 || k.Cash != 204_00 {
		t.Fatalf("%+v", k)
	}
	if got, want := choice.FallbackCost(st, k), catalog.Cents(208_20)+catalog.Of(fails,
		catalog.Cents(450_00)); got != want {
		t.Errorf("fallback %d, want %d", got, want)
	}
	mean := 0.0
	for _, o := range Outcomes(st, &plan.Line{Slot: jobs.Left, Choice: k}) {
		mean += o.Chance * float64(o.Cents)
	}
	if want := float64(choice.Expected(st, k, nil)); mean < want-2 || mean > want+2 {
		t.Errorf("outcomes come to %.2f on average, the line to %.0f", mean, want)
	}
	p.Sent = catalog.Sent{Was: true, Count: 1, Quote: choice.Terms(st, k)}
	k = jobs.Pick(choice.Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	if k == nil || !k.Sent || k.Before != 0 || k.Breakage != 316_800 || k.Refused != 150_000 ||
		k.ExpectedCost != 154_20 || k.Cash != 180_00 {
		t.Errorf("sent: %+v", k)
	}
	adapter.CompareChoices(t, st)
}

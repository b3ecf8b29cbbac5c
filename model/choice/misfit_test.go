package choice

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// A reproduction at 100.00 from a vendor whose freight is 15.00, which may come (c = 0.8)
// and may not fit (m = 0.25): u = 0.8 x 0.75 = 0.6.
//
//	paid as it is     0.6 x 100.00 + (0.8 - 0.6) x 15.00 = 63.00; p = 1 - 0.6
//	standing in       0.6 x (100.00 + 15.00) + 0.2 x (15.00 + 15.00) + 0.4 x 450.00 = 255.00
//	all going well    100.00
func TestMisfitByHand(t *testing.T) {
	job := func() (*catalog.State, *catalog.Piece) {
		st := jobs.Tiny()
		st.Shop.Misfit = jobs.Start(catalog.Micro(250_000))
		p := &st.Pieces[jobs.Sold]
		p.Kind, p.Chance = catalog.Reproduction, 800_000
		return st, p
	}
	st, _ := job()
	c := jobs.Pick(ChoicesFor(st, jobs.Left), jobs.Sold, catalog.WorkAsIs, catalog.None, "")
	if c.Misfit != 250_000 || c.Back != 15_00 || c.Usable() != 600_000 || c.Fails != 400_000 ||
		c.ExpectedCost != 63_00 || c.Cash != 100_00 {
		t.Errorf("%+v", *c)
	}
	if got := FallbackCost(st, c); got != 255_00 {
		t.Errorf("standing in costs %d, want 25500", got)
	}

	for name, known := range map[string]func(st *catalog.State, p *catalog.Piece){
		"tried":         func(_ *catalog.State, p *catalog.Piece) { p.Tried = true },
		"fitted":        func(_ *catalog.State, p *catalog.Piece) { p.Fitted = []int{jobs.Left} },
		"back":          func(_ *catalog.State, p *catalog.Piece) { p.Stage, p.Sent.Was = catalog.StageBack, true },
		"handwork":      func(_ *catalog.State, p *catalog.Piece) { p.Fit = []catalog.Fit{{Slot: jobs.Left, Cap: 100_00}} },
		"original":      func(_ *catalog.State, p *catalog.Piece) { p.Kind = catalog.Original },
		"old stock":     func(_ *catalog.State, p *catalog.Piece) { p.Kind = catalog.OldStock },
		"none misfits":  func(st *catalog.State, _ *catalog.Piece) { st.Shop.Misfit = jobs.Given(catalog.Micro(0)) },
		"nothing known": func(st *catalog.State, _ *catalog.Piece) { st.Shop.Misfit = catalog.Val[catalog.Micro]{} },
	} {
		st, p := job()
		known(st, p)
		c := jobs.Pick(ChoicesFor(st, jobs.Left), jobs.Sold, catalog.WorkAsIs, catalog.None, "")
		if c.Misfit != 0 || c.Back != 0 || c.ExpectedCost != 80_00 || c.Fails != 200_000 {
			t.Errorf("%s: %+v", name, *c)
		}
	}

	// tried on in another slot, which says nothing of this one
	st, p := job()
	p.Fitted = []int{jobs.Right}
	if c = jobs.Pick(ChoicesFor(st, jobs.Left), jobs.Sold, catalog.WorkAsIs, catalog.None, ""); c.Misfit != 250_000 {
		t.Errorf("tried on elsewhere: %+v", *c)
	}
	// a bag of two is of one make: either both fit or neither
	st, p = job()
	st.Slots[jobs.Left].Quantity, p.Quantity = 2, 2
	c = jobs.Pick(ChoicesFor(st, jobs.Left), jobs.Sold, catalog.WorkAsIs, catalog.None, "")
	if c.Misfit != 250_000 || c.Back != 15_00 || c.ExpectedCost != 123_00 {
		t.Errorf("two: %+v", *c)
	}
	// out of a bundle, or from the drawer, nothing is sent back
	st, p = job()
	p.Side, p.Vendor = catalog.Shops, catalog.None
	c = jobs.Pick(ChoicesFor(st, jobs.Left), jobs.Sold, catalog.WorkAsIs, catalog.None, "")
	if c.Misfit != 250_000 || c.Back != 0 {
		t.Errorf("drawer: %+v", *c)
	}
}

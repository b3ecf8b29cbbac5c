package paper

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// boxedJob: slots that need so many screws, which are sold in boxes of 50 alone, at
// 11.00 and 12.00 freight.
func boxedJob(needs ...int) *catalog.State {
	st := &catalog.State{Job: catalog.Job{File: "job.toml"}, Vendors: []catalog.Vendor{{ID: "halse", Freight: 12_00}},
		Bundles: []catalog.Bundle{{ID: "screws", Vendor: 0, Price: 11_00, Box: 50}}}
	st.Tables.Metals = []catalog.Metal{{Name: "brass"}}
	p := catalog.Piece{ID: "screws", Kind: catalog.Reproduction, Side: catalog.Vendors, Quantity: 500, Chance: catalog.One,
		Grade: catalog.Val[catalog.Centi]{V: 95_00, Set: true}, HungIn: catalog.None}
	for s, n := range needs {
		st.Slots = append(st.Slots, catalog.Slot{ID: string(rune('a' + s)), Quantity: n, Weight: 100})
		p.Fits = append(p.Fits, s)
	}
	st.Pieces = []catalog.Piece{p}
	return st
}

// TestBoxesByHand: whole boxes for all slots together, one freight, and what is left of them.
func TestBoxesByHand(t *testing.T) {
	for _, c := range []struct {
		needs      []int
		boxes      catalog.Cents
		over, left int // of the boxes that are bought; with the seller
	}{
		{[]int{36}, 1, 14, 450}, {[]int{36, 14}, 1, 0, 450}, {[]int{36, 15}, 2, 49, 400}, {[]int{36, 14, 30}, 2, 20, 400},
		{[]int{120}, 3, 30, 350}, {[]int{30, 30, 30, 30}, 3, 30, 350}, {[]int{500}, 10, 0, 0}, {[]int{301, 1}, 7, 48, 150},
	} {
		st := boxedJob(c.needs...)
		pl, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil || pl.Status != plan.Optimal {
			t.Fatal(c.needs, err)
		}
		if got := plan.ChargeOf(pl, plan.ChargeBundle, 0); got != c.boxes*11_00 || pl.Expected != c.boxes*11_00+12_00 ||
			pl.Outlay != pl.Expected {
			t.Errorf("%v: boxes for %d, %d in all, %d spent; want %d boxes", c.needs, got, pl.Expected, pl.Outlay, c.boxes)
		}
		buy := Purchases(pl)
		if len(buy) != 1 || buy[0].Bundled != c.boxes*11_00 || buy[0].Total != pl.Expected {
			t.Errorf("%v: bought: %+v", c.needs, buy)
		}
		if acts := Todo(pl); len(acts) != 1 || acts[0].Boxes[0] != int(c.boxes) {
			t.Errorf("%v: to do: %+v, want %d boxes", c.needs, acts, c.boxes)
		}
		over, left := 0, 0
		for _, s := range Leftover(pl) {
			if s.Paid {
				over += s.Quantity
			} else {
				left += s.Quantity
			}
		}
		if over != c.over || left != c.left {
			t.Errorf("%v: %d are left over and %d with the seller, want %d and %d", c.needs, over, left, c.over, c.left)
		}
	}
}

// TestBoxesOnTheQuote: 51 screws are two boxes, 22.00 and 12.00 freight, at a markup of a tenth
// 37.40 to the owner: that keeps a budget on his price, and a cent less does not.
func TestBoxesOnTheQuote(t *testing.T) {
	for budget, want := range map[catalog.Cents]plan.Status{37_40: plan.Optimal, 37_39: plan.Infeasible} {
		st := boxedJob(36, 15)
		st.Quote.Parts = 100_000
		st.Job.BudgetOn, st.Job.Budget = catalog.OnQuote, catalog.Val[catalog.Cents]{V: budget, Set: true}
		pl, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil || pl.Status != want {
			t.Errorf("a budget of %d: %+v, %v", budget, pl, err)
		}
	}
}

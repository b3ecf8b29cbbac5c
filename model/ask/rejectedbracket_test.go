package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// TestRejectedBrackets: likewise for what the set comes to with a piece that it does not use.
func TestRejectedBrackets(t *testing.T) {
	open, found := 0, 0
	bracketed(t, 5, 4, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		exact, whole, err := RejectedPieces(context.Background(), pl, false, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := RejectedPieces(context.Background(), pl, false, solver.Settings{NodeLimit: 1})
		if err != nil {
			t.Fatal(err)
		}
		for i := range cut {
			q := &cut[i]
			p := &exact[slices.IndexFunc(exact, func(p RejectedPiece) bool { return p.Slot == q.Slot && p.Piece == q.Piece })]
			if p.Open || !p.Both && p.Why == "" && p.Least != p.More-p.Keeps {
				t.Errorf("seed %d slot %d: by the whole search %+v", seed, p.Slot, p)
			}
			switch {
			case !q.Open && (q.More-q.Keeps != p.More-p.Keeps || q.Both != p.Both || q.Why != p.Why):
				t.Errorf("seed %d slot %d: %+v is not open, by the whole search it is %+v", seed, p.Slot, q, p)
			case q.Open && !p.Both && (p.Why != "" || q.Least > p.Least || q.Choice != nil && q.More-q.Keeps < p.Least):
				t.Errorf("seed %d slot %d: between %d and %d, by the whole search %+v", seed, p.Slot, q.Least, q.More, p)
			case q.Open:
				if open++; whole {
					t.Errorf("seed %d: whole, and a piece is open", seed)
				}
				if q.Choice != nil {
					found++
				}
			}
		}
	})
	if open < 3 || found < 2 {
		t.Errorf("%d pieces open, with a set %d: too few to tell", open, found)
	}
}

// TestRuleBrackets: likewise for what the demands cost.
func TestRuleBrackets(t *testing.T) {
	open := 0
	bracketed(t, 7, 8, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		ctx := context.Background()
		exact, whole, err := pricesOfRules(ctx, t, st, pl, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := pricesOfRules(ctx, t, st, pl, solver.Settings{NodeLimit: 1})
		if err != nil {
			t.Fatal(err)
		}
		for i := range cut {
			q, costs := &cut[i], catalog.Cents(0)
			for k := range exact {
				if p := &exact[k]; p.Requirement.Words == q.Requirement.Words {
					costs = p.weighed()
				}
			}
			if q.Costs+q.Keeps > costs || q.weighed() < costs {
				t.Errorf("seed %d: %s costs %d to %d, by the whole search %d", seed, q.Requirement.Words, q.Costs+q.Keeps,
					q.weighed(), costs)
			}
			if q.Costs < q.Most {
				if open++; whole {
					t.Errorf("seed %d: whole, and %s is open", seed, q.Requirement.Words)
				}
			}
		}
	})
	if open < 3 {
		t.Errorf("%d demands open: too few to tell", open)
	}
}

// setOf is a plan of one slot that hangs a piece, with what none is below.
func setOf(status solver.Status, has bool, piece int, cents, keeps, bound catalog.Cents) *plan.Plan {
	p := &plan.Plan{Of: &catalog.State{Pieces: make([]catalog.Piece, 2)}, Has: has, Status: status, Bound: bound}
	if has {
		p.Expected, p.Keeps, p.Lines = cents, keeps, []plan.Line{{Choice: &plan.Choice{Piece: piece}}}
	}
	return p
}

// TestBracketsByHand: what is known of a set that time was up for, against a plan of 100.00 that keeps 5.00.
func TestBracketsByHand(t *testing.T) {
	pl, nothing := setOf(solver.Optimal, true, 0, 100_00, 5_00, 100_00), -catalog.Cents(catalog.MaxSum)
	for _, c := range []struct {
		other             *plan.Plan
		known, open, both bool
		least             catalog.Cents
	}{
		{setOf(solver.Optimal, true, 1, 107_00, 2_00, 107_00), true, false, false, 10_00},
		{setOf(solver.Stopped, true, 1, 107_00, 2_00, 103_00), true, true, false, 6_00},
		{setOf(solver.Stopped, true, 1, 107_00, 2_00, 107_00), true, false, false, 10_00},
		{setOf(solver.Stopped, true, 1, 107_00, 2_00, nothing), true, true, false, 0},
		{setOf(solver.Stopped, false, 1, 0, 0, 98_00), true, true, false, 3_00},
		{setOf(solver.Stopped, false, 1, 0, 0, 95_00), false, true, false, 0},
		{setOf(solver.Stopped, false, 1, 0, 0, nothing), false, true, false, 0},
		{setOf(solver.Infeasible, false, 1, 0, 0, 0), true, false, true, 0},
	} {
		var a RejectedPiece
		if known := a.compare(c.other, pl); known != c.known || a.Open != c.open || a.Both != c.both || a.Least != c.least {
			t.Errorf("%+v: known %v, %+v", c.other, known, a)
		}
	}
	for _, c := range []struct {
		other              *plan.Plan
		costs, keeps, most catalog.Cents
		instead            bool
	}{
		{setOf(solver.Optimal, true, 1, 90_00, 6_00, 90_00), 10_00, 1_00, 10_00, true},
		{setOf(solver.Stopped, true, 1, 90_00, 6_00, 87_00), 10_00, 1_00, 13_00, true},
		{setOf(solver.Stopped, true, 0, 90_00, 6_00, 90_00), 10_00, 1_00, 10_00, false},
		{setOf(solver.Stopped, true, 1, 101_00, 5_00, 97_00), 0, 0, 3_00, false}, // the plan itself is better
		{setOf(solver.Stopped, false, 1, 0, 0, 93_00), 0, 0, 2_00, false},
	} {
		p := rulePrice(pl, c.other, 0)
		if p.Costs != c.costs || p.Keeps != c.keeps || p.Most != c.most || (p.Instead != nil) != c.instead {
			t.Errorf("%+v: %+v", c.other, p)
		}
	}
}

package model

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// TestStopPriceByHand: at the highest price the plan's choice still belongs to a
// cheapest set, and a little above a set without it is cheaper; by quotes in the state
// itself.
func TestStopPriceByHand(t *testing.T) {
	looked, ended := 0, 0
	for seed := range int64(400) {
		st := randomState(seed, 3, randomOptions{})
		plan := cheapest(t, st)
		for _, l := range plan.Lines { // quotes can be moved in the state, estimates can't
			if l.Choice.Plated() && l.Choice.Quote == catalog.None {
				st.Pieces[l.Choice.Piece].Quotes = []catalog.Quote{Terms(st, l.Choice)}
			}
		}
		if plan = cheapest(t, st); !plan.Has {
			continue
		}
		all, whole, err := StopPrices(context.Background(), st, plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for _, p := range all {
			if p.Choice.Quote == catalog.None || needed(&st.Slots[p.Slot]) > 1 || p.ByBudget || len(st.Pieces[p.Choice.Piece].Quotes) > 1 {
				continue // other platers' prices are none of this
			}
			looked++
			banned := st.Clone()
			banned.Bans = append(banned.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: p.Choice.Piece, Plater: p.Choice.Plater}})
			other := cheapest(t, banned)
			moved := func(price catalog.Cents) catalog.Cents {
				next := st.Clone()
				next.Pieces[p.Choice.Piece].Quotes[p.Choice.Quote].Cost = price
				return carriedOut(next, plan, lookup(Choices(next)))
			}
			if other.Has && moved(p.Highest) > other.Expected {
				t.Errorf("seed %d slot %d: at %d the plan costs %d, without it %d", seed, p.Slot, p.Highest, moved(p.Highest), other.Expected)
			}
			if !p.NoOther && moved(p.Highest+1) <= other.Expected {
				t.Errorf("seed %d slot %d: at %d the plan still costs %d, without it %d", seed, p.Slot, p.Highest+1, moved(p.Highest+1), other.Expected)
			}
			ended++
		}
	}
	if looked < 20 || ended < 10 {
		t.Errorf("%d looked at, %d with an end", looked, ended)
	}
}

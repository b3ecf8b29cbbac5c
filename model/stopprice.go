package model

import (
	"context"

	"brightset/catalog"
	"brightset/solver"
)

// StopPrice is the highest price after stripping, for one piece, at which the plan is
// still the thing to do: above it, stop the work and decide again.
type StopPrice struct {
	Slot     int
	Choice   *Choice
	Planned  catalog.Cents // the plater's part for one piece, as planned
	Highest  catalog.Cents
	NoOther  bool // nothing else could hang there: only the budget sets an end, or nothing does
	ByBudget bool // above it the budget is broken
}

// StopPrices looks at every planned piece whose price may still change: without a firm
// quote and not yet approved. The plan costs more with the price; the cheapest set in
// which he does not plate the piece costs what it costs: where they meet is where to
// stop. One solve each; whole is false where time ran out.
func StopPrices(ctx context.Context, st *catalog.State, plan *Plan, set solver.Settings) (all []StopPrice, whole bool, err error) {
	clock := newClock(ctx, set)
	for s := range plan.Lines {
		c := plan.Lines[s].Choice
		if !priceOpen(st, c) {
			continue
		}
		set, ok := clock.next()
		if !ok {
			return all, false, nil
		}
		other, err := Solve(ctx, notPlated(st, c), set)
		if err != nil || other.Status == solver.Stopped {
			return all, false, err
		}
		all = append(all, stopPrice(st, plan, s, other))
	}
	return all, true, nil
}

// notPlated is the state in which the plater of a choice does not plate its piece.
func notPlated(st *catalog.State, c *Choice) *catalog.State {
	out := st.Clone()
	out.Bans = append(out.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: c.Piece, Plater: c.Plater}})
	return out
}

// priceOpen says whether a plater may yet name another price.
func priceOpen(st *catalog.State, c *Choice) bool {
	p := &st.Pieces[c.Piece]
	switch {
	case !c.Plated() || p.Stage >= catalog.StageApproved:
		return false
	case c.Sent:
		return p.Stage < catalog.StagePriced
	}
	return c.Quote == catalog.None || p.Quotes[c.Quote].Firm != catalog.Firm
}

func stopPrice(st *catalog.State, plan *Plan, s int, other *Plan) StopPrice {
	k := plan.Lines[s].Choice
	n := catalog.Cents(needed(&st.Slots[s]))
	p := StopPrice{Slot: s, Choice: k, Planned: k.Plate / n, NoOther: !other.Has}
	const far = 20
	no := k.Plate*far/n + mostOver
	yes := k.Plate / n
	stands := func(one catalog.Cents) bool {
		total, outlay := atPrice(st, plan, k, one)
		if left := st.Job.Budget; left.Set {
			sum := outlay
			if st.Job.BudgetOn == catalog.OnExpected {
				sum = total
			}
			if sum > left.V {
				p.ByBudget = true
				return false
			}
		}
		return !other.Has || total <= other.Expected
	}
	for no-yes > 1 {
		middle := (yes + no) / 2
		p.ByBudget = false
		if stands(middle) {
			yes = middle
		} else {
			no = middle
		}
	}
	p.ByBudget = false
	stands(no)
	p.Highest = yes
	return p
}

// atPrice is what the plan comes to, and what is paid for it if all goes well, with
// another price for the plater's work on one piece, wherever the plan has it.
func atPrice(st *catalog.State, plan *Plan, k *Choice, one catalog.Cents) (total, outlay catalog.Cents) {
	more, lot := catalog.Cents(0), k.InLot()
	total = carriedOut(st, plan, func(c *Choice) *Choice {
		if c.Piece != k.Piece || c.Plater != k.Plater || c.Quote != k.Quote {
			return c
		}
		dearer := *c
		dearer.Plate = one * catalog.Cents(needed(&st.Slots[c.Slot]))
		dearer.addUp()
		for i := range plan.Lines {
			if plan.Lines[i].Choice == c {
				more += dearer.Plate - c.Plate
			}
		}
		return &dearer
	})
	if lot {
		more -= min(more, chargeOf(plan, ChargeMinimum, k.Plater))
	}
	return total, plan.Outlay + more
}

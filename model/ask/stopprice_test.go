package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/solver"
)

// TestStopPriceByHand sends a plan by hand, lets a plater name a price after stripping,
// and adds up going on and taking the piece back with the exhaustive search: up to the
// highest price going on is no dearer and keeps the budget, a cent above it is not so.
func TestStopPriceByHand(t *testing.T) {
	const plain = 400
	ended, byBudget, noOther, bags := 0, 0, 0, 0
	for seed := range int64(plain + 1100) {
		opt := jobs.Options{Off: []string{"days", "completion", "box"}} // a bag is sent whole here
		if seed%3 == 0 {
			opt.On = []string{"budget-outlay"}
		} else if seed%3 == 1 || seed%2 == 0 {
			opt.On = []string{"fresh"}
		}
		if seed%4 == 1 {
			opt.On = append(opt.On, "budget-expected", "maker")
			opt.Off = append(opt.Off, "budget-outlay")
		}
		slots := 1 + int(seed%3)
		if seed >= plain { // a bag, of which the plan sends some for either slot
			slots, opt.On = 2, []string{"bag", "strip", "fresh"}
			opt.Off = append(opt.Off, "quantity", "budget-outlay", "budget-expected", "budget-quote",
				"match-grade", "match-tone")
		}
		st := jobs.Random(seed, slots, opt)
		plan := solved.Cheapest(t, st)
		if !plan.Has || seed >= plain && !sentTogether(plan.Lines[0].Choice, plan.Lines[1].Choice) {
			continue
		}
		if (seed%5 == 0 || seed%4 == 1) && st.Job.Budget.Set {
			tight(st, plan)
		}
		all, whole, err := StopPrices(context.Background(), plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		if len(all) > 1 && all[0].Choice.Piece == all[1].Choice.Piece {
			bags++
		}
		for _, p := range all {
			sent, spent := sendAll(st, plan)
			goOn := func(price catalog.Cents) (weighed, expected, outlay catalog.Cents) {
				priced := sent.Clone()
				s := &priced.Pieces[p.Choice.Piece].Sent
				s.Cost, s.Refused = price, jobs.Given(catalog.Micro(0))
				old := carriedOn(priced, plan)
				return old.Weighed(), old.Expected, old.Outlay
			}
			back := sent.Clone()
			fee := backStripped(back, plan, p.Choice)
			back.Job.Spend(spent + fee)
			least, has, _ := adapter.Cheapest(back)
			if has == p.NoOther {
				t.Errorf("seed %d slot %d: nothing else %v, by hand %v", seed, p.Slot, p.NoOther, !has)
				continue
			}
			dear := func(price catalog.Cents) bool {
				total, _, _ := goOn(price)
				return has && total > catalog.Cents(least)+fee
			}
			broke := func(price catalog.Cents) bool {
				_, total, outlay := goOn(price)
				switch st.Job.BudgetOn {
				case catalog.OnExpected:
					outlay = total
				case catalog.OnQuote:
					return quotedAt(plan, p.Choice, price) > st.Job.Budget.V+st.Job.SpentSum
				}
				return st.Job.Budget.Set && outlay > st.Job.Budget.V-spent
			}
			if p.Highest > p.Planned && (dear(p.Highest) || broke(p.Highest)) {
				t.Errorf("seed %d slot %d: at %d it is too dear (%v) or breaks the budget (%v)", seed, p.Slot,
					p.Highest, dear(p.Highest), broke(p.Highest))
			}
			switch {
			case p.ByBudget:
				if byBudget++; !broke(p.Highest + 1) {
					t.Errorf("seed %d slot %d: at %d the budget still holds", seed, p.Slot, p.Highest+1)
				}
			case p.NoOther:
				noOther++
			default:
				if ended++; !dear(p.Highest + 1) {
					t.Errorf("seed %d slot %d: at %d going on still is no dearer", seed, p.Slot, p.Highest+1)
				}
			}
		}
	}
	if ended < 40 || byBudget < 10 || noOther < 10 || bags < 5 {
		t.Errorf("%d with an end, %d by the budget, %d with nothing else, %d of bags", ended, byBudget, noOther, bags)
	}
}

// sentTogether says whether two choices send pieces of one bag for the same work.
func sentTogether(a, b *plan.Choice) bool {
	return a.Piece == b.Piece && a.InLot() && b.InLot() && a.Plater == b.Plater && a.Level == b.Level && a.Work == b.Work
}

// tight leaves a plan little of the budget.
func tight(st *catalog.State, plan *plan.Plan) {
	st.Job.Budget.V += 20_00 - plan.BudgetLeft()
}

// quotedAt is what the owner is quoted with another price for the plating of one piece.
func quotedAt(pl *plan.Plan, c *plan.Choice, price catalog.Cents) catalog.Cents {
	q := &pl.Of.Quote
	net := pl.ForOwner().Net
	for i := range pl.Lines {
		if k := pl.Lines[i].Choice; k.Piece == c.Piece && k.Plater == c.Plater {
			net -= plan.Marked(k.Plate+k.Makers, q.Plating)
			net += plan.Marked(price*catalog.Cents(pl.Of.Slots[k.Slot].Quantity)+k.Makers, q.Plating)
		}
	}
	return net + catalog.Of(q.Tax, max(0, net))
}

// sendAll is the day on which all is sent that a plan sends, and what that has cost.
func sendAll(st *catalog.State, pl *plan.Plan) (sent *catalog.State, spent catalog.Cents) {
	sent = st.Clone()
	for _, l := range pl.Lines {
		k := l.Choice
		if k.Plater == catalog.None || k.Sent {
			continue
		}
		n := st.Slots[k.Slot].Quantity
		sent.Pieces[k.Piece].Sent = catalog.Sent{Was: true, Quote: choice.Terms(st, k), Count: n,
			After: choice.WorksAfter(st, k)}
		sent.Pieces[k.Piece].Chance = catalog.One
		spent += k.Before // fitting it is still to be done
	}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargePlaterFreight || c.Kind == plan.ChargeMinimum {
			spent += c.Cents
		}
	}
	return sent, spent
}

// backStripped takes a piece back from its plater, who is not to have it again.
func backStripped(st *catalog.State, pl *plan.Plan, c *plan.Choice) (fee catalog.Cents) {
	p := &st.Pieces[c.Piece]
	for _, l := range pl.Lines {
		if l.Choice.Piece == c.Piece && l.Choice.Plater == c.Plater && p.Stage == catalog.StageSeen {
			fee += catalog.Cents(st.Slots[l.Slot].Quantity) * st.Platers[c.Plater].StripFee
		}
	}
	p.Stage, p.Sent = catalog.StageStripped, catalog.Sent{}
	st.Bans = append(st.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: c.Piece, Plater: c.Plater}})
	return fee
}

package program

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// noPlan says of the program's state that it has no plan.
func (p *Program) noPlan() *plan.Plan { return p.Plan(solver.Result{Status: solver.Infeasible}) }

// Plan reads an answer of the program back: the lines picked, the charges by
// kind, and the sums, added up from the lines and charges.
func (p *Program) Plan(res solver.Result) *plan.Plan {
	pl := &plan.Plan{Of: p.State, Status: res.Status, Stop: res.Stop, Has: res.Has, Result: res}
	if !res.Has {
		if res.Status == solver.Stopped { // what none is below is known all the same
			pl.Bound = catalog.Cents(res.Bound)
		}
		return pl
	}
	loads := make([]catalog.Cents, len(p.State.Platers))
	pl.Completion = 1
	for s, col := range res.Pick[:len(p.State.Slots)] {
		pair := p.Pairs[s][col]
		k, f := p.Line(s, pair)
		pl.Lines = append(pl.Lines, plan.Line{Slot: s, Choice: k, Fallback: f, Expected: pair.Expected, Keeps: pair.Keeps})
		pl.Expected += pair.Expected
		pl.Keeps += pair.Keeps
		pl.Outlay += k.Cash
		pl.Completion *= 1 - float64(choice.BothFail(k, f))/float64(choice.Certain)
		if k.InLot() {
			loads[k.Plater] += k.Plate
		}
	}
	p.readShared(pl, res.Pick)
	pl.Charges = p.charges(res, loads)
	for _, c := range pl.Charges {
		pl.Expected += c.Cents
		pl.Outlay += c.Cents
	}
	pl.Bound = catalog.Cents(res.Bound) + pl.Keeps
	pl.Grade = meanGrade(p.State, pl.Lines)
	pl.Warnings = planWarnings(p.State, pl)
	return pl
}

// charges splits what the switches charge into its kinds, platers first, then
// vendors, bundles and boxes, and trades. Sums of nothing are left out.
func (p *Program) charges(res solver.Result, loads []catalog.Cents) []plan.Charge {
	var list []plan.Charge
	add := func(kind plan.ChargeKind, of int, cents catalog.Cents) {
		if cents != 0 {
			list = append(list, plan.Charge{Kind: kind, Of: of, Cents: cents})
		}
	}
	charge := func(sw int) catalog.Cents {
		if !res.On[sw] {
			return 0
		}
		return catalog.Cents(res.Charge[sw])
	}
	for q := range p.State.Platers {
		all := charge(p.PlaterSwitch(q))
		short := min(all, max(0, p.State.Platers[q].Minimum-loads[q]))
		add(plan.ChargePlaterFreight, q, all-short)
		add(plan.ChargeMinimum, q, short)
	}
	for v := range p.State.Vendors {
		add(plan.ChargeVendorFreight, v, charge(p.VendorSwitch(v)))
	}
	for b := range p.State.Bundles {
		add(plan.ChargeBundle, b, p.BundleCharge(&res, b))
	}
	for t := range p.State.Trades {
		add(plan.ChargeTrade, t, charge(p.TradeSwitch(t)))
	}
	return list
}

// meanGrade is the mean of the chosen grades by the weight of their slots; all
// count alike where no slot has a weight.
func meanGrade(st *catalog.State, lines []plan.Line) float64 {
	sum, weights := 0.0, 0.0
	even := TotalWeight(st) == 0
	for i := range lines {
		w := float64(st.Slots[lines[i].Slot].Weight)
		if even {
			w = 1
		}
		sum += w * float64(lines[i].Choice.Grade) / 100
		weights += w
	}
	if weights == 0 {
		return 0
	}
	return sum / weights
}

package model

import (
	"brightset/catalog"
	"brightset/solver"
)

// Plan reads an answer of the program back: the lines picked, the charges by
// kind, and the sums, added up from the lines and charges.
func (p *Program) Plan(res solver.Result) *Plan {
	plan := &Plan{Status: res.Status, Stop: res.Stop, Has: res.Has, Result: res}
	if !res.Has {
		return plan
	}
	loads := make([]catalog.Cents, len(p.State.Platers))
	plan.Completion = 1
	for s, col := range res.Pick[:len(p.State.Slots)] {
		pair := p.Pairs[s][col]
		k, f := p.line(s, pair)
		plan.Lines = append(plan.Lines, Line{Slot: s, Choice: k, Fallback: f, Expected: pair.Expected})
		plan.Expected += pair.Expected
		plan.Outlay += k.Cash
		plan.Completion *= 1 - float64(bothFail(k, f))/float64(certain)
		if k.InLot() {
			loads[k.Plater] += k.Plate
		}
	}
	p.readShared(plan, res.Pick)
	plan.Charges = p.charges(res, loads)
	for _, c := range plan.Charges {
		plan.Expected += c.Cents
		plan.Outlay += c.Cents
	}
	plan.Bound = catalog.Cents(res.Bound)
	plan.Grade = meanGrade(p.State, plan.Lines)
	plan.Warnings = planWarnings(p.State, plan)
	return plan
}

// charges splits what the switches charge into its kinds, platers first, then
// vendors, bundles and trades. Sums of nothing are left out.
func (p *Program) charges(res solver.Result, loads []catalog.Cents) []Charge {
	var list []Charge
	add := func(kind ChargeKind, of int, cents catalog.Cents) {
		if cents != 0 {
			list = append(list, Charge{kind, of, cents})
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
		add(ChargePlaterFreight, q, all-short)
		add(ChargeMinimum, q, short)
	}
	for v := range p.State.Vendors {
		add(ChargeVendorFreight, v, charge(p.VendorSwitch(v)))
	}
	for b := range p.State.Bundles {
		add(ChargeBundle, b, charge(p.BundleSwitch(b)))
	}
	for t := range p.State.Trades {
		add(ChargeTrade, t, charge(p.TradeSwitch(t)))
	}
	return list
}

// meanGrade is the mean of the chosen grades by the weight of their slots; all
// count alike where no slot has a weight.
func meanGrade(st *catalog.State, lines []Line) float64 {
	sum, weights := 0.0, 0.0
	even := totalWeight(st) == 0
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

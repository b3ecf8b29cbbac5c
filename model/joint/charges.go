package joint

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// charge lists what the lines of all jobs call for, once each, and splits it:
//
//	a freight or a bundle evenly among the jobs that call for it;
//	a minimum in proportion to what each would have to top up by itself.
//
// So no job pays more for a charge than it would by itself.
func (t *Program) charge(out *plan.Joint) {
	for j := range out.Jobs {
		job := &out.Jobs[j]
		for i := range job.Plan.Lines {
			job.Lines += job.Plan.Lines[i].Expected
		}
		for _, c := range job.Plan.Charges {
			if c.Kind == plan.ChargeTrade {
				job.Lines += c.Cents
			}
		}
	}
	done := map[[2]int]bool{} // job and switch
	for _, c := range t.common {
		t.chargeOne(out, c, true)
		for j, of := range c.of {
			if of != catalog.None {
				done[[2]int{j, switchOf(t.Jobs[j], c.kind, of)}] = true
			}
		}
	}
	for j, p := range t.Jobs {
		single := func(kind plan.ChargeKind, id string, of int) {
			if done[[2]int{j, switchOf(p, kind, of)}] {
				return
			}
			all := slices.Repeat([]int{catalog.None}, len(t.Jobs))
			all[j] = of
			t.chargeOne(out, common{kind, id, all}, false)
		}
		for q := range p.State.Platers {
			single(plan.ChargePlaterFreight, p.State.Platers[q].ID, q)
		}
		for v := range p.State.Vendors {
			single(plan.ChargeVendorFreight, p.State.Vendors[v].ID, v)
		}
		for b := range p.State.Bundles {
			single(plan.ChargeBundle, p.State.Bundles[b].ID, b)
		}
	}
	for _, c := range out.Charges {
		for j, cents := range c.Shares {
			out.Jobs[j].Shared += cents
		}
	}
}

// chargeOne adds what is charged for one plater, vendor or bundle.
func (t *Program) chargeOne(out *plan.Joint, c common, shared bool) {
	on, load := make([]bool, len(t.Jobs)), catalog.Cents(0)
	var fixed, least catalog.Cents
	var bundle *catalog.Bundle
	any := false
	freight, top := make([]catalog.Cents, len(t.Jobs)), make([]catalog.Cents, len(t.Jobs))
	for j, of := range c.of {
		if of == catalog.None {
			continue
		}
		p := t.Jobs[j]
		h := switchOf(p, c.kind, of)
		if on[j] = out.Jobs[j].Plan.Result.On[h]; !on[j] {
			continue
		}
		any = true
		sw := &p.Problem.Switches[h]
		fixed, least = catalog.Cents(sw.Fixed), catalog.Cents(sw.Minimum)
		if c.kind == plan.ChargeBundle { // of boxes perhaps several
			fixed, bundle = p.BundleCharge(&out.Jobs[j].Plan.Result, of), &p.State.Bundles[of]
		}
		own := catalog.Cents(0)
		if c.kind == plan.ChargePlaterFreight {
			own = lotOf(out.Jobs[j].Plan, of)
		}
		load += own
		freight[j], top[j] = fixed, max(0, least-own)
	}
	if !any {
		return
	}
	add := func(kind plan.ChargeKind, cents catalog.Cents, single []catalog.Cents, weight []catalog.Cents) {
		if cents != 0 {
			out.Charges = append(out.Charges, plan.JointCharge{Kind: kind, ID: c.id, Bundle: bundle, Common: shared,
				Cents: cents, Single: single, Shares: apportion(cents, weight)})
		}
	}
	even := make([]catalog.Cents, len(on))
	for j := range on {
		if on[j] {
			even[j] = 1
		}
	}
	add(c.kind, fixed, freight, even)
	add(plan.ChargeMinimum, max(0, least-load), top, top)
}

// lotOf is the work that a plan has yet to send to a plater.
func lotOf(plan *plan.Plan, plater int) catalog.Cents {
	sum := catalog.Cents(0)
	for i := range plan.Lines {
		if k := plan.Lines[i].Choice; k.InLot() && k.Plater == plater {
			sum += k.Plate
		}
	}
	return sum
}

// apportion splits a sum in proportion to weights, not negative and not all nothing. The
// cents that are left over go one each to the largest remainders, the first of equal ones.
func apportion(cents catalog.Cents, weight []catalog.Cents) []catalog.Cents {
	all := catalog.Cents(0)
	for _, w := range weight {
		all += w
	}
	out := make([]catalog.Cents, len(weight))
	rest := make([]catalog.Cents, len(weight))
	left := cents
	for i, w := range weight {
		out[i], rest[i] = mulDiv(cents, w, all)
		left -= out[i]
	}
	for ; left > 0; left-- {
		most := 0
		for i := range rest {
			if rest[i] > rest[most] {
				most = i
			}
		}
		out[most]++
		rest[most] = -1
	}
	return out
}

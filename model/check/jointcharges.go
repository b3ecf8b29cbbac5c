package check

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// checkCharges compares the charges listed with those due, and looks at how they are split.
func (j *jointAudit) checkCharges() {
	due := j.dues()
	for _, c := range j.out.Charges {
		key := dueKey{c.Kind, c.ID, catalog.None}
		for n := range j.out.Jobs {
			if _, own := due[dueKey{c.Kind, c.ID, n}]; own && c.Single[n] > 0 && !c.Common {
				key.job = n
			}
		}
		d := due[key]
		if d == nil {
			j.report("charge", catalog.None, "%s %q is charged, but nothing calls for it", c.Kind, c.ID)
			continue
		}
		delete(due, key)
		if want := d.fixed + max(0, d.least-d.sent); c.Cents != want {
			j.report("charge", catalog.None, "%s %q is %s, but comes to %s", c.Kind, c.ID, money(c.Cents),
				money(want))
		}
		sum := catalog.Cents(0)
		for n, share := range c.Shares {
			sum += share
			if c.Single[n] != d.single[n] || share < 0 || share > d.single[n] {
				j.report("share", n, "its share of %s %q is %s; by itself it would pay %s", c.Kind, c.ID,
					money(share), money(d.single[n]))
			}
		}
		if sum != c.Cents {
			j.report("share", catalog.None, "the shares of %s %q add up to %s, not to %s", c.Kind, c.ID,
				money(sum), money(c.Cents))
		}
	}
	for key, d := range due {
		if want := d.fixed + max(0, d.least-d.sent); want != 0 {
			j.report("charge", catalog.None, "%s %q is missing: %s", key.kind, key.id, money(want))
		}
	}
}

// dueKey names what a charge is for; job is catalog.None for what is the shop's.
type dueKey struct {
	kind plan.ChargeKind
	id   string
	job  int
}

// jointDue is what is charged for one thing: to each job by itself, and in all.
type jointDue struct {
	single []catalog.Cents
	sent   catalog.Cents // work of all jobs, for a minimum
	least  catalog.Cents
	fixed  catalog.Cents
}

// dues adds up from the lines alone what is charged.
func (j *jointAudit) dues() map[dueKey]*jointDue {
	all := map[dueKey]*jointDue{}
	at := func(n int, kind plan.ChargeKind, id string, from catalog.Origin) *jointDue {
		key := dueKey{kind, id, n}
		if from.Source != catalog.JobFile {
			key.job = catalog.None
		}
		if all[key] == nil {
			all[key] = &jointDue{single: make([]catalog.Cents, len(j.out.Jobs))}
		}
		return all[key]
	}
	for n := range j.out.Jobs {
		st := j.out.Jobs[n].State
		sent := map[int]catalog.Cents{}
		vendor := func(v int) {
			if v != catalog.None {
				d := at(n, plan.ChargeVendorFreight, st.Vendors[v].ID, st.Vendors[v].From)
				d.fixed, d.single[n] = st.Vendors[v].Freight, st.Vendors[v].Freight
			}
		}
		bundle := func(b int) {
			if b == catalog.None {
				return
			}
			d := at(n, plan.ChargeBundle, st.Bundles[b].ID, st.Bundles[b].From)
			d.fixed = st.Bundles[b].Price + moreBoxes(&st.Bundles[b], outOf(&j.out.Jobs[n], b))
			d.single[n] = d.fixed
			vendor(st.Bundles[b].Vendor)
		}
		for _, l := range j.out.Jobs[n].Plan.Lines {
			k := &st.Pieces[l.Choice.Piece]
			if l.Choice.Plater != catalog.None && !isAtPlater(k) {
				sent[l.Choice.Plater] += l.Choice.Plate
			}
			if bundle(k.Bundle); k.Bundle == catalog.None {
				vendor(k.Vendor)
			}
			if l.Fallback != nil {
				bundle(st.Pieces[l.Fallback.Piece].Bundle)
			}
		}
		for q, work := range sent {
			p := &st.Platers[q]
			d := at(n, plan.ChargePlaterFreight, p.ID, p.From)
			d.fixed, d.single[n] = p.Freight, p.Freight
			d = at(n, plan.ChargeMinimum, p.ID, p.From)
			d.least, d.single[n] = p.Minimum, max(0, p.Minimum-work)
			d.sent += work
		}
	}
	return all
}

// outOf is how many pieces a job uses out of a bundle or out of boxes, as planned or in reserve.
func outOf(job *plan.JointJob, bundle int) (n int) {
	for _, l := range job.Plan.Lines {
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c != nil && job.State.Pieces[c.Piece].Bundle == bundle {
				n += job.State.Slots[l.Slot].Quantity
			}
		}
	}
	return n
}

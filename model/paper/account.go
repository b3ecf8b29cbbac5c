package paper

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// Account is what one job pays of what it has in common with others.
type Account struct {
	Rows   []AccountRow
	Evened catalog.Cents // what it gives the others besides; below zero: gets
	Total  catalog.Cents // of the rows and Evened
	Alone  catalog.Cents // what the same would cost it by itself
}

// AccountRow is one sum that jobs pay together. Over all jobs the shares add up to Whole.
type AccountRow struct {
	Kind   plan.ChargeKind // "": the work on the job's pieces in a lot, which each pays itself
	ID     string          // of the plater, vendor or bundle
	Jobs   int             // how many have a part in it
	Pieces int             // of the job, and OfAll of all jobs; of work alone
	OfAll  int
	Whole  catalog.Cents
	Share  catalog.Cents // the job's
	Single catalog.Cents // what it would be charged by itself
}

// AccountOf makes the account of one of several jobs: lot by lot the work on its pieces, and
// its share of what comes on top; then bundles and what it costs to have them sent.
func AccountOf(out *plan.Joint, job int) *Account {
	a := &Account{Evened: out.Jobs[job].Evened, Total: out.Jobs[job].Evened}
	plans := plansOf(out)
	for _, lot := range CommonLots(plans, make([][]Held, len(plans))) {
		for _, part := range lot.Parts {
			if part.Job != job || len(lot.Parts) < 2 {
				continue
			}
			id := plans[job].Of.Platers[part.Plater].ID
			a.add(AccountRow{ID: id, Jobs: len(lot.Parts), Pieces: part.Pieces, OfAll: lot.Whole.Pieces,
				Whole: lot.Whole.Work, Share: part.Work, Single: part.Work})
			a.shares(out, job, id, plan.ChargePlaterFreight, plan.ChargeMinimum)
		}
	}
	a.shares(out, job, "", plan.ChargeBundle, plan.ChargeVendorFreight)
	return a
}

// shares adds the job's shares of the common charges of some kinds, of one name or of any.
func (a *Account) shares(out *plan.Joint, job int, id string, kinds ...plan.ChargeKind) {
	for _, kind := range kinds {
		for i := range out.Charges {
			c := &out.Charges[i]
			row := AccountRow{Kind: c.Kind, ID: c.ID, Whole: c.Cents, Share: c.Shares[job], Single: c.Single[job]}
			for _, single := range c.Single {
				if single > 0 {
					row.Jobs++
				}
			}
			if c.Kind == kind && (id == "" || c.ID == id) && c.Common && row.Jobs > 1 && row.Single > 0 {
				a.add(row)
			}
		}
	}
}

func (a *Account) add(row AccountRow) {
	a.Rows = append(a.Rows, row)
	a.Total += row.Share
	a.Alone += row.Single
}

// Owed is a job's part of a joint plan with its own shares of the charges in place of all
// that it calls for, and what it gives or gets so that none pays too much: what it pays.
func Owed(out *plan.Joint, job int) *plan.Plan {
	j := &out.Jobs[job]
	p := *j.Plan
	p.Charges = nil
	for _, c := range j.Plan.Charges {
		if c.Kind == plan.ChargeTrade {
			p.Charges = append(p.Charges, c)
		}
	}
	for _, c := range out.Charges {
		if c.Shares[job] != 0 {
			p.Charges = append(p.Charges, plan.Charge{Kind: c.Kind, Of: catalog.None, Cents: c.Shares[job]})
		}
	}
	if j.Evened != 0 {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargeEvened, Of: catalog.None, Cents: j.Evened})
	}
	p.Expected, p.Outlay = j.Pays, j.OwnOutlay()+j.Shared+j.Evened
	return &p
}

// KeptShares are what a job pays of each lot and bundle that it has in common with others,
// nothing too: what is kept with its plan, to be booked when it happens.
func KeptShares(out *plan.Joint, job int) []catalog.KeptShare {
	plans := plansOf(out)
	var all []catalog.KeptShare
	add := func(kind catalog.ShareKind, of string, charge plan.ChargeKind) {
		s := catalog.KeptShare{ID: fmt.Sprint(len(all) + 1), Kind: kind, Of: of}
		for _, c := range out.Charges {
			if c.Kind == charge && c.ID == of && c.Common {
				s.Cents += c.Shares[job]
			}
		}
		all = append(all, s)
	}
	for _, lot := range CommonLots(plans, make([][]Held, len(plans))) {
		for _, part := range lot.Parts {
			if part.Job == job && len(lot.Parts) > 1 {
				id := plans[job].Of.Platers[part.Plater].ID
				add(catalog.ShareFreight, id, plan.ChargePlaterFreight)
				add(catalog.ShareLeast, id, plan.ChargeMinimum)
			}
		}
	}
	users := map[string]int{}
	for j, pl := range plans {
		for _, b := range boughtBundles(pl) {
			if of := &plans[j].Of.Bundles[b]; of.From.Source != catalog.JobFile {
				users[of.ID]++
			}
		}
	}
	for _, b := range boughtBundles(plans[job]) {
		if of := &plans[job].Of.Bundles[b]; of.From.Source != catalog.JobFile && users[of.ID] > 1 {
			add(catalog.ShareBundle, of.ID, plan.ChargeBundle)
		}
	}
	return all
}

func plansOf(out *plan.Joint) (plans []*plan.Plan) {
	for j := range out.Jobs {
		plans = append(plans, out.Jobs[j].Plan)
	}
	return plans
}

package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// CommonLot is what goes to one plater for one job or several: one lot, with one freight and
// one least charge. Whole has its sums and no lines; the freight of a part is nothing.
type CommonLot struct {
	Parts []LotPart
	Whole Lot
}

// LotPart is what one job has in a common lot.
type LotPart struct {
	Job int // index into the plans
	Lot
}

// whose is who is dealt with: what stands in the shop's file is the same for all jobs, what
// stands in a job's own is that job's alone.
type whose struct {
	job int // catalog.None: the shop's
	id  string
}

func whoseIs(job int, id string, from catalog.Origin) whose {
	if from.Source != catalog.JobFile {
		job = catalog.None
	}
	return whose{job, id}
}

// CommonLots gives what goes to each plater for all of several plans, platers in the order in
// which the plans have them. held are the pieces that are held back, plan by plan; a lot of
// which everything waits has no parts. For the freight of a lot see Lots.
func CommonLots(plans []*plan.Plan, held [][]Held) []CommonLot {
	var all []CommonLot
	at := map[whose]int{}
	for j, pl := range plans {
		for _, lot := range Lots(pl) {
			q := &pl.Of.Platers[lot.Plater]
			key := whoseIs(j, q.ID, q.From)
			n, known := at[key]
			if !known {
				n = len(all)
				at[key] = n
				all = append(all, CommonLot{Whole: Lot{Plater: lot.Plater, Minimum: lot.Minimum, Freight: lot.Freight}})
			}
			all[n].add(j, GoesNow(pl, lot, held[j]))
		}
	}
	for n := range all {
		w := &all[n].Whole
		w.Shortfall = max(0, w.Minimum-w.Work)
		w.Total = w.Work + w.Shortfall + w.Freight
	}
	return all
}

// add puts what one job sends into the lot.
func (c *CommonLot) add(job int, lot Lot) {
	if len(lot.Lines) == 0 {
		return
	}
	c.Parts = append(c.Parts, LotPart{job, lot})
	c.Whole.Pieces += lot.Pieces
	c.Whole.Work += lot.Work
	c.Whole.Days = max(c.Whole.Days, lot.Days)
}

// CommonPurchase is what is bought from one seller for one job or several, each bundle once
// and with one freight.
type CommonPurchase struct {
	Parts   []PurchasePart
	Bundles []CommonBundle
	Freight catalog.Cents
	Total   catalog.Cents
}

// PurchasePart is what one job buys there piece by piece, and the seller as that job knows him.
type PurchasePart struct {
	Job int
	Purchase
}

// CommonBundle is a bundle that is bought once, with the jobs that use pieces out of it and
// its index in the state of each.
type CommonBundle struct {
	Jobs, Of []int
	Price    catalog.Cents // nothing where it is paid for with another seller's
}

// CommonPurchases gives what several plans buy: out of the drawers, from vendors, privately.
func CommonPurchases(plans []*plan.Plan) []CommonPurchase {
	var all []CommonPurchase
	at, bought := map[whose]int{}, map[whose]bool{}
	for j, pl := range plans {
		for _, buy := range Purchases(pl) {
			key := whose{catalog.None, [...]string{"", "out of the drawers", "privately"}[buy.Side]}
			if buy.Vendor != catalog.None {
				v := &pl.Of.Vendors[buy.Vendor]
				key = whoseIs(j, "vendor "+v.ID, v.From)
			}
			n, known := at[key]
			if !known {
				n = len(all)
				at[key] = n
				all = append(all, CommonPurchase{})
			}
			all[n].add(plans, j, buy, bought)
		}
	}
	slices.SortStableFunc(all, func(a, b CommonPurchase) int { return int(a.Parts[0].Side) - int(b.Parts[0].Side) })
	return all
}

// add puts what one job buys into it; bought are the bundles that are paid for by then. The
// shop's may be fetched from vendors who stand in the jobs' own files: it is paid for once.
func (c *CommonPurchase) add(plans []*plan.Plan, job int, buy Purchase, bought map[whose]bool) {
	c.Parts = append(c.Parts, PurchasePart{job, buy})
	c.Total += buy.Pieces + max(0, buy.Freight-c.Freight)
	c.Freight = max(c.Freight, buy.Freight)
	for _, b := range buy.Bundles {
		of := &plans[job].Of.Bundles[b]
		key := whoseIs(job, of.ID, of.From)
		i := slices.IndexFunc(c.Bundles, func(o CommonBundle) bool {
			first := &plans[o.Jobs[0]].Of.Bundles[o.Of[0]]
			return whoseIs(o.Jobs[0], first.ID, first.From) == key
		})
		if i < 0 {
			i = len(c.Bundles)
			c.Bundles = append(c.Bundles, CommonBundle{})
			if !bought[key] {
				c.Bundles[i].Price = plan.ChargeOf(plans[job], plan.ChargeBundle, b)
			}
			bought[key] = true
			c.Total += c.Bundles[i].Price
		}
		c.Bundles[i].Jobs, c.Bundles[i].Of = append(c.Bundles[i].Jobs, job), append(c.Bundles[i].Of, b)
	}
}

package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// CommonAct is one thing to do for several jobs: once with each person. Act has the sums and
// counts of all parts, and else what the first of them has, in that job's state.
type CommonAct struct {
	Act
	Parts []ActPart
}

// ActPart is what an act is for one job.
type ActPart struct {
	Job int // index into the jobs
	Act
}

// CommonTodo lists what a plan of several jobs asks to be done next, in an order that works.
// What they share is paid for once.
func CommonTodo(out *plan.Joint) []CommonAct {
	var all []CommonAct
	var with []whose
	for j := range out.Jobs {
		for _, a := range Todo(out.Jobs[j].Plan) {
			who := withWhom(out.Jobs[j].State, j, &a)
			at := -1
			for n := range all {
				if with[n] == who && alike(all[n].Kind, a.Kind) {
					at = n
				}
			}
			if at < 0 {
				all, with = append(all, CommonAct{Act: a}), append(with, who)
				all[len(all)-1].Parts = []ActPart{{j, a}}
				continue
			}
			all[at].add(j, a)
		}
	}
	var plans []*plan.Plan
	for j := range out.Jobs {
		plans = append(plans, out.Jobs[j].Plan)
	}
	once := func(job int, like Act, total catalog.Cents) {
		who := withWhom(plans[job].Of, job, &like)
		for n := range all {
			if with[n] == who && alike(all[n].Kind, like.Kind) {
				all[n].Cents = total
			}
		}
	}
	for _, lot := range CommonLots(plans, make([][]Held, len(plans))) {
		a := nobodys(ActSend)
		a.Plater = lot.Whole.Plater
		once(lot.Parts[0].Job, a, lot.Whole.Total)
	}
	for _, buy := range CommonPurchases(plans) {
		a := nobodys(ActBuy)
		if a.Vendor = buy.Parts[0].Vendor; a.Vendor != catalog.None {
			once(buy.Parts[0].Job, a, buy.Total)
		}
	}
	slices.SortStableFunc(all, func(a, b CommonAct) int { return int(a.Kind) - int(b.Kind) })
	return all
}

func (c *CommonAct) add(job int, a Act) {
	c.Kind = min(c.Kind, a.Kind)
	c.Count += a.Count
	c.Cents += a.Cents
	c.Guess = c.Guess || a.Guess
	c.Parts = append(c.Parts, ActPart{job, a})
}

// alike: one goes to a seller once, whether what he has is worked on or not.
func alike(a, b ActKind) bool {
	buys := func(k ActKind) bool { return k == ActBuy || k == ActBuyFirst }
	return a == b || buys(a) && buys(b)
}

// withWhom is the person or the place of an act; of a trade each is its own.
func withWhom(st *catalog.State, job int, a *Act) whose {
	switch {
	case a.Plater != catalog.None:
		return whoseIs(job, "plater "+st.Platers[a.Plater].ID, st.Platers[a.Plater].From)
	case a.Maker != catalog.None:
		return whoseIs(job, "maker "+st.Makers[a.Maker].ID, st.Makers[a.Maker].From)
	case a.Vendor != catalog.None:
		return whoseIs(job, "vendor "+st.Vendors[a.Vendor].ID, st.Vendors[a.Vendor].From)
	case a.Trade != catalog.None:
		return whose{job, "trade " + st.Trades[a.Trade].ID}
	case a.Side == catalog.Vendors:
		return whose{job, "a seller"}
	}
	return whose{job: catalog.None}
}

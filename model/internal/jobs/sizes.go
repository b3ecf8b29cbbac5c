package jobs

import (
	"math"
	"math/rand/v2"

	"brightset/catalog"
)

// The sizes that figures have in real files, and the edges of what they may be. A random
// job in round figures never meets most of them.

// Chances of failing whose part of the completion row has a size of its own: nothing, one
// unit, 55,296 to 57,343, above 0x10FFFF, the most there is without being certain, certain.
func FailChance(r *rand.Rand) catalog.Micro {
	switch r.IntN(8) {
	case 0:
		return []catalog.Micro{0, 1, catalog.One - 1, catalog.One - 1, catalog.One}[r.IntN(5)]
	case 1, 2, 3:
		return Between[catalog.Micro](r, 53_795, 55_729)
	case 4:
		return Between[catalog.Micro](r, 671_800, catalog.One-1)
	case 5:
		return Between[catalog.Micro](r, 1, 3)
	}
	return Between[catalog.Micro](r, 0, 300_000)
}

// Weight is 0.01 to 100.
func Weight(r *rand.Rand) catalog.Centi {
	if Chance(r, 40) {
		return []catalog.Centi{1, 2, 99, 101, 99_99, 100_00}[r.IntN(6)]
	}
	return catalog.Centi(math.Exp(r.Float64() * math.Log(100_00)))
}

// RealSizes gives a job figures of those sizes: chances, weights, prices a cent apart,
// grades and tones of few values, so that many pieces are as good, and pieces that are
// equal in all but the name.
func RealSizes(r *rand.Rand, st *catalog.State) {
	grades := []catalog.Centi{55_00, 70_00, 70_01, 84_99, 85_00, 100_00}
	price := Between[catalog.Cents](r, 20_00, 200_00)
	near := func() catalog.Cents { return price + Between[catalog.Cents](r, -1, 1) }
	some := func() bool { return Chance(r, 60) }
	for s := range st.Slots {
		if some() {
			st.Slots[s].Weight = Weight(r)
		}
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if p.Side != catalog.Customers && p.Bundle == catalog.None && some() {
			p.Price = near()
		}
		if p.Grade.Set && some() {
			p.Grade.V = grades[r.IntN(len(grades))]
		}
		if p.Tone.Set && some() {
			p.Tone.V = Between[catalog.Centi](r, -1, 1)
		}
		if p.Chance < catalog.One && some() {
			p.Chance = catalog.One - FailChance(r)
		}
		for q := range p.Quotes {
			RealQuote(r, &p.Quotes[q], near, grades)
		}
	}
	for t := range st.Trades {
		if some() { // as much as the piece costs, or a cent more or less
			st.Trades[t].Credit = max(0, st.Pieces[st.Trades[t].Get].Price+Between[catalog.Cents](r, -1, 1))
		}
	}
	if some() {
		makeEqual(r, st)
	}
}

func RealQuote(r *rand.Rand, q *catalog.Quote, near func() catalog.Cents, grades []catalog.Centi) {
	if Chance(r, 60) {
		q.Cost = near()
	}
	if Chance(r, 60) {
		q.Breakage, q.Refused = Set(FailChance(r)), Set(catalog.Micro(0))
	}
	if Chance(r, 60) {
		q.Grade, q.Tone = Set(grades[r.IntN(len(grades))]), Set(Between[catalog.Centi](r, -1, 1))
	}
}

// makeEqual makes one piece equal to another in all but its name and place in the files.
func makeEqual(r *rand.Rand, st *catalog.State) {
	i, k := r.IntN(len(st.Pieces)), r.IntN(len(st.Pieces))
	a, b := &st.Pieces[i], &st.Pieces[k]
	under := a.Stage != catalog.StageSeen || a.Sent.Was || b.Stage != catalog.StageSeen || b.Sent.Was
	if i == k || a.InShop != b.InShop || a.Side != b.Side || under {
		return // a trade gives what is the customer's, and one piece hangs in a slot
	}
	id := b.ID
	*b = st.Clone().Pieces[i] // with quotes of its own: one price changed is one price
	b.ID = id
	if b.Bundle != catalog.None && st.Bundles[b.Bundle].Box > 0 { // in boxes of its own
		box := st.Bundles[b.Bundle]
		box.ID, b.Bundle = id, len(st.Bundles)
		st.Bundles = append(st.Bundles, box)
	}
}

// AsLargeAsCan makes all money of a job as large as it may be: what is added up for a
// bound comes near 2^53, beyond which the loader calls it a mistake.
func AsLargeAsCan(st *catalog.State) {
	most := catalog.Cents(1)
	money := AllMoney(st)
	for _, m := range money {
		most = max(most, *m)
	}
	parts := int64(1)
	if st.Job.BudgetOn == catalog.OnQuote { // which is reckoned in parts of a cent
		parts = 4 * st.Quote.Unit()
	}
	times := max(1, catalog.Cents(1<<53)/most/catalog.Cents(160*len(st.Slots))/catalog.Cents(parts))
	for i, m := range money {
		if *m > 0 { // not all the same multiple
			*m = *m*times + catalog.Cents(i)
		}
	}
}

// ACent makes all money of a job as small as it may be.
func ACent(r *rand.Rand, st *catalog.State) {
	for _, m := range AllMoney(st) {
		*m = Between[catalog.Cents](r, 0, 3)
	}
}

// AllMoney is every amount in a job that a plan may be charged with.
func AllMoney(st *catalog.State) (all []*catalog.Cents) {
	all = append(all, &st.Shop.Hourly.V, &st.Job.Budget.V)
	for s := range st.Slots {
		all = append(all, &st.Slots[s].Rescue.V)
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		all = append(all, &p.Price, &p.Value, &p.Sent.Cost)
		for q := range p.Quotes {
			all = append(all, &p.Quotes[q].Cost)
		}
	}
	for i := range st.Platers {
		q := &st.Platers[i]
		all = append(all, &q.Minimum, &q.Freight, &q.Least, &q.StripFee, &q.Hourly.V)
		for l := range q.Levels {
			for m := range q.Levels[l].Rate {
				all = append(all, &q.Levels[l].Rate[m].V)
			}
			for k := range q.Levels[l].Prices {
				for m := range q.Levels[l].Prices[k].Cost {
					all = append(all, &q.Levels[l].Prices[k].Cost[m].V)
				}
			}
		}
	}
	for i := range st.Makers {
		all = append(all, &st.Makers[i].Hourly)
	}
	for i := range st.Vendors {
		all = append(all, &st.Vendors[i].Freight)
	}
	for i := range st.Bundles {
		all = append(all, &st.Bundles[i].Price)
	}
	for i := range st.Trades {
		all = append(all, &st.Trades[i].Credit)
	}
	return all
}

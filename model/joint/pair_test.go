package joint

import (
	"math/rand/v2"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// randomPair makes two random jobs of one shop: the same platers, sellers and drawers,
// other slots, pieces of the customer's, targets, budgets and dates.
func randomPair(seed int64, slots int) []*catalog.State {
	var pair []*catalog.State
	for n := range 2 {
		j := &jobs.RandomJob{Seed: seed, St: &catalog.State{}, Opt: jobs.Options{Off: []string{"unknown-metal"}}}
		j.Tables()
		j.Sellers()
		j.Platers()
		j.Slots(slots)
		j.Pieces()
		intoDrawers(j.St, rand.New(rand.NewPCG(uint64(seed), 7)))
		j.Seed = seed + 1000*int64(n)
		r := j.Of("pair")
		for s := range j.St.Slots {
			j.St.Slots[s].Weight = jobs.Between[catalog.Centi](r, 1, 3) * 100
			j.St.Slots[s].Rescue = jobs.Set(jobs.Between[catalog.Cents](r, 150_00, 700_00))
			j.St.Slots[s].Area = jobs.Set(jobs.Between[catalog.Micro](r, 400_000, 3_500_000))
		}
		for i := range j.St.Pieces {
			if p := &j.St.Pieces[i]; !p.InShop && jobs.Chance(r, 60) {
				p.Grade = jobs.Set(jobs.Between[catalog.Centi](r, 40_00, 97_00))
			}
		}
		j.Trades()
		foreignTrade(j.St, r)
		j.Targets()
		j.Matches()
		j.Filters()
		j.Limits()
		pair = append(pair, j.St)
	}
	return pair
}

// intoDrawers makes the shop's most of what is not the customer's.
func intoDrawers(st *catalog.State, r *rand.Rand) {
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.Side != catalog.Customers && jobs.Chance(r, 75) {
			p.InShop = true
		}
	}
}

// foreignTrade gives a piece of the shop's for another.
func foreignTrade(st *catalog.State, r *rand.Rand) {
	var shops []int
	for i := range st.Pieces {
		if st.Pieces[i].InShop {
			shops = append(shops, i)
		}
	}
	if len(shops) < 2 || !jobs.Chance(r, 60) {
		return
	}
	give, get := shops[r.IntN(len(shops))], shops[r.IntN(len(shops))]
	if give != get {
		st.Trades = append(st.Trades, catalog.Trade{ID: "foreign", Give: give, Get: get,
			Credit: jobs.Between[catalog.Cents](r, 10_00, 90_00)})
	}
}

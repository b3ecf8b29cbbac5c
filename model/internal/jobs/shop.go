package jobs

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
	"brightset/model/seeded"
)

// Shop makes several jobs of one shop: the same platers, makers, vendors and bundles, and
// drawers with a number of pieces that may fit slots of any of them. Every job has its own
// slots, pieces and target. Of fifty jobs a part occurs in about four.
func Shop(f seeded.Family, jobs, stock int, seed uint64) []*catalog.State {
	shop := seeded.NewMaker(f, &catalog.State{}, rand.New(rand.NewPCG(seed, 77)))
	shop.State.Tables = catalog.BuiltIn()
	shop.People()
	parts := max(f.Slots, jobs*f.Slots/5)
	area, worth := make([]catalog.Micro, parts), make([]float64, parts)
	for i := range parts {
		area[i], worth[i] = catalog.Micro(300_000+shop.IntN(50)*100_000), 160+360*shop.Float64()
	}
	drawers := fillDrawers(shop, stock, worth)
	var all []*catalog.State
	for n := range jobs {
		m := seeded.NewMaker(f, shop.State.Clone(), rand.New(rand.NewPCG(seed, 1000+uint64(n))))
		m.State.Job = catalog.Job{File: fmt.Sprintf("job-%d", n+1),
			Title: fmt.Sprintf("%s, shop %d, job %d", f.Name, seed, n+1), Currency: "USD"}
		m.State.Shop = catalog.Shop{Hourly: Set(catalog.Cents(60 * seeded.Unit)), Works: []int{0, 2}}
		m.Target()
		m.Slots()
		order, next := m.Perm(parts), 0
		for s := range m.State.Slots {
			slot := &m.State.Slots[s]
			if slot.Part != slot.ID { // it shares the part of the one before
				slot.Part, slot.Area, m.Worth[s] = m.State.Slots[s-1].Part, m.State.Slots[s-1].Area, m.Worth[s-1]
				continue
			}
			part := order[next]
			next++
			slot.Part, slot.Area, m.Worth[s] = fmt.Sprintf("part-%d", part+1), Set(area[part]), worth[part]
		}
		m.Matches()
		m.Pieces()
		for i := range m.State.Pieces {
			if p := &m.State.Pieces[i]; p.Side == catalog.Shops {
				p.Side, p.InShop, p.Price = catalog.Customers, false, 0
			}
		}
		takeStock(m.State, drawers)
		m.Trades()
		m.Budget()
		all = append(all, m.State)
	}
	return all
}

// drawer is a piece of the shop's and the part it was made for.
type drawer struct {
	part  string
	piece catalog.Piece
}

// fillDrawers makes a number of pieces, each for a part drawn among those of the shop's jobs.
func fillDrawers(m *seeded.Maker, n int, worth []float64) []drawer {
	var out []drawer
	for i := range n {
		part := m.IntN(len(worth))
		m.Worth = []float64{worth[part]}
		p := catalog.Piece{
			ID: fmt.Sprintf("drawer-%d", i+1), Kind: catalog.Original, Side: catalog.Shops, InShop: true,
			Vendor: catalog.None, Bundle: catalog.None,
			Metal: m.IntN(len(m.State.Tables.Metals)), Quantity: 1, Chance: catalog.One, Price: m.Share(0, 0.1, 0.4),
			From: catalog.Origin{Source: catalog.ShopTable, File: "seeded shop", Line: i + 1},
		}
		p.Name = p.ID
		m.Findings(&p)
		out = append(out, drawer{fmt.Sprintf("part-%d", part+1), p})
	}
	return out
}

// takeStock adds the drawers' pieces that fit a slot of the job.
func takeStock(st *catalog.State, drawers []drawer) {
	for _, d := range drawers {
		var fits []int
		for s := range st.Slots {
			if st.Slots[s].Part == d.part {
				fits = append(fits, s)
			}
		}
		if len(fits) > 0 {
			p := d.piece
			p.Fits = fits
			st.Pieces = append(st.Pieces, p)
		}
	}
}

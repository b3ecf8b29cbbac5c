package seeded

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
)

// Shop makes several jobs of one shop: the same platers, makers, vendors and bundles, and
// drawers with a number of pieces that may fit slots of any of them. Every job has its own
// slots, pieces and target. Of fifty jobs a part occurs in about four.
func Shop(f Family, jobs, stock int, seed uint64) []*catalog.State {
	shop := &maker{Rand: rand.New(rand.NewPCG(seed, 77)), f: f, st: &catalog.State{}, series: map[int]int{}}
	shop.st.Tables = catalog.BuiltIn()
	shop.people()
	parts := max(f.Slots, jobs*f.Slots/5)
	area, worth := make([]catalog.Micro, parts), make([]float64, parts)
	for i := range parts {
		area[i], worth[i] = catalog.Micro(300_000+shop.IntN(50)*100_000), 160+360*shop.Float64()
	}
	drawers := shop.drawers(stock, worth)
	var all []*catalog.State
	for n := range jobs {
		m := &maker{Rand: rand.New(rand.NewPCG(seed, 1000+uint64(n))), f: f, st: shop.st.Clone(), series: map[int]int{}}
		m.st.Job = catalog.Job{File: fmt.Sprintf("job-%d", n+1),
			Title: fmt.Sprintf("%s, shop %d, job %d", f.Name, seed, n+1), Currency: "USD"}
		m.st.Shop = catalog.Shop{Hourly: given(catalog.Cents(60 * unit)), Works: []int{0, 2}}
		m.target()
		m.slots()
		order, next := m.Perm(parts), 0
		for s := range m.st.Slots {
			slot := &m.st.Slots[s]
			if slot.Part != slot.ID { // it shares the part of the one before
				slot.Part, slot.Area, m.worth[s] = m.st.Slots[s-1].Part, m.st.Slots[s-1].Area, m.worth[s-1]
				continue
			}
			part := order[next]
			next++
			slot.Part, slot.Area, m.worth[s] = fmt.Sprintf("part-%d", part+1), given(area[part]), worth[part]
		}
		m.matches()
		m.pieces()
		for i := range m.st.Pieces {
			if p := &m.st.Pieces[i]; p.Side == catalog.Shops {
				p.Side, p.InShop, p.Price = catalog.Customers, false, 0
			}
		}
		m.stock(drawers)
		m.trades()
		m.budget()
		all = append(all, m.st)
	}
	return all
}

// drawer is a piece of the shop's and the part it was made for.
type drawer struct {
	part  string
	piece catalog.Piece
}

func (m *maker) drawers(n int, worth []float64) []drawer {
	var out []drawer
	for i := range n {
		part := m.IntN(len(worth))
		m.worth = []float64{worth[part]}
		p := catalog.Piece{
			ID: fmt.Sprintf("drawer-%d", i+1), Kind: catalog.Original, Side: catalog.Shops, InShop: true,
			Vendor: catalog.None, Bundle: catalog.None,
			Metal: m.IntN(len(m.st.Tables.Metals)), Quantity: 1, Chance: catalog.One, Price: m.share(0, 0.1, 0.4),
			From: catalog.Origin{Source: catalog.ShopTable, File: "seeded shop", Line: i + 1},
		}
		p.Name = p.ID
		m.findings(&p)
		out = append(out, drawer{fmt.Sprintf("part-%d", part+1), p})
	}
	return out
}

// stock adds the drawers' pieces that fit a slot of the job.
func (m *maker) stock(drawers []drawer) {
	for _, d := range drawers {
		var fits []int
		for s := range m.st.Slots {
			if m.st.Slots[s].Part == d.part {
				fits = append(fits, s)
			}
		}
		if len(fits) > 0 {
			p := d.piece
			p.Fits = fits
			m.st.Pieces = append(m.st.Pieces, p)
		}
	}
}

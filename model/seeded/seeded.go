// Package seeded makes plausible jobs out of a seed: for tests, benchmarks and
// the race against other solvers. The same family and seed give the same job on
// every machine. Everything in them is invented.
package seeded

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
)

// maker carries what is needed while one job is made.
type maker struct {
	*rand.Rand
	f      Family
	st     *catalog.State
	worth  []float64   // per slot, units: what a good piece sells for
	own    []int       // per slot: its reproduction
	series map[int]int // per matched slot: the piece that leads its series of reproductions
}

// Job makes the job of a family and a seed.
func Job(f Family, seed uint64) *catalog.State {
	m := &maker{rand.New(rand.NewPCG(seed, uint64(len(f.Name))*1000+uint64(f.Slots))), f, &catalog.State{}, nil, nil,
		map[int]int{}}
	m.st.Tables = catalog.BuiltIn()
	m.st.Job = catalog.Job{File: "seeded", Title: fmt.Sprintf("%s, seed %d", f.Name, seed), Currency: "USD"}
	m.st.Shop = catalog.Shop{Hourly: given(catalog.Cents(60 * unit))}
	for w := range m.st.Tables.Works {
		if m.Float64() < 0.4 {
			m.st.Shop.Works = append(m.st.Shop.Works, w)
		}
	}
	m.target()
	m.people()
	m.slots()
	m.matches()
	m.pieces()
	m.trades()
	m.budget()
	return m.st
}

func given[T any](v T) catalog.Val[T] {
	return catalog.Val[T]{V: v, Set: true, From: catalog.Origin{Source: catalog.JobFile, File: "seeded", Line: 1}}
}

// unit is what one unit of the prices here comes to, in cents. All money is made
// with it: it brings the plans of all families to about 50 to 150 a slot.
const unit = 65

// between is a sum of money from lo to hi units.
func (m *maker) between(lo, hi int64) catalog.Cents {
	return catalog.Cents(unit * (lo + m.Int64N(hi-lo+1)))
}

func (m *maker) chance(share float64) bool { return m.Float64() < share }

func (m *maker) target() {
	t := &m.st.Job.Target
	t.Floor = given(catalog.Centi(m.f.Floor * 100))
	if m.f.Mean > 0 {
		t.Mean = given(catalog.Centi(m.f.Mean * 100))
	}
	if m.f.Lasting {
		t.Lasting = given(true)
	}
	if m.f.Completion > 0 {
		m.st.Job.Completion = given(catalog.Micro(m.f.Completion * 1e6))
	}
	if m.f.Days > 0 {
		m.st.Job.WithinDays = given(m.f.Days)
	}
}

// slots: about every third shares its part with the one before it.
func (m *maker) slots() {
	for s := range m.f.Slots {
		id := fmt.Sprintf("slot-%d", s+1)
		slot := catalog.Slot{
			ID: id, Name: id, Part: id, Area: given(catalog.Micro(300_000 + m.IntN(50)*100_000)),
			Weight: catalog.Centi(100 * (1 + m.IntN(4))), Quantity: 1, Target: m.st.Job.Target,
			Rescue: given(m.between(150, 900)), RescueDays: given(30),
		}
		m.worth = append(m.worth, 160+360*m.Float64())
		if s > 0 && m.chance(0.35) {
			before := m.st.Slots[s-1]
			m.worth[s] = m.worth[s-1]
			slot.Part, slot.Area, slot.Weight = before.Part, before.Area, before.Weight
		}
		if m.chance(0.05) {
			slot.Quantity = 2 + m.IntN(3)
		}
		if m.chance(0.05) {
			slot.MaxBreakage = given(catalog.Micro(80_000))
		}
		m.st.Slots = append(m.st.Slots, slot)
	}
}

func (m *maker) matches() {
	s := 0
	for i := range m.f.Matches {
		n := 2
		if m.chance(0.2) {
			n = 3 + m.IntN(2)
		}
		if s+n > m.f.Slots {
			return
		}
		g := catalog.Match{ID: fmt.Sprintf("match-%d", i+1), GradeWithin: given(catalog.Centi(100 * (4 + m.IntN(6))))}
		if m.chance(0.5) {
			g.ToneWithin = given(catalog.Centi(150 + m.IntN(200)))
		}
		g.SamePlater = m.chance(0.5)
		g.FreshAlike = m.chance(0.3)
		for range n {
			g.Slots = append(g.Slots, s)
			s++
		}
		m.st.Matches = append(m.st.Matches, g)
		s += m.IntN(2)
	}
}

// budget is a share of what a set of nothing but reproductions is worth, and at
// least what is still to be paid for it: such a set always meets the budget too.
func (m *maker) budget() {
	if m.f.Budget == 0 {
		return
	}
	worth, pay, from := catalog.Cents(0), catalog.Cents(0), map[int]bool{}
	for s, i := range m.own {
		p := &m.st.Pieces[i]
		n := catalog.Cents(m.st.Slots[s].Quantity)
		worth += n * (p.Price + p.Value)
		pay += n * p.Price
		if p.Side == catalog.Vendors && !from[p.Vendor] {
			from[p.Vendor] = true
			pay += m.st.Vendors[p.Vendor].Freight
		}
	}
	share := catalog.Cents(m.f.Budget*float64(worth)) / 100 * 100
	m.st.Job.Budget = given(max(share, pay))
}

func (m *maker) trades() {
	for i := range m.f.Trades {
		give, get := m.IntN(len(m.st.Pieces)), m.IntN(len(m.st.Pieces))
		if give == get || m.st.Pieces[give].Side != catalog.Customers {
			continue
		}
		m.st.Trades = append(m.st.Trades,
			catalog.Trade{ID: fmt.Sprintf("trade-%d", i+1), Give: give, Get: get, Credit: m.between(10, 60)})
	}
}

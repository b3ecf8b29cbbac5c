// Package seeded makes plausible jobs out of a seed: for tests and the race
// against other solvers. The same family and seed give the same job on
// every machine. Everything in them is invented.
package seeded

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
)

// Maker carries what is needed while one job is made. Its steps draw from one row of
// random numbers, so their order counts: Target, People, Slots, Matches, Pieces, Trades,
// Budget.
type Maker struct {
	*rand.Rand
	Family Family
	State  *catalog.State // the job so far
	Worth  []float64      // per slot: what a good piece sells for, in units of Unit cents

	own    []int       // per slot: its reproduction
	series map[int]int // per matched slot: the piece that leads its series of reproductions
}

// NewMaker starts a job on a state that may hold tables, platers, makers, vendors and
// bundles already.
func NewMaker(f Family, st *catalog.State, r *rand.Rand) *Maker {
	return &Maker{Rand: r, Family: f, State: st, series: map[int]int{}}
}

// Job makes the job of a family and a seed.
func Job(f Family, seed uint64) *catalog.State {
	m := NewMaker(f, &catalog.State{}, rand.New(rand.NewPCG(seed, uint64(len(f.Name))*1000+uint64(f.Slots))))
	m.State.Tables = catalog.BuiltIn()
	m.State.Job = catalog.Job{File: "seeded", Title: fmt.Sprintf("%s, seed %d", f.Name, seed), Currency: "USD"}
	m.State.Shop = catalog.Shop{Hourly: given(catalog.Cents(60 * Unit))}
	for w := range m.State.Tables.Works {
		if m.Float64() < 0.4 {
			m.State.Shop.Works = append(m.State.Shop.Works, w)
		}
	}
	m.Target()
	m.People()
	m.Slots()
	m.Matches()
	m.Pieces()
	m.Trades()
	m.Budget()
	return m.State
}

func given[T any](v T) catalog.Val[T] {
	return catalog.Val[T]{V: v, Set: true, From: catalog.Origin{Source: catalog.JobFile, File: "seeded", Line: 1}}
}

// Unit is what one unit of the prices here comes to, in cents. All money is made
// with it: it brings the plans of all families to about 50 to 150 a slot.
const Unit = 65

// between is a sum of money from lo to hi units.
func (m *Maker) between(lo, hi int64) catalog.Cents {
	return catalog.Cents(Unit * (lo + m.Int64N(hi-lo+1)))
}

func (m *Maker) chance(share float64) bool { return m.Float64() < share }

// Target sets what the family asks of the job.
func (m *Maker) Target() {
	t := &m.State.Job.Target
	t.Floor = given(catalog.Centi(m.Family.Floor * 100))
	if m.Family.Mean > 0 {
		t.Mean = given(catalog.Centi(m.Family.Mean * 100))
	}
	if m.Family.Lasting {
		t.Lasting = given(true)
	}
	if m.Family.Completion > 0 {
		m.State.Job.Completion = given(catalog.Micro(m.Family.Completion * 1e6))
	}
	if m.Family.Days > 0 {
		m.State.Job.WithinDays = given(m.Family.Days)
	}
}

// Slots: about every third shares its part with the one before it.
func (m *Maker) Slots() {
	for s := range m.Family.Slots {
		id := fmt.Sprintf("slot-%d", s+1)
		slot := catalog.Slot{
			ID: id, Name: id, Part: id, Area: given(catalog.Micro(300_000 + m.IntN(50)*100_000)),
			Weight: catalog.Centi(100 * (1 + m.IntN(4))), Quantity: 1, Target: m.State.Job.Target,
			Rescue: given(m.between(150, 900)), RescueDays: given(30),
		}
		m.Worth = append(m.Worth, 160+360*m.Float64())
		if s > 0 && m.chance(0.35) {
			before := m.State.Slots[s-1]
			m.Worth[s] = m.Worth[s-1]
			slot.Part, slot.Area, slot.Weight = before.Part, before.Area, before.Weight
		}
		if m.chance(0.05) {
			slot.Quantity = 2 + m.IntN(3)
		}
		if m.chance(0.05) {
			slot.MaxBreakage = given(catalog.Micro(80_000))
		}
		m.State.Slots = append(m.State.Slots, slot)
	}
}

// Matches groups slots that are seen together.
func (m *Maker) Matches() {
	s := 0
	for i := range m.Family.Matches {
		n := 2
		if m.chance(0.2) {
			n = 3 + m.IntN(2)
		}
		if s+n > m.Family.Slots {
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
		m.State.Matches = append(m.State.Matches, g)
		s += m.IntN(2)
	}
}

// Budget is a share of what a set of nothing but reproductions is worth, and at
// least what is still to be paid for it: such a set always meets the budget too.
func (m *Maker) Budget() {
	if m.Family.Budget == 0 {
		return
	}
	worth, pay, from := catalog.Cents(0), catalog.Cents(0), map[int]bool{}
	for s, i := range m.own {
		p := &m.State.Pieces[i]
		n := catalog.Cents(m.State.Slots[s].Quantity)
		worth += n * (p.Price + p.Value)
		pay += n * p.Price
		if p.Side == catalog.Vendors && !from[p.Vendor] {
			from[p.Vendor] = true
			pay += m.State.Vendors[p.Vendor].Freight
		}
	}
	share := catalog.Cents(m.Family.Budget*float64(worth)) / 100 * 100
	m.State.Job.Budget = given(max(share, pay))
}

// Trades offers pieces of the customer's for others.
func (m *Maker) Trades() {
	for i := range m.Family.Trades {
		give, get := m.IntN(len(m.State.Pieces)), m.IntN(len(m.State.Pieces))
		if give == get || m.State.Pieces[give].Side != catalog.Customers {
			continue
		}
		m.State.Trades = append(m.State.Trades,
			catalog.Trade{ID: fmt.Sprintf("trade-%d", i+1), Give: give, Get: get, Credit: m.between(10, 60)})
	}
}

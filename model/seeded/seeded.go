// Package seeded makes plausible jobs out of a seed: for tests, benchmarks and
// the race against other solvers. The same family and seed give the same job on
// every machine. Everything in them is invented.
package seeded

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
)

// Family says how large a job is and which rules it has.
type Family struct {
	Name       string
	Slots      int
	Pieces     int     // per slot, about
	Platers    int     // at least 1
	Vendors    int     // at least 1
	Bundles    int     //
	Trades     int     //
	Matches    int     // groups of two to four slots
	Quotes     float64 // share of pieces with a quote
	Offered    float64 // share of pieces that vendors offer; 0: 0.3
	Leads      float64 // share of pieces that may not come
	Completion float64 // 0: none
	Mean       float64 // 0: none
	Floor      float64 //
	Lasting    bool    //
	Days       int     // 0: no date
	Owned      float64 // share of slots whose reproduction the customer has bought already
	Budget     float64 // on outlay, as a share of what a set of reproductions is worth; 0: none
}

// Families are the families of the race.
var Families = []Family{
	{Name: "car-30", Slots: 30, Pieces: 6, Platers: 4, Vendors: 4, Bundles: 3, Trades: 2, Matches: 5, Quotes: 0.3,
		Leads: 0.15, Completion: 0.9, Mean: 84, Floor: 60, Lasting: true, Days: 150, Owned: 0.8, Budget: 0.33},
	{Name: "car-60", Slots: 60, Pieces: 6, Platers: 5, Vendors: 5, Bundles: 4, Trades: 3, Matches: 8, Quotes: 0.3,
		Leads: 0.15, Completion: 0.85, Mean: 84, Floor: 60, Lasting: true, Days: 150, Owned: 0.8, Budget: 0.33},
	{Name: "car-120", Slots: 120, Pieces: 5, Platers: 6, Vendors: 6, Bundles: 6, Trades: 4, Matches: 14, Quotes: 0.3,
		Leads: 0.15, Completion: 0.75, Mean: 84, Floor: 60, Lasting: true, Days: 150},
	{Name: "many-offers", Slots: 25, Pieces: 16, Platers: 6, Vendors: 10, Bundles: 8, Trades: 2, Matches: 3,
		Quotes: 0.5, Offered: 0.7, Leads: 0.3, Completion: 0.9, Mean: 86, Floor: 60},
	{Name: "tight-completion", Slots: 40, Pieces: 6, Platers: 4, Vendors: 4, Bundles: 2, Matches: 4, Quotes: 0.3,
		Leads: 0.25, Completion: 0.97, Mean: 82, Floor: 60},
	{Name: "many-matches", Slots: 40, Pieces: 6, Platers: 5, Vendors: 4, Bundles: 2, Matches: 14, Quotes: 0.3,
		Leads: 0.1, Completion: 0.9, Mean: 84, Floor: 60},
	{Name: "shop-400", Slots: 400, Pieces: 4, Platers: 8, Vendors: 10, Bundles: 10, Trades: 4, Matches: 40, Quotes: 0.2,
		Leads: 0.1, Completion: 0.4, Mean: 83, Floor: 60},
}

// OneOfMany is a job as a shop has several of: most of what it hangs came off the object
// or lies in the shop's drawers.
var OneOfMany = Family{Name: "one-of-many", Slots: 40, Pieces: 3, Platers: 5, Vendors: 4, Bundles: 4, Trades: 1,
	Matches: 8, Quotes: 0.3, Leads: 0.1, Completion: 0.9, Mean: 84, Floor: 60, Lasting: true, Days: 150}

// Named gives a family by its name.
func Named(name string) (Family, bool) {
	for _, f := range Families {
		if f.Name == name {
			return f, true
		}
	}
	return Family{}, false
}

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

func (m *maker) people() {
	metals := len(m.st.Tables.Metals)
	for q := range m.f.Platers {
		p := catalog.Plater{
			ID: fmt.Sprintf("plater-%d", q+1), Minimum: m.between(0, 4) * 75, Freight: m.between(20, 90),
			Days: 20 + m.IntN(60), Hourly: given(m.between(45, 95)), Least: m.between(10, 40),
			StripFee: m.between(10, 40),
			Factor:   catalog.Micro(600_000 + m.IntN(900_000)),
		}
		p.Name = p.ID
		for w := range m.st.Tables.Works {
			if m.st.Tables.Works[w].Usual || m.chance(0.4) {
				p.Works = append(p.Works, w)
			}
		}
		best := 86 + m.IntN(11)
		rate := 35 + m.Int64N(40)
		for l, name := range []string{"driver", "show"} {
			level := catalog.Level{Name: name, Rate: make([]catalog.Val[catalog.Cents], metals),
				Grade: make([]catalog.Val[catalog.Centi], metals)}
			for k := range metals {
				if m.chance(0.1) {
					continue // he doesn't plate that metal at this level
				}
				level.Rate[k] = given(catalog.Cents(unit * (rate + int64(l)*(20+m.Int64N(25)) + m.Int64N(10))))
				level.Grade[k] = given(catalog.Centi(100 * (best - 12*(1-l) - m.IntN(4))))
			}
			level.Tone = given(catalog.Centi(m.IntN(160) - 40))
			p.Levels = append(p.Levels, level)
		}
		m.st.Platers = append(m.st.Platers, p)
	}
	var all []int
	for w := range m.st.Tables.Works {
		all = append(all, w)
	}
	m.st.Makers = []catalog.Maker{{ID: "maker-1", Name: "maker-1", Hourly: m.between(50, 80), Works: all, Days: 12}}
	for v := range m.f.Vendors {
		id := fmt.Sprintf("vendor-%d", v+1)
		m.st.Vendors = append(m.st.Vendors,
			catalog.Vendor{ID: id, Name: id, Freight: m.between(8, 45), Days: 5 + m.IntN(20)})
	}
	for b := range m.f.Bundles {
		m.st.Bundles = append(m.st.Bundles,
			catalog.Bundle{ID: fmt.Sprintf("bundle-%d", b+1), Vendor: m.IntN(m.f.Vendors), Price: m.between(80, 400)})
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

package seeded

import (
	"fmt"

	"brightset/catalog"
)

// People makes the platers, makers, vendors and their bundles.
func (m *Maker) People() {
	metals := len(m.State.Tables.Metals)
	for q := range m.Family.Platers {
		p := catalog.Plater{
			ID: fmt.Sprintf("plater-%d", q+1), Minimum: m.between(0, 4) * 75, Freight: m.between(20, 90),
			Days: 20 + m.IntN(60), Hourly: given(m.between(45, 95)), Least: m.between(10, 40),
			StripFee: m.between(10, 40),
			Factor:   catalog.Micro(600_000 + m.IntN(900_000)),
		}
		p.Name = p.ID
		for w := range m.State.Tables.Works {
			if m.State.Tables.Works[w].Usual || m.chance(0.4) {
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
				level.Rate[k] = given(catalog.Cents(Unit * (rate + int64(l)*(20+m.Int64N(25)) + m.Int64N(10))))
				level.Grade[k] = given(catalog.Centi(100 * (best - 12*(1-l) - m.IntN(4))))
			}
			level.Tone = given(catalog.Centi(m.IntN(160) - 40))
			p.Levels = append(p.Levels, level)
		}
		m.State.Platers = append(m.State.Platers, p)
	}
	var all []int
	for w := range m.State.Tables.Works {
		all = append(all, w)
	}
	m.State.Makers = []catalog.Maker{{ID: "maker-1", Name: "maker-1", Hourly: m.between(50, 80), Works: all, Days: 12}}
	for v := range m.Family.Vendors {
		id := fmt.Sprintf("vendor-%d", v+1)
		m.State.Vendors = append(m.State.Vendors,
			catalog.Vendor{ID: id, Name: id, Freight: m.between(8, 45), Days: 5 + m.IntN(20)})
	}
	for b := range m.Family.Bundles {
		m.State.Bundles = append(m.State.Bundles,
			catalog.Bundle{ID: fmt.Sprintf("bundle-%d", b+1), Vendor: m.IntN(m.Family.Vendors),
				Price: m.between(80, 400)})
	}
}

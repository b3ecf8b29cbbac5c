package model

import "brightset/catalog"

// judgeJob is a small job whose cheapest plan has plated work under the
// minimum, a fallback, a bundle, bought pieces and a trade. All invented.
func judgeJob() *catalog.State {
	j := &randomJob{st: &catalog.State{}}
	j.tables()
	st := j.st
	st.Job.Target = catalog.Target{Floor: randomSet[catalog.Centi](70_00), Lasting: randomSet(true)}
	st.Shop.Hourly = randomSet[catalog.Cents](50_00)
	level := func(name string, rate catalog.Cents, grade catalog.Centi) catalog.Level {
		l := catalog.Level{Name: name}
		for range 3 {
			l.Rate = append(l.Rate, randomSet(rate))
			l.Grade = append(l.Grade, randomSet(grade))
		}
		return l
	}
	st.Platers = []catalog.Plater{
		{ID: "north", Minimum: 300_00, Freight: 25_00, Days: 30, Least: 20_00, StripFee: 12_00, Works: []int{1},
			Factor: catalog.One, Levels: []catalog.Level{level("driver", 30_00, 80_00), level("show", 55_00, 93_00)}},
		{ID: "south", Minimum: 800_00, Freight: 30_00, Days: 40, Hourly: randomSet[catalog.Cents](60_00), Works: []int{1, 2},
			Factor: 1_250_000, Levels: []catalog.Level{level("driver", 40_00, 85_00)}},
	}
	st.Vendors = []catalog.Vendor{{ID: "barn", Freight: 9_00, Days: 10}, {ID: "dock", Freight: 11_00, Days: 5}}
	st.Bundles = []catalog.Bundle{{ID: "crate", Vendor: 1, Price: 60_00}}
	for s, id := range []string{"rim-left", "rim-right", "bezel", "hook", "cap"} {
		st.Slots = append(st.Slots, catalog.Slot{ID: id, Area: randomSet[catalog.Micro](1_500_000), Weight: catalog.Centi(100 * (s%3 + 1)),
			Quantity: 1, Target: st.Job.Target, Rescue: randomSet[catalog.Cents](900_00), RescueDays: randomSet(20)})
	}
	piece := func(id string, slot int, metal int) *catalog.Piece {
		st.Pieces = append(st.Pieces, catalog.Piece{ID: id, Fits: []int{slot}, Kind: catalog.Original, Vendor: catalog.None,
			Bundle: catalog.None, Metal: metal, Quantity: 1, Chance: catalog.One})
		return &st.Pieces[len(st.Pieces)-1]
	}
	found := func(defect int, severity catalog.Severity, extent catalog.Micro) []catalog.Finding {
		return []catalog.Finding{{ID: "a", Defect: defect, Severity: severity, Extent: extent, Count: 2, Where: catalog.Face}}
	}
	piece("rl-1", 0, randomPotMetal).Findings = found(2, catalog.Moderate, 400_000)
	piece("rr-1", 1, randomBrass).Findings = found(1, catalog.Severe, 300_000)
	p := piece("rl-2", 0, randomBrass)
	p.Side, p.Vendor, p.Price, p.Chance, p.Grade = catalog.Vendors, 0, 150_00, 800_000, randomSet[catalog.Centi](90_00)
	p = piece("bz-1", 2, randomSteel)
	p.Kind, p.Side, p.Vendor, p.Bundle, p.Grade = catalog.Reproduction, catalog.Vendors, 1, 0, randomSet[catalog.Centi](80_00)
	p = piece("old", 2, randomPotMetal)
	p.Grade, p.Value = randomSet[catalog.Centi](75_00), 500_00
	p = piece("hk-1", 3, randomSteel)
	p.Side, p.Price, p.Grade, p.InShop = catalog.Shops, 40_00, randomSet[catalog.Centi](88_00), true
	p = piece("cp-1", 4, randomBrass)
	p.Side, p.Vendor, p.Price, p.Grade = catalog.Vendors, 0, 35_00, randomSet[catalog.Centi](91_00)
	st.Trades = []catalog.Trade{{ID: "swap", Give: 4, Get: 5, Credit: 15_00}, {ID: "again", Give: 4, Get: 5, Credit: 10_00}}
	st.Matches = []catalog.Match{{ID: "rims", Slots: []int{0, 1}, SamePlater: true}}
	return st
}

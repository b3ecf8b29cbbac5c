package model

import "brightset/catalog"

// The places of things in tinyState.
const (
	steel, potMetal                          = 0, 1
	haze, pits, nickel, bent                 = 0, 1, 2, 3
	clean, straighten, fill, posts           = 0, 1, 2, 3
	north, south                             = 0, 1
	driver, show                             = 0, 1
	left, right                              = 0, 1
	bare, hazy, twisted, sold, bagged, other = 0, 1, 2, 3, 4, 5
)

// given is a value as the shop's tables give it, start as a starting value.
func given[T any](v T) catalog.Val[T] {
	return catalog.Val[T]{V: v, Set: true, From: catalog.Origin{Source: catalog.ShopTable, File: "shop.toml", Line: 1}}
}

func start[T any](v T) catalog.Val[T] { return catalog.Val[T]{V: v, Set: true} }

// tinyState is two rims with six pieces, two platers, a vendor, a bundle and a
// maker, in round figures. It sets no target, budget or date.
func tinyState() *catalog.State {
	st := &catalog.State{
		Shop:    catalog.Shop{Hourly: start[catalog.Cents](40_00), Works: []int{fill}},
		Tables:  tinyTables(),
		Makers:  []catalog.Maker{{ID: "dear", Hourly: 90_00, Works: []int{posts}, Days: 3}, {ID: "smith", Hourly: 70_00, Works: []int{posts}, Days: 9}},
		Vendors: []catalog.Vendor{{ID: "attic", Freight: 15_00, Days: 7}},
		Bundles: []catalog.Bundle{{ID: "crate", Vendor: 0, Price: 60_00}},
	}
	for _, id := range []string{"rim-left", "rim-right"} {
		st.Slots = append(st.Slots, catalog.Slot{ID: id, Part: "rim", Area: given(catalog.Micro(3_200_000)),
			Weight: 100, Quantity: 1, Rescue: start(catalog.Cents(450_00)), RescueDays: start(30)})
	}
	st.Slots[left].Weight = 300
	st.Platers = []catalog.Plater{tinyPlater("north", 20_00, 30_00), tinyPlater("south", 0, 0)}
	st.Platers[north].Works = []int{straighten}
	st.Platers[north].Hourly = given(catalog.Cents(60_00))
	st.Platers[north].Factor = 1_200_000
	st.Platers[south].Refuses = []int{bent}
	finding := func(defect int, sev catalog.Severity, extent catalog.Micro, count int) catalog.Finding {
		return catalog.Finding{Defect: defect, Severity: sev, Extent: extent, Count: count, Where: catalog.Face}
	}
	st.Pieces = []catalog.Piece{
		tinyPiece("bare"),
		tinyPiece("hazy", finding(haze, catalog.Light, 500_000, 1), finding(pits, catalog.Light, 100_000, 4)),
		tinyPiece("twisted", finding(bent, catalog.Moderate, 250_000, 2)),
		tinyPiece("sold"), tinyPiece("bagged"), tinyPiece("other"),
	}
	st.Pieces[sold].Side, st.Pieces[sold].Vendor, st.Pieces[sold].Price = catalog.Vendors, 0, 100_00
	st.Pieces[sold].Grade = given(catalog.Centi(88_00))
	st.Pieces[bagged].Side, st.Pieces[bagged].Vendor, st.Pieces[bagged].Bundle = catalog.Vendors, 0, 0
	st.Pieces[bagged].Grade = given(catalog.Centi(80_00))
	st.Pieces[other].Grade = given(catalog.Centi(70_00))
	return st
}

func tinyTables() catalog.Tables {
	per := func(a, b catalog.Micro) []catalog.Val[catalog.Micro] {
		return []catalog.Val[catalog.Micro]{start(a), start(b)}
	}
	t := catalog.Tables{Metals: []catalog.Metal{
		{Name: "steel", Base: start(catalog.Micro(10_000))}, {Name: "pot metal", Base: start(catalog.Micro(80_000))}}}
	t.Works = []catalog.Work{
		{Name: "clean", Hours: start(catalog.Micro(500_000)), Each: start(catalog.Micro(100_000)), PerArea: start(catalog.Micro(250_000)), Breakage: per(0, 20_000), Cap: start(catalog.Centi(85_00))},
		{Name: "straighten", Hours: start(catalog.Micro(500_000)), Each: start(catalog.Micro(250_000)), PerArea: start(catalog.Micro(500_000)), Breakage: per(50_000, 200_000), Cap: start(catalog.Centi(90_00))},
		{Name: "fill", Each: start(catalog.Micro(200_000)), Breakage: per(0, 10_000)},
		{Name: "posts", Hours: start(catalog.Micro(1_000_000))},
	}
	t.Defects = []catalog.Defect{
		{Name: "haze", Measure: catalog.ByExtent}, {Name: "pits", Measure: catalog.ByCount},
		{Name: "nickel showing", Measure: catalog.ByExtent, Progressive: true, Tone: start(catalog.Centi(4_00))},
		{Name: "bent", Measure: catalog.ByCount, Refused: per(100_000, 300_000)}}
	t.Defects[haze].By[catalog.Light] = catalog.DefectAt{Points: start(catalog.Centi(40_00)), Polishes: start(true)}
	t.Defects[pits].By[catalog.Light] = catalog.DefectAt{Points: start(catalog.Centi(2_50)), Cap: start(catalog.Centi(95_00))}
	t.Defects[pits].By[catalog.Moderate] = catalog.DefectAt{Points: start(catalog.Centi(5_00)), Cap: start(catalog.Centi(70_00)), Works: []int{fill}}
	t.Defects[pits].By[catalog.Severe] = catalog.DefectAt{Points: start(catalog.Centi(9_00)), Beyond: start(true)}
	t.Defects[nickel].By[catalog.Light] = catalog.DefectAt{Points: start(catalog.Centi(30_00)), Cap: start(catalog.Centi(55_00))}
	t.Defects[bent].By[catalog.Moderate] = catalog.DefectAt{Points: start(catalog.Centi(10_00)), Works: []int{straighten}, Reveal: start(catalog.Micro(500_000))}
	t.Defects[bent].By[catalog.Severe] = catalog.DefectAt{Points: start(catalog.Centi(10_00)), Works: []int{straighten, posts}}
	return t
}

func tinyPlater(id string, minimum, freight catalog.Cents) catalog.Plater {
	rates := func(a, b catalog.Cents) []catalog.Val[catalog.Cents] {
		return []catalog.Val[catalog.Cents]{given(a), given(b)}
	}
	grades := func(a, b catalog.Centi) []catalog.Val[catalog.Centi] {
		return []catalog.Val[catalog.Centi]{given(a), given(b)}
	}
	return catalog.Plater{ID: id, Minimum: minimum, Freight: freight, Days: 40, Least: 50_00, StripFee: 8_00, Factor: catalog.One,
		Levels: []catalog.Level{
			{Name: "driver", Rate: rates(10_00, 12_00), Grade: grades(75_00, 72_00)},
			{Name: "show", Rate: rates(25_00, 30_00), Grade: grades(95_00, 92_00), Tone: given(catalog.Centi(-25))}}}
}

func tinyPiece(id string, findings ...catalog.Finding) catalog.Piece {
	return catalog.Piece{ID: id, Fits: []int{left, right}, Kind: catalog.Original, Side: catalog.Customers, Vendor: catalog.None,
		Bundle: catalog.None, Metal: steel, Quantity: 1, Chance: catalog.One, Findings: findings}
}

// pick finds the one choice of a slot with this piece, work, plater and level.
func pick(all []Choice, piece int, work string, plater int, level string) *Choice {
	for i := range all {
		c := &all[i]
		if c.Piece == piece && c.Work == work && c.Plater == plater && c.Level == level {
			return c
		}
	}
	return nil
}

// anything is a filter that takes every choice.
func anything() catalog.Filter {
	return catalog.Filter{Slot: catalog.None, Piece: catalog.None, Plater: catalog.None}
}

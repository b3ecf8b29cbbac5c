package jobs

import (
	"path/filepath"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

// BusyState is Tiny with a trade that gives other and takes sold, and a match.
func BusyState() *catalog.State {
	st := Tiny()
	st.Pieces = append(st.Pieces, TinyPiece("lonely"))
	st.Pieces[6].Fits, st.Pieces[6].Grade = []int{Right}, Given(catalog.Centi(60_00))
	st.Trades = []catalog.Trade{{ID: "swap", Give: Other, Get: Sold, Credit: 30_00}}
	st.Matches = []catalog.Match{{ID: "rims", Slots: []int{Right, Left}, GradeWithin: Given(catalog.Centi(5_00)),
		ToneWithin: Given(catalog.Centi(2_00)), SamePlater: true, FreshAlike: true}}
	return st
}

// The places of things in Tiny.
const (
	Steel, PotMetal                          = 0, 1
	Haze, Pits, Nickel, Bent                 = 0, 1, 2, 3
	clean, straighten, fill, posts           = 0, 1, 2, 3
	North, South                             = 0, 1
	driver, Show                             = 0, 1
	Left, Right                              = 0, 1
	Bare, Hazy, Twisted, Sold, Bagged, Other = 0, 1, 2, 3, 4, 5
)

// Given is a value as the shop's tables give it, start as a starting value.
func Given[T any](v T) catalog.Val[T] {
	return catalog.Val[T]{V: v, Set: true, From: catalog.Origin{Source: catalog.ShopTable, File: "shop.toml", Line: 1}}
}

func Start[T any](v T) catalog.Val[T] { return catalog.Val[T]{V: v, Set: true} }

// Tiny is two rims with six pieces, two platers, a vendor, a bundle and a
// maker, in round figures. It sets no target, budget or date.
func Tiny() *catalog.State {
	st := &catalog.State{
		Shop:   catalog.Shop{Hourly: Start[catalog.Cents](40_00), Works: []int{fill}},
		Tables: tinyTables(),
		Makers: []catalog.Maker{{ID: "dear", Hourly: 90_00, Works: []int{posts}, Days: 3},
			{ID: "smith", Hourly: 70_00, Works: []int{posts}, Days: 9}},
		Vendors: []catalog.Vendor{{ID: "attic", Freight: 15_00, Days: 7}},
		Bundles: []catalog.Bundle{{ID: "crate", Vendor: 0, Price: 60_00}},
	}
	for _, id := range []string{"rim-left", "rim-right"} {
		st.Slots = append(st.Slots, catalog.Slot{ID: id, Name: id, Part: "rim", Area: Given(catalog.Micro(3_200_000)),
			Weight: 100, Quantity: 1, Rescue: Start(catalog.Cents(450_00)), RescueDays: Start(30)})
	}
	st.Slots[Left].Weight = 300
	st.Platers = []catalog.Plater{tinyPlater("north", 20_00, 30_00), tinyPlater("south", 0, 0)}
	st.Platers[North].Works = []int{straighten}
	st.Platers[North].Hourly = Given(catalog.Cents(60_00))
	st.Platers[North].Factor = 1_200_000
	st.Platers[South].Refuses = []int{Bent}
	finding := func(defect int, sev catalog.Severity, extent catalog.Micro, count int) catalog.Finding {
		return catalog.Finding{Defect: defect, Severity: sev, Extent: extent, Count: count, Where: catalog.Face}
	}
	st.Pieces = []catalog.Piece{
		TinyPiece("bare"),
		TinyPiece("hazy", finding(Haze, catalog.Light, 500_000, 1), finding(Pits, catalog.Light, 100_000, 4)),
		TinyPiece("twisted", finding(Bent, catalog.Moderate, 250_000, 2)),
		TinyPiece("sold"), TinyPiece("bagged"), TinyPiece("other"),
	}
	st.Pieces[Sold].Side, st.Pieces[Sold].Vendor, st.Pieces[Sold].Price = catalog.Vendors, 0, 100_00
	st.Pieces[Sold].Grade = Given(catalog.Centi(88_00))
	st.Pieces[Bagged].Side, st.Pieces[Bagged].Vendor, st.Pieces[Bagged].Bundle = catalog.Vendors, 0, 0
	st.Pieces[Bagged].Grade = Given(catalog.Centi(80_00))
	st.Pieces[Other].Grade = Given(catalog.Centi(70_00))
	return st
}

func tinyTables() catalog.Tables {
	per := func(a, b catalog.Micro) []catalog.Val[catalog.Micro] {
		return []catalog.Val[catalog.Micro]{Start(a), Start(b)}
	}
	t := catalog.Tables{Metals: []catalog.Metal{
		{Name: "steel", Base: Start(catalog.Micro(10_000))}, {Name: "pot metal", Base: Start(catalog.Micro(80_000))}}}
	t.Spread = catalog.Spread{Low: Start(catalog.Micro(100_000)), High: Start(catalog.Micro(350_000))}
	t.Works = []catalog.Work{
		{Name: "clean", Hours: Start(catalog.Micro(500_000)), Each: Start(catalog.Micro(100_000)),
			PerArea: Start(catalog.Micro(250_000)), Breakage: per(0, 20_000), Cap: Start(catalog.Centi(85_00))},
		{Name: "straighten", Hours: Start(catalog.Micro(500_000)), Each: Start(catalog.Micro(250_000)),
			PerArea: Start(catalog.Micro(500_000)), Breakage: per(50_000, 200_000), Cap: Start(catalog.Centi(90_00))},
		{Name: "fill", Each: Start(catalog.Micro(200_000)), Breakage: per(0, 10_000)},
		{Name: "posts", Hours: Start(catalog.Micro(1_000_000))},
	}
	t.Defects = []catalog.Defect{
		{Name: "haze", Measure: catalog.ByExtent}, {Name: "pits", Measure: catalog.ByCount},
		{Name: "nickel showing", Measure: catalog.ByExtent, Progressive: true, Tone: Start(catalog.Centi(4_00))},
		{Name: "bent", Measure: catalog.ByCount, Refused: per(100_000, 300_000)}}
	t.Defects[Haze].By[catalog.Light] = catalog.DefectAt{Points: Start(catalog.Centi(40_00)), Polishes: Start(true)}
	t.Defects[Pits].By[catalog.Light] = catalog.DefectAt{Points: Start(catalog.Centi(2_50)),
		Cap: Start(catalog.Centi(95_00))}
	t.Defects[Pits].By[catalog.Moderate] = catalog.DefectAt{Points: Start(catalog.Centi(5_00)),
		Cap: Start(catalog.Centi(70_00)), Works: []int{fill}}
	t.Defects[Pits].By[catalog.Severe] = catalog.DefectAt{Points: Start(catalog.Centi(9_00)), Beyond: Start(true)}
	t.Defects[Nickel].By[catalog.Light] = catalog.DefectAt{Points: Start(catalog.Centi(30_00)),
		Cap: Start(catalog.Centi(55_00))}
	t.Defects[Bent].By[catalog.Moderate] = catalog.DefectAt{Points: Start(catalog.Centi(10_00)),
		Works: []int{straighten}, Reveal: Start(catalog.Micro(500_000))}
	t.Defects[Bent].By[catalog.Severe] = catalog.DefectAt{Points: Start(catalog.Centi(10_00)),
		Works: []int{straighten, posts}}
	return t
}

func tinyPlater(id string, minimum, freight catalog.Cents) catalog.Plater {
	rates := func(a, b catalog.Cents) []catalog.Val[catalog.Cents] {
		return []catalog.Val[catalog.Cents]{Given(a), Given(b)}
	}
	grades := func(a, b catalog.Centi) []catalog.Val[catalog.Centi] {
		return []catalog.Val[catalog.Centi]{Given(a), Given(b)}
	}
	return catalog.Plater{ID: id, Name: id, Minimum: minimum, Freight: freight, Days: 40, Least: 50_00, StripFee: 8_00,
		Factor: catalog.One,
		Levels: []catalog.Level{
			{Name: "driver", Rate: rates(10_00, 12_00), Grade: grades(75_00, 72_00)},
			{Name: "show", Rate: rates(25_00, 30_00), Grade: grades(95_00, 92_00), Tone: Given(catalog.Centi(-25))}}}
}

func TinyPiece(id string, findings ...catalog.Finding) catalog.Piece {
	return catalog.Piece{ID: id, Fits: []int{Left, Right}, Kind: catalog.Original, Side: catalog.Customers,
		Vendor: catalog.None,
		Bundle: catalog.None, Metal: Steel, Quantity: 1, Chance: catalog.One, Findings: findings}
}

// Pick finds the one choice of a slot with this piece, work, plater and level.
func Pick(all []plan.Choice, piece int, work string, plater int, level string) *plan.Choice {
	for i := range all {
		c := &all[i]
		if c.Piece == piece && c.Work == work && c.Plater == plater && c.Level == level {
			return c
		}
	}
	return nil
}

// Anything is a filter that takes every choice.
func Anything() catalog.Filter {
	return catalog.Filter{Slot: catalog.None, Piece: catalog.None, Plater: catalog.None}
}

// DemoState is the job of the demonstration, for tests two folders below the module's root.
func DemoState(t *testing.T) *catalog.State {
	t.Helper()
	st, err := catalog.Load(filepath.Join("..", "..", "testdata", "demo", "job.toml"), catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

package check

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestDeriveByHand compares derived choices with figures worked out by hand.
func TestDeriveByHand(t *testing.T) {
	choice := func(slot, piece int, work string) plan.Choice {
		return plan.Choice{Slot: slot, Piece: piece, Work: work, Plater: catalog.None, Quote: catalog.None,
			Chance: catalog.One}
	}
	plated := func(piece int, work string, plater int, level string) plan.Choice {
		c := choice(piece, piece, work)
		c.Plater, c.Level, c.Fresh, c.Redone = plater, level, true, true
		return c
	}
	tests := []struct {
		name   string
		change func(st *catalog.State)
		want   func() plan.Choice
	}{
		{"as it is: 100 - 0.4 x 35, pits grow, tone of the pits", nil, func() plan.Choice {
			c := choice(0, 0, catalog.WorkAsIs)
			c.Grade, c.Tone, c.Growing = 86_00, -8_10, true
			return c
		}},
		{"hidden back: no points, no tone; its cap holds, and it grows all the same", func(st *catalog.State) {
			st.Pieces[1].Findings[0].Where = catalog.Back
		}, func() plan.Choice {
			c := choice(1, 1, catalog.WorkAsIs)
			c.Grade, c.Growing = 40_00, true
			return c
		}},
		{"a cap whatever the size", nil, func() plan.Choice {
			c := choice(1, 1, catalog.WorkAsIs)
			c.Grade, c.Tone, c.Growing = 40_00, 6_30, true
			return c
		}},
		{"mended once: it bears less than when it was new", func(st *catalog.State) {
			st.Pieces[1].Weak = true
		}, func() plan.Choice {
			c := choice(1, 1, catalog.WorkAsIs)
			c.Grade, c.Tone, c.Growing, c.Weak = 40_00, 6_30, true, true
			return c
		}},
		{"a lead: paid 0.8 x 150.00", nil, func() plan.Choice {
			c := choice(0, 2, catalog.WorkAsIs)
			c.Get, c.Chance, c.Fails, c.Grade, c.Days, c.ExpectedCost, c.Cash = 150_00, 800_000, 200_000, 90_00, 10,
				120_00, 150_00
			return c
		}},
		// hours 0.25 + 2 x 0.033333 + 0.123457 x 1.5 dm2 (0.185186) = 0.501852, x 50.00 = 25.09
		{"clean: the cap of polishing, breakage of brass", func(st *catalog.State) {
			st.Pieces[1].Findings[0].Defect, st.Pieces[1].Findings[0].Severity = 0, catalog.Light
			st.Pieces[1].Findings[0].Extent = catalog.One
		}, func() plan.Choice {
			c := choice(1, 1, catalog.WorkClean)
			c.Other, c.ExpectedCost, c.Cash, c.Breakage, c.Fails, c.Grade = 25_09, 25_09, 25_09, 2_000, 2_000, 90_50
			return c
		}},
		// grind: 0.3 + 0.777777 x (0.4 x 1.5 dm2) = 0.766666 h, x 50.00 = 38.33; plate 1.5 x 55.00 = 82.50
		// kept whole: (1 - 0.083333) x (1 - 0.041111) = 0.878982; refused 0.5 x 0.210007 = 0.105004
		// ok 0.894996 x 0.878982 = 0.786685; paid 0.105004 x 12.00 + 0.894996 x 120.83 = 1.26 + 108.14
		{"repaired by the plater", nil, func() plan.Choice {
			c := plated(0, catalog.WorkRepair, 0, "show")
			c.Plate, c.Strip, c.Cash, c.ExpectedCost = 120_83, 12_00, 120_83, 109_40
			c.Breakage, c.Refused, c.Fails, c.Grade, c.Days = 121_018, 105_004, 213_315, 88_00, 30
			return c
		}},
		// two pieces: breakage 1 - 0.9875^2 = 0.024844; 2 x max(0, 1.5 x 40.00); factor 1.25 on 0.01 = 0.0125
		{"a pair, breakage by factor", func(st *catalog.State) {
			st.Slots[1].Quantity, st.Pieces[1].Quantity, st.Pieces[1].Value = 2, 3, 7_00
		}, func() plan.Choice {
			c := plated(1, catalog.WorkReplate, 1, "driver")
			c.Give, c.Plate, c.Cash, c.ExpectedCost = 14_00, 120_00, 120_00, 134_00
			c.Breakage, c.Fails, c.Grade, c.Days = 24_844, 24_844, 85_00, 40
			return c
		}},
		// the fit: 1.5 h x 50.00 to other, breakage 1 - 0.99 x 0.95 = 0.0595, cap 78
		{"made to fit", func(st *catalog.State) {
			st.Pieces[1].Fit = []catalog.Fit{{Slot: 1, Hours: 1_500_000, Breakage: 50_000, Cap: 78_00}}
		}, func() plan.Choice {
			c := plated(1, catalog.WorkReplate, 0, "driver")
			c.Plate, c.Other, c.Strip, c.Cash, c.ExpectedCost = 45_00, 75_00, 12_00, 120_00, 120_00
			c.Breakage, c.Fails, c.Grade, c.Days = 59_500, 59_500, 78_00, 30
			return c
		}},
		// replate quoted where the estimate repairs by a maker: his cost and days go, grade and breakage stay
		{"a quote for less than the estimate's work", func(st *catalog.State) {
			st.Platers[0].Works = nil
			st.Makers = []catalog.Maker{{ID: "m", Hourly: 40_00, Works: []int{1}, Days: 9}}
			st.Pieces[0].Quotes = []catalog.Quote{{Plater: 0, Level: "show", Cost: 99_99, Work: catalog.WorkReplate,
				Refused: jobs.Set[catalog.Micro](0)}}
		}, func() plan.Choice {
			c := plated(0, catalog.WorkReplate, 0, "show")
			c.Quote, c.Plate, c.Strip, c.Cash, c.ExpectedCost = 0, 99_99, 12_00, 99_99, 99_99
			c.Breakage, c.Fails, c.Grade, c.Days = 121_018, 121_018, 88_00, 30
			return c
		}},
		// the maker's 0.766666 h x 40.00 = 30.67 and his 9 days stay where the quote doesn't name the work
		{"a quote that leaves the work open", func(st *catalog.State) {
			st.Platers[0].Works = nil
			st.Makers = []catalog.Maker{{ID: "m", Hourly: 40_00, Works: []int{1}, Days: 9}}
			st.Pieces[0].Quotes = []catalog.Quote{{Plater: 0, Level: "show", Cost: 99_99,
				Refused: jobs.Set[catalog.Micro](0), Days: jobs.Set(20)}}
		}, func() plan.Choice {
			c := plated(0, catalog.WorkRepair, 0, "show")
			c.Quote, c.Plate, c.Before, c.Strip, c.Cash, c.ExpectedCost = 0, 99_99, 30_67, 12_00, 130_66, 130_66
			c.Makers, c.Breakage, c.Fails, c.Grade, c.Days = 30_67, 121_018, 121_018, 88_00, 29
			return c
		}},
		// the surfaces add up to no more than the whole: 0.3 + 0.777777 x 1.5 dm2 = 1.466666 h by
		// the cheaper maker, x 40.00 = 58.67; refused 1 - (1 - 0.105004)^2 = 0.198982; paid 58.67
		// in any case, and 0.198982 x 12.00 + 0.801018 x 82.50 = 2.39 + 66.08
		{"two faults, one work, two makers", func(st *catalog.State) {
			st.Platers[0].Works = nil
			st.Makers = []catalog.Maker{{ID: "m", Hourly: 41_00, Works: []int{1}, Days: 99},
				{ID: "n", Hourly: 40_00, Works: []int{1}, Days: 9},
				{ID: "o", Hourly: 40_00, Works: []int{1}, Days: 2}}
			f := st.Pieces[0].Findings[0]
			f.Extent = 900_000
			st.Pieces[0].Findings = append(st.Pieces[0].Findings, f)
		}, func() plan.Choice {
			c := plated(0, catalog.WorkRepair, 0, "show")
			c.Plate, c.Before, c.Strip, c.Cash, c.ExpectedCost = 82_50, 58_67, 12_00, 141_17, 127_14
			c.Makers = 58_67
			c.Breakage, c.Refused, c.Fails, c.Grade, c.Days = 121_018, 198_982, 295_920, 88_00, 39
			return c
		}},
		// straighten: 2 + 3 faults x 0.666667 = 3.333335 h at the shop's 50.00 = 166.67, breaks 0.01 and 0.009999
		{"faults counted together, by the shop", func(st *catalog.State) {
			st.Shop.Works = []int{2}
			st.Pieces[1].Findings = []catalog.Finding{{Defect: 3, Count: 2},
				{Defect: 3, Count: 3, Severity: catalog.Moderate, Where: catalog.Back}}
		}, func() plan.Choice {
			c := plated(1, catalog.WorkRepair, 0, "driver")
			c.Plate, c.Before, c.Strip, c.Cash, c.ExpectedCost = 45_00, 166_67, 12_00, 211_67, 211_67
			c.Breakage, c.Fails, c.Grade, c.Days = 19_899, 19_899, 80_00, 30
			return c
		}},
		{"cleaning makes nothing worse", func(st *catalog.State) {
			st.Pieces[1].Findings[0].Defect, st.Pieces[1].Findings[0].Severity = 0, catalog.Light
			st.Pieces[1].Grade = jobs.Set[catalog.Centi](96_00)
		}, func() plan.Choice {
			c := choice(1, 1, catalog.WorkClean)
			c.Other, c.ExpectedCost, c.Cash, c.Breakage, c.Fails, c.Grade = 25_09, 25_09, 25_09, 2_000, 2_000, 96_00
			return c
		}},
		{"a quote where the metal is unknown", func(st *catalog.State) {
			st.Pieces[0].Metal = catalog.None
			st.Platers[1].Levels[0].Tone = jobs.Set[catalog.Centi](-45)
			st.Pieces[0].Quotes = []catalog.Quote{{Plater: 1, Cost: 50_00, Grade: jobs.Set[catalog.Centi](77_00)}}
		}, func() plan.Choice {
			c := plated(0, catalog.WorkReplate, 1, "driver")
			c.Quote, c.Plate, c.Cash, c.ExpectedCost, c.Grade, c.Tone, c.Days = 0, 50_00, 50_00, 50_00, 77_00, -45, 40
			return c
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			st, want := jobs.SmallJob(), test.want()
			if test.change != nil {
				test.change(st)
			}
			again, rule, why := Derive(st, &want)
			if again == nil {
				t.Fatalf("no such choice: %s: %s", rule, why)
			}
			j := &audit{st: st}
			j.compareFigures(&want, again, "by hand")
			for _, v := range j.found {
				t.Error(v)
			}
		})
	}
}

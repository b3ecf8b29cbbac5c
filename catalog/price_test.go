package catalog

import (
	"strings"
	"testing"
)

// TestPriceOfOneFile: a price named for an id is for the job's piece where both files have one
// of that id, as everywhere; with its file before it, it is for that one alone, and goes before.
func TestPriceOfOneFile(t *testing.T) {
	const job = `[job]
title = "x"
shop = "shop.toml"
[slot.a]
area = "1 dm2"
[piece.arm]
fits = ["a"]
kind = "original"
metal = "brass"
`
	const shop = `[plater.north]
[plater.north.level.show]
price = { PRICES }
grade = 90
[piece.arm]
fits = ["a"]
kind = "original"
metal = "brass"
price = "5.00"
`
	for prices, want := range map[string][2]Cents{
		`arm = "7.00"`:        {7_00, -1},
		`"shop:arm" = "9.00"`: {-1, 9_00},
		`"job:arm" = "8.00", arm = "7.00", a = "6.00"`:        {8_00, 6_00},
		`a = "6.00", "shop:arm" = "9.00", arm = "7.00"`:       {7_00, 9_00},
		`"job:arm" = "8.00", "shop:arm" = { steel = "9.00" }`: {8_00, -1},
	} {
		st := mustLoad(t, job, strings.Replace(shop, "PRICES", prices, 1), Options{})
		for i, want := range want {
			got := Cents(-1)
			if v := st.Platers[0].Levels[0].PriceOf(&st.Pieces[i], &st.Slots[0]); v.Set {
				got = v.V
			}
			if got != want {
				t.Errorf("%s: %s costs %d, want %d", prices, st.Pieces[i].Key(), got, want)
			}
		}
	}
}

package catalog

import (
	"reflect"
	"testing"
	"time"
)

func TestLoadReadsEverything(t *testing.T) {
	inFolder(t, map[string]string{
		"job.toml": goodJob, "shop.toml": goodShop,
		"learned.toml": "[metal.steel]\nbase = 0.1\n[metal.brass]\nbase = 0.2\n[plater.north]\nbreakage_factor = 1.2\n",
		"own.toml":     "[metal.copper]\nbase = 0.3\n",
	})
	s, err := Load("job.toml", Options{})
	if err != nil {
		t.Fatal(err)
	}
	metal := func(name string) int { i, _ := s.Tables.MetalIndex(name); return i }
	defect := func(name string) *Defect { i, _ := s.Tables.DefectIndex(name); return &s.Tables.Defects[i] }
	work := func(name string) *Work { i, _ := s.Tables.WorkIndex(name); return &s.Tables.Works[i] }
	a, lead, lot, drawer := &s.Pieces[0], &s.Pieces[1], &s.Pieces[2], &s.Pieces[3]
	ghost := defect("ghost")
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"title", s.Job.Title, "a jukebox"},
		{"currency", s.Job.Currency, "EUR"},
		{"budget", s.Job.Budget.V, Cents(350000)},
		{"budget on", s.Job.BudgetOn, OnExpected},
		{"start", s.Job.Start.V, time.Date(2027, 1, 10, 0, 0, 0, 0, time.UTC)},
		{"completion", s.Job.Completion.V, Micro(900000)},
		{"target's name is gone once changed", s.Job.Target.Name, ""},
		{"floor of show", s.Job.Target.Floor.V, Centi(8500)},
		{"origin of a built-in", s.Job.Target.Floor.From.String(), "starting value"},
		{"mean by a word", s.Job.Target.Mean.V, Centi(9000)},
		{"origin of the job's", s.Job.Target.Mean.From.String(), "job.toml:17"},
		{"slot's target is the job's", s.Slots[0].Target.Floor.V, Centi(8500)},
		{"slot has no mean", s.Slots[0].Target.Mean.Set, false},
		{"slot's own target", s.Slots[1].Target.Floor.V, Centi(7000)},
		{"slot's key over it", s.Slots[1].Target.Fresh.V, true},
		{"slot's target has no fallback floor", s.Slots[1].Target.FallbackFloor.Set, false},
		{"rescue of the slot", s.Slots[0].Rescue.V, Cents(60000)},
		{"rescue of the shop", s.Slots[1].Rescue.V, Cents(50000)},
		{"rescue days of the job", s.Slots[1].RescueDays.V, 20},
		{"square inches", s.Slots[1].Area.V, Micro(3225800)},
		{"weight", s.Slots[0].Weight, Centi(300)},
		{"part", s.Slots[2].Part, "badge"},
		{"pieces", len(s.Pieces), 4},
		{"fits and fit", a.Fits, []int{0, 1}},
		{"fit", []any{a.Fit[0].Slot, a.Fit[0].Hours, a.Fit[0].Cap}, []any{1, Micro(1500000), Centi(8500)}},
		{"grade word", a.Grade.V, Centi(7500)},
		{"tone word", a.Tone.V, Centi(680)},
		{"finding", []any{a.Findings[0].Severity, a.Findings[0].Extent, a.Findings[0].Count, a.Findings[0].Where},
			[]any{Severe, Micro(600000), 1, Back}},
		{"finding's defaults", []any{a.Findings[1].Severity, a.Findings[1].Count, a.Findings[1].Where},
			[]any{Moderate, 3, Face}},
		{"quote", []any{a.Quotes[0].Cost, a.Quotes[0].Firm, a.Quotes[0].Refused.V, a.Quotes[0].Low.V},
			[]any{Cents(24000), AfterStrip, Micro(20000), Cents(20000)}},
		{"origin of a quote", a.Quotes[0].Refused.From.Source, Quoted},
		{"lead", []any{lead.Side, lead.Vendor, lead.Metal, lead.Price, lead.Chance, lead.Quantity, lead.Days.V},
			[]any{Vendors, 0, None, Cents(2000), Micro(500000), 2, 14}},
		{"bundle's vendor", []any{lot.Bundle, lot.Side, lot.Vendor, lot.Fits}, []any{0, Vendors, 0, []int{0, 1}}},
		{"drawer", []any{drawer.InShop, drawer.Side, drawer.Fits, drawer.Price},
			[]any{true, Shops, []int{0, 1}, Cents(1000)}},
		{"label of an id in both files", s.PieceLabel(0) + " " + s.PieceLabel(3), "job:a shop:a"},
		{"label of a single id", s.PieceLabel(1), "lead"},
		{"trade", []any{s.Trades[0].Give, s.Trades[0].Get, s.Trades[0].Credit}, []any{0, 3, Cents(3000)}},
		{"lock", []any{s.Locks[0].Slot, s.Locks[0].Piece, s.Locks[0].Plater, s.Locks[0].Reason},
			[]any{0, 0, None, "owner's wish"}},
		{"ban", []any{s.Bans[0].Slot, s.Bans[0].Piece, s.Bans[0].Work}, []any{1, None, "as-is"}},
		{"match", []any{s.Matches[0].Slots, s.Matches[0].ToneWithin.V, s.Matches[0].SamePlater},
			[]any{[]int{0, 1}, Centi(200), true}},
		{"shop's hourly", []any{s.Shop.Hourly.V, s.Shop.Hourly.From.String()}, []any{Cents(5500), "shop.toml:4"}},
		{"keep", []any{s.Job.Keep, s.Slots[0].Keep, s.Slots[1].Keep}, []any{Cents(4000), Cents(1500), Cents(4000)}},
		{"off", []any{a.Off, lead.Off}, []any{true, false}},
		{"misfit", []any{s.Shop.Misfit.V, s.Shop.Misfit.Set}, []any{Micro(100_000), true}},
		{"tried", []any{lot.Tried, lead.Tried}, []any{true, false}},
		{"plater", []any{s.Platers[0].Minimum, s.Platers[0].Freight, s.Platers[0].Least, s.Platers[0].StripFee},
			[]any{Cents(10000), Cents(1200), Cents(2500), Cents(1500)}},
		{"learned factor", s.Platers[0].Factor, Micro(1200000)},
		{"rate by metal", s.Platers[0].Levels[0].Rate[metal("steel")].V, Cents(2000)},
		{"rate of all others", s.Platers[0].Levels[0].Rate[metal("white metal")].V, Cents(3000)},
		{"grade of all metals", s.Platers[0].Levels[0].Grade[metal("brass")].V, Centi(9200)},
		{"shop over learned", s.Tables.Metals[metal("steel")].Base.V, Micro(4000)},
		{"learned over built-in", s.Tables.Metals[metal("brass")].Base.V, Micro(200000)},
		{"origin of learned", s.Tables.Metals[metal("brass")].Base.From, Origin{Learned, "learned.toml", 4, 8}},
		{"included by the job", s.Tables.Metals[metal("copper")].Base.V, Micro(300000)},
		{"new metal has no base", s.Tables.Metals[metal("white metal")].Base.Set, false},
		{"points changed", defect("blisters").By[Light].Points.V, Centi(2000)},
		{"other keys of it are left", defect("blisters").By[Light].Cap.From.Source, StartingValue},
		{"refused by metal", defect("blisters").Refused[metal("steel")].V, Micro(500000)},
		{"refused of another metal", defect("blisters").Refused[metal("pot metal")].From.Source, StartingValue},
		{"new defect", []any{ghost.Measure, ghost.Usual, ghost.By[Severe].Points.V}, []any{ByExtent, One, Centi(5000)}},
		{"one value for all metals", work("straighten").Breakage[metal("pot metal")].V, Micro(70000)},
		{"new grade word", s.Tables.GradeWord(89_00), "lovely"},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s: got %v, want %v", c.what, c.got, c.want)
		}
	}
	if i, ok := s.FindPiece("a"); !ok || i != 0 {
		t.Errorf(`FindPiece("a") = %d, %v`, i, ok)
	}
	if i, ok := s.FindPiece("shop:a"); !ok || i != 3 {
		t.Errorf(`FindPiece("shop:a") = %d, %v`, i, ok)
	}
	if _, ok := s.FindPiece("shop:lead"); ok {
		t.Error(`FindPiece("shop:lead") finds a piece of the job's`)
	}
}

// The smallest job is a title; what it leaves out has defaults.
func TestLoadSmallest(t *testing.T) {
	s := mustLoad(t, "[job]\ntitle = \"x\"\n[slot.a]\n", "", Options{})
	want := Slot{ID: "a", Name: "a", Part: "a", Weight: 100, Quantity: 1,
		Rescue: s.Slots[0].Rescue, RescueDays: s.Slots[0].RescueDays, From: Origin{JobFile, "job.toml", 3, 7}}
	if !reflect.DeepEqual(s.Slots, []Slot{want}) {
		t.Errorf("got %+v", s.Slots)
	}
	if s.Job.Currency != "USD" || s.Slots[0].Rescue.V != 45000 || s.Slots[0].RescueDays.V != 30 ||
		s.Shop.Hourly.V != 6000 {
		t.Errorf("defaults: %+v %+v", s.Job, s.Shop)
	}
}

func TestLoadIsDeterministic(t *testing.T) {
	files := map[string]string{"job.toml": goodJob, "shop.toml": goodShop, "learned.toml": "", "own.toml": ""}
	inFolder(t, files)
	first, err := Load("job.toml", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		again, err := Load("job.toml", Options{})
		if err != nil || !reflect.DeepEqual(first, again) {
			t.Fatalf("a second load differs: %v", err)
		}
	}
}

func TestWarnings(t *testing.T) {
	const job = `[job]
title = "x"
shop = "shop.toml"
start = 2020-01-10
target = { floor = 60, mean = 55 }
[slot.a]
[slot.b]
quantity = 3
[match.m]
slots = ["a", "b"]
[piece.p]
fits = ["b"]
kind = "original"
metal = "steel"
owner = "v"
[piece.p.quote.q]
plater = "n"
cost = "10.00"
low = "11.00"
grade = 80
date = 2020-02-01
[piece.p.quote.r]
plater = "n"
cost = "10.00"
grade = 80
date = 2031-02-01
`
	const shop = "[vendor.v]\n[plater.n]\n[metal.alloy]\n[defect.blister]\n"
	s := mustLoad(t, job, shop, Options{Today: time.Date(2026, 5, 1, 13, 0, 0, 0, time.Local)})
	want := []string{
		`job.toml:4 the start, 2020-01-10, is in the past; the days count from there`,
		`job.toml:5 the mean, 55, is below the floor of every slot: it asks nothing`,
		`job.toml:6 nothing fits slot "a"`,
		`job.toml:7 slot "b" needs 3 pieces, and no piece that fits has that quantity`,
		`job.toml:9 match "m" asks nothing; give it grade_within, tone_within, same_plater or fresh_alike`,
		`job.toml:11 piece "p" is a vendor's but has no price: it counts as free`,
		`job.toml:16 quote "q": the cost 10.00 is not between low and high`,
		`job.toml:21 quote "q" is 2281 days old; ask whether it still holds`,
		`job.toml:26 quote "r" is dated in the future`,
		`shop.toml:3 metal "alloy" has no base, its breakage in plating: pieces of it are planned on quotes only`,
		`shop.toml:4 defect "blister" is new; did you mean "blisters"?`,
	}
	var got []string
	for _, w := range s.Warnings {
		got = append(got, w.From.String()+" "+w.Message)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	if s := mustLoad(t, job, shop, Options{}); len(s.Warnings) != len(want)-3 {
		t.Errorf("without today's date there are %d warnings", len(s.Warnings))
	}
	if !s.Pieces[0].Unpriced {
		t.Error("nothing says that no price is given")
	}
}

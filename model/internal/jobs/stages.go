package jobs

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
)

// SmallJob is a small job whose cheapest plan has plated work under the
// minimum, a fallback, a bundle, bought pieces and a trade. All invented.
func SmallJob() *catalog.State {
	j := &RandomJob{St: &catalog.State{}}
	j.Tables()
	st := j.St
	st.Job.Target = catalog.Target{Floor: Set[catalog.Centi](70_00), Lasting: Set(true)}
	st.Shop.Hourly = Set[catalog.Cents](50_00)
	level := func(name string, rate catalog.Cents, grade catalog.Centi) catalog.Level {
		l := catalog.Level{Name: name}
		for range 3 {
			l.Rate = append(l.Rate, Set(rate))
			l.Grade = append(l.Grade, Set(grade))
		}
		return l
	}
	st.Platers = []catalog.Plater{
		{ID: "north", Name: "north", Minimum: 300_00, Freight: 25_00, Days: 30, Least: 20_00, StripFee: 12_00,
			Works: []int{1}, Factor: catalog.One,
			Levels: []catalog.Level{level("driver", 30_00, 80_00), level("show", 55_00, 93_00)}},
		{ID: "south", Name: "south", Minimum: 800_00, Freight: 30_00, Days: 40, Hourly: Set[catalog.Cents](60_00),
			Works:  []int{1, 2},
			Factor: 1_250_000, Levels: []catalog.Level{level("driver", 40_00, 85_00)}},
	}
	st.Vendors = []catalog.Vendor{{ID: "barn", Freight: 9_00, Days: 10}, {ID: "dock", Freight: 11_00, Days: 5}}
	st.Bundles = []catalog.Bundle{{ID: "crate", Vendor: 1, Price: 60_00}}
	for s, id := range []string{"rim-left", "rim-right", "bezel", "hook", "cap"} {
		st.Slots = append(st.Slots,
			catalog.Slot{ID: id, Name: id, Area: Set[catalog.Micro](1_500_000), Weight: catalog.Centi(100 * (s%3 + 1)),
				Quantity: 1, Target: st.Job.Target, Rescue: Set[catalog.Cents](900_00),
				RescueDays: Set(20)})
	}
	piece := func(id string, slot int, metal int) *catalog.Piece {
		st.Pieces = append(st.Pieces,
			catalog.Piece{ID: id, Fits: []int{slot}, Kind: catalog.Original, Vendor: catalog.None,
				Bundle: catalog.None, Metal: metal, Quantity: 1, Chance: catalog.One})
		return &st.Pieces[len(st.Pieces)-1]
	}
	found := func(defect int, severity catalog.Severity, extent catalog.Micro) []catalog.Finding {
		return []catalog.Finding{{ID: "a", Defect: defect, Severity: severity, Extent: extent, Count: 2,
			Where: catalog.Face}}
	}
	piece("rl-1", 0, potMetal).Findings = found(2, catalog.Moderate, 400_000)
	piece("rr-1", 1, Brass).Findings = found(1, catalog.Severe, 300_000)
	p := piece("rl-2", 0, Brass)
	p.Side, p.Vendor, p.Price, p.Chance, p.Grade = catalog.Vendors, 0, 150_00, 800_000, Set[catalog.Centi](90_00)
	p = piece("bz-1", 2, steel)
	p.Kind, p.Side, p.Vendor, p.Bundle, p.Grade = catalog.Reproduction, catalog.Vendors, 1, 0,
		Set[catalog.Centi](80_00)
	p = piece("old", 2, potMetal)
	p.Grade, p.Value = Set[catalog.Centi](75_00), 500_00
	p = piece("hk-1", 3, steel)
	p.Side, p.Price, p.Grade, p.InShop = catalog.Shops, 40_00, Set[catalog.Centi](88_00), true
	p = piece("cp-1", 4, Brass)
	p.Side, p.Vendor, p.Price, p.Grade = catalog.Vendors, 0, 35_00, Set[catalog.Centi](91_00)
	st.Trades = []catalog.Trade{{ID: "swap", Give: 4, Get: 5, Credit: 15_00},
		{ID: "again", Give: 4, Get: 5, Credit: 10_00}}
	st.Matches = []catalog.Match{{ID: "rims", Slots: []int{0, 1}, SamePlater: true}}
	return st
}

// SentTo marks a piece as sent, and perhaps as back or hung since.
func SentTo(p *catalog.Piece, plater int, stage catalog.Stage) {
	p.Stage, p.Sent = stage,
		catalog.Sent{Was: true, Quote: catalog.Quote{Plater: plater, Work: catalog.WorkReplate, Level: "show"}}
}

// StagedJob is SmallJob twelve days on: both rims are at north's, the left one approved
// and the right one priced, the hook hangs, the bezel's old one is stripped, and a rim
// is back from north. All invented.
func StagedJob() *catalog.State {
	st := SmallJob()
	st.Job.Elapsed = 12
	st.Job.WithinDays = Set(150)
	at := func(piece int, stage catalog.Stage, work, level string, cost catalog.Cents) *catalog.Piece {
		p := &st.Pieces[piece]
		p.Stage = stage
		p.Sent = catalog.Sent{Was: true, Lot: "north-1", Since: 10, Count: 1, Quote: catalog.Quote{
			Plater: 0, Work: work, Level: level, Cost: cost, Breakage: Set[catalog.Micro](80_000),
			Refused: Set[catalog.Micro](50_000),
			Grade:   Set[catalog.Centi](90_00), Days: Set(30)}}
		return p
	}
	at(0, catalog.StageApproved, catalog.WorkRepair, "show", 180_00)
	at(1, catalog.StagePriced, catalog.WorkReplate, "driver", 95_00)
	p := &st.Pieces[5]
	p.Stage, p.HungIn = catalog.StageHung, 3
	st.Pieces[4].Stage = catalog.StageStripped
	st.Pieces = append(st.Pieces,
		catalog.Piece{ID: "rr-2", Fits: []int{1}, Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None,
			Metal: Brass, Quantity: 1, Chance: catalog.One, Grade: Set[catalog.Centi](60_00)},
		catalog.Piece{ID: "hk-2", Fits: []int{3}, Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None,
			Metal: Brass, Quantity: 1, Chance: catalog.One, Grade: Set[catalog.Centi](95_00)})
	st.Trades = []catalog.Trade{{ID: "swap", Give: 8, Get: 5, Credit: 5_00}}
	return st
}

// PutInStages puts a random job in the middle of things.
func PutInStages(r *rand.Rand, st *catalog.State) {
	if Chance(r, 60) {
		st.Job.Elapsed = Between(r, 1, 40)
	}
	found := make([][]catalog.Finding, len(st.Pieces))
	for i := range st.Pieces {
		p := &st.Pieces[i]
		found[i] = p.Findings
		switch roll := r.IntN(100); {
		case roll < 7:
			p.Stage = []catalog.Stage{catalog.StageBroken, catalog.StageLost, catalog.StageSold}[r.IntN(3)]
		case roll < 20 && p.InShop:
			p.Elsewhere = true
		case roll < 16:
			p.Stage = []catalog.Stage{catalog.StageStripped, catalog.StagePriced}[r.IntN(2)]
		case roll < 32:
			sendOff(r, st, i)
			comeBack(r, p)
		case roll < 52:
			sendOff(r, st, i)
		case roll < 60:
			hang(r, st, i)
		}
	}
	waiting(rand.New(rand.NewPCG(r.Uint64(), 23)), st, found)
	for i := range st.Locks { // some that were kept already
		if l := &st.Locks[i]; l.Piece != catalog.None && Chance(r, 60) {
			l.Work = []string{catalog.WorkReplate, catalog.WorkRepair, catalog.WorkClean}[r.IntN(3)]
		}
	}
}

func comeBack(r *rand.Rand, p *catalog.Piece) {
	p.Stage, p.Findings = catalog.StageBack, nil
	p.Grade, p.Fresh, p.Days, p.Chance = Given(Between(r, catalog.Centi(50_00), 98_00)), Given(true), Given(0),
		catalog.One
}

func sendOff(r *rand.Rand, st *catalog.State, i int) {
	p := &st.Pieces[i]
	q := r.IntN(len(st.Platers))
	level := ""
	if n := len(st.Platers[q].Levels); n > 0 && Chance(r, 80) {
		level = st.Platers[q].Levels[r.IntN(n)].Name
	}
	p.Stage = []catalog.Stage{catalog.StageSeen, catalog.StageStripped, catalog.StagePriced, catalog.StageApproved,
		catalog.StagePlated}[r.IntN(5)]
	p.Sent = catalog.Sent{Was: true, Lot: fmt.Sprintf("x-%d", 1+i%3), Since: r.IntN(30), Count: 1, Quote: catalog.Quote{
		Plater: q, Work: []string{catalog.WorkReplate, catalog.WorkRepair}[r.IntN(2)], Level: level,
		Cost:     Between(r, catalog.Cents(0), 200_00),
		Breakage: Given(Between(r, catalog.Micro(0), 300_000)),
		Refused:  Given(Between(r, catalog.Micro(0), 100_000)),
		Grade:    Given(Between(r, catalog.Centi(60_00), 98_00)), Tone: Given(catalog.Centi(r.IntN(300))),
		Fresh: Given(Chance(r, 90)),
	}}
	if Chance(r, 50) {
		p.Sent.Days = Given(r.IntN(60))
	}
	if Chance(r, 50) {
		p.Sent.Tone = catalog.Val[catalog.Centi]{}
	}
}

// hang puts a piece in a slot it fits, by handwork or not, if nothing hangs there. Some
// were plated for it.
func hang(r *rand.Rand, st *catalog.State, i int) {
	p := &st.Pieces[i]
	fits := p.Fits
	for _, f := range p.Fit {
		fits = append(fits[:len(fits):len(fits)], f.Slot)
	}
	s := fits[r.IntN(len(fits))]
	if st.HungIn(s) != catalog.None || p.Quantity < st.Slots[s].Quantity {
		return
	}
	if Chance(r, 50) {
		sendOff(r, st, i)
		comeBack(r, p)
	}
	p.Stage, p.HungIn, p.Findings = catalog.StageHung, s, nil
	p.Grade, p.Days = Given(Between(r, catalog.Centi(60_00), 95_00)), Given(0)
}

// StagedState is a random job in the middle of things, in turn with the rules on that
// have most to do with what was done before.
func StagedState(seed int64, slots int) *catalog.State {
	on := [][]string{nil, {"match-plater", "second-plater"}, {"days"}, {"match-tone", "quantity"}, {"lock"},
		{"trade", "vendor"}, {"fit"}, {"minimum", "freight"}}
	st := Random(seed, slots, Options{On: on[seed%int64(len(on))]})
	PutInStages(rand.New(rand.NewPCG(uint64(seed), 21)), st)
	r := rand.New(rand.NewPCG(uint64(seed), 22))
	for q := range st.Platers {
		if Chance(r, 60) {
			st.Platers[q].Drift = Between(r, catalog.Centi(0), 1_50)
		}
	}
	return st
}

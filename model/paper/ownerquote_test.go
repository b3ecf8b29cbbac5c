package paper

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/solver"
)

// TestOwnerQuoteByHand: one plated line of 100.00 and 10.00 of the shop's own, one bought
// for 50.00, a credit of 5.00 passed on as it is; plating +15 %, parts +10 %, half an hour at 60.00 a slot, tax 7 %.
func TestOwnerQuoteByHand(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 2), Platers: make([]catalog.Plater, 1),
		Pieces: make([]catalog.Piece, 2)}
	for i := range st.Slots {
		st.Slots[i].Quantity = 1
	}
	st.Quote = catalog.OwnerQuote{Plating: 150_000, Parts: 100_000, Hourly: jobs.Given(catalog.Cents(60_00)),
		Removal: 200_000, Fitting: 300_000, Tax: 70_000, Deposit: 400_000, Strip: 333_333}
	st.Job.SpentSum = 20_00
	st.Shop.CallAbove = 150_000
	plan := &plan.Plan{Of: st, Lines: []plan.Line{
		{Slot: 0, Choice: &plan.Choice{Slot: 0, Work: catalog.WorkReplate, Plater: 0, Quote: catalog.None, Plate: 60_00,
			Before: 40_00, Makers: 40_00, Other: 10_00}},
		{Slot: 1, Choice: &plan.Choice{Slot: 1, Piece: 1, Plater: catalog.None, Get: 50_00}},
	}, Charges: []plan.Charge{{Kind: plan.ChargePlaterFreight, Of: 0, Cents: 30_00}, {Kind: plan.ChargeVendorFreight,
		Of: 0, Cents: 10_00}, {Kind: plan.ChargeTrade, Of: 0, Cents: -5_00}}}
	s := OwnerQuoteOf(plan, []ask.StopPrice{{Slot: 0, Planned: 60_00, Highest: 66_00}}, true, 40_00)
	// 115.00 + 10.00 + 30.00 labour; 55.00 + 30.00 labour; carriage 34.50 + 11.00 - 5.00; spent 23.00
	if s.Lines[0].Total != 155_00 || s.Lines[1].Total != 85_00 || s.Carriage != 34_50+11_00-5_00 || s.Spent != 23_00 ||
		s.Net != 155_00+85_00+40_50+23_00 {
		t.Errorf("%+v", s)
	}
	if s.Tax != 21_25 || s.Total != 324_75 || s.Deposit != 129_90 || s.AfterStrip != 108_25 ||
		s.Balance != 324_75-129_90-108_25 {
		t.Errorf("%+v", s)
	}
	if s.Lines[0].Limit != 155_00 || s.Lines[1].Limit != 0 || s.Contingency != 46_00+3_22 {
		t.Errorf("limits %+v, contingency %d", s.Lines, s.Contingency)
	}
	// where the plater may go up by the shop's margin without a call, so may the owner's sum:
	// 9.00, and 15 % on it
	s = OwnerQuoteOf(plan, []ask.StopPrice{{Slot: 0, Planned: 60_00, Highest: 900_00}}, true, 0)
	if s.Lines[0].Limit != 155_00+10_35 {
		t.Errorf("limit %d", s.Lines[0].Limit)
	}
}

// TestOwnerQuoteAddsUp: whatever the shares, every cent is somewhere.
func TestOwnerQuoteAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	looked := 0
	for seed := range int64(80) {
		st := jobs.Random(seed, 3, jobs.Options{})
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		looked++
		share := func() catalog.Micro { return jobs.Between(r, catalog.Micro(0), 400_000) }
		st.Quote = catalog.OwnerQuote{Plating: share(), Parts: share(), Tax: share(), Deposit: share(), Strip: share(),
			Hourly: jobs.Given(catalog.Cents(61_37)), Removal: share()}
		s := OwnerQuoteOf(plan, nil, true, 0)
		sum := s.Carriage + s.Spent
		for _, l := range s.Lines {
			if l.Total != l.Plating+l.Bench+l.Parts+l.Labour || l.Bench < 0 {
				t.Errorf("seed %d: %+v", seed, l)
			}
			sum += l.Total
		}
		if s.Net != sum || s.Total != s.Net+s.Tax || s.Deposit+s.AfterStrip+s.Balance != s.Total {
			t.Errorf("seed %d: %+v", seed, s)
		}
	}
	if looked < 30 {
		t.Error("only", looked)
	}
}

// TestRejected: what a piece would cost more, against the best set with a lock on it.
func TestRejected(t *testing.T) {
	looked, out := 0, 0
	for seed := range int64(60) {
		st := jobs.Random(seed, 3, jobs.Options{})
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		all, whole, err := ask.RejectedPieces(context.Background(), plan, false, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for _, a := range all {
			locked := st.Clone()
			locked.Locks = append(locked.Locks,
				catalog.Lock{Filter: catalog.Filter{Slot: a.Slot, Piece: a.Piece, Plater: catalog.None}})
			other := solved.Cheapest(t, locked)
			switch {
			case a.Choice == nil && other.Has:
				t.Errorf("seed %d: piece %d can hang in %d after all: %s", seed, a.Piece, a.Slot, a.Why)
			case a.Choice == nil:
				out++
			case !other.Has || other.Expected-plan.Expected != a.More:
				t.Errorf("seed %d: piece %d in %d costs %d more, with a lock %d", seed, a.Piece, a.Slot, a.More,
					other.Expected-plan.Expected)
			default:
				looked++
			}
		}
	}
	if looked < 30 || out < 20 {
		t.Errorf("%d priced, %d out", looked, out)
	}
}

func TestFingerprint(t *testing.T) {
	st := jobs.Random(1, 3, jobs.Options{})
	pl := solved.Cheapest(t, st)
	a := plan.Fingerprint(pl)
	if len(a) != 9 || plan.Fingerprint(solved.Cheapest(t, st)) != a {
		t.Error(a)
	}
	other := *pl
	other.Lines = append([]plan.Line(nil), pl.Lines...)
	other.Lines[0].Choice = pl.Lines[1].Choice
	if st.Revision = "x"; plan.Fingerprint(pl) == a {
		t.Error("other files give the same fingerprint")
	}
	if st.Revision = ""; plan.Fingerprint(&other) == a {
		t.Error("another plan gives the same fingerprint")
	}
}

// TestOwnerPaysFor: packing is charged where a piece travels, and what went into a piece that
// broke is passed on at cost unless the shop's terms mark it up too.
func TestOwnerPaysFor(t *testing.T) {
	st := jobs.Tiny()
	st.Quote = catalog.OwnerQuote{Plating: 200_000, Hourly: jobs.Given(catalog.Cents(60_00)), Packing: 500_000,
		Fitting: 250_000}
	st.Job.SpentSum = 50_00
	st.Job.Spent = []catalog.Spent{{Cents: 30_00, Piece: jobs.Sold}, {Cents: 20_00, Piece: catalog.None}}
	pl := sending(st)
	pl.Charges = nil
	quoted := func() plan.OwnerSums { return pl.ForOwner() }
	if s := quoted(); s.Spent != 60_00 || plan.OwnerLineOf(st, pl.Lines[0].Choice).Labour != 45_00 {
		t.Errorf("%+v", s)
	}
	st.Pieces[jobs.Sold].Stage = catalog.StageBroken
	if s := quoted(); s.Spent != 30_00+24_00 {
		t.Errorf("a broken piece is marked up: %d", s.Spent)
	}
	st.Quote.Broken = true
	if s := quoted(); s.Spent != 60_00 {
		t.Errorf("the shop's terms are not kept: %d", s.Spent)
	}
	c := pl.Lines[0].Choice
	c.Plater, c.Work = catalog.None, catalog.WorkAsIs
	if got := plan.OwnerLineOf(st, c).Labour; got != 15_00 {
		t.Errorf("labour of a piece that stays: %d", got)
	}
}

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
	"brightset/testdata/campaign"
)

// TestOrderPrice: what binds him stands as it is; above what may change he calls from the
// shop's margin on, 15 % here, but from the price on where that would reach what we would pay
// at most, or where nobody has worked that out.
func TestOrderPrice(t *testing.T) {
	quote := func(f catalog.Firmness) []catalog.Quote { return []catalog.Quote{{Plater: jobs.North, Firm: f}} }
	for name, c := range map[string]struct {
		quotes   []catalog.Quote
		stop     ask.StopPrice
		known    bool
		early    bool
		standing Standing
		call     catalog.Cents
	}{
		"nobody has named it": {known: true, stop: ask.StopPrice{Highest: 90_00}, standing: OurGuess, call: 57_50},
		"named unseen": {
			quotes:   quote(catalog.Estimate),
			known:    true,
			stop:     ask.StopPrice{Highest: 57_51},
			standing: HisGuess,
			call:     57_50,
		},
		"named after strip": {
			quotes:   quote(catalog.AfterStrip),
			known:    true,
			stop:     ask.StopPrice{Highest: 57_50},
			standing: AfterStrip,
			call:     50_00,
		},
		"firm":              {quotes: quote(catalog.Firm), standing: Agreed, call: 50_00},
		"nothing else fits": {known: true, stop: ask.StopPrice{Highest: 51_00, NoOther: true}, call: 57_50},
		"the budget is the end": {
			known: true,
			stop:  ask.StopPrice{Highest: 51_00, NoOther: true, ByBudget: true},
			call:  50_00,
		},
		"not worked out":  {early: true, call: 50_00},
		"no end is known": {call: 57_50},
	} {
		st := jobs.Tiny()
		st.Shop.CallAbove = 150_000
		pl := sending(st)
		k := pl.Lines[0].Choice
		k.Quote = catalog.None
		if c.quotes != nil {
			k.Quote, st.Pieces[k.Piece].Quotes = 0, c.quotes
		}
		var stops []ask.StopPrice
		if c.known {
			c.stop.Slot = pl.Lines[0].Slot
			stops = append(stops, c.stop)
		}
		got := OrderPriceOf(pl, &pl.Lines[0], stops, !c.early)
		if want := (OrderPrice{c.standing, 50_00, c.call}); got != want {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
}

// TestOneRuleForCalls: on random jobs the plater may never do without a call what the owner
// was not told of, and never learns what we would pay at most: the owner's limit is his
// charge at the price from which the plater calls.
func TestOneRuleForCalls(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	with, without := 0, 0
	for seed := range int64(campaign.Cases(120, 600)) {
		st := jobs.Random(seed, 3, jobs.Options{})
		st.Shop.CallAbove = jobs.Between(r, catalog.Micro(0), 400_000)
		st.Quote = catalog.OwnerQuote{
			Plating: jobs.Between(r, catalog.Micro(0), 400_000),
			Hourly:  jobs.Given(catalog.Cents(61_37)),
		}
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		stops, whole, err := ask.StopPrices(context.Background(), pl, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		owner := OwnerQuoteOf(pl, stops, true, 0)
		for i := range pl.Lines {
			l := pl.Lines[i]
			price := OrderPriceOf(pl, &l, stops, true)
			if price.Call < price.Price {
				t.Errorf("seed %d: he calls above %d, and the price is %d", seed, price.Call, price.Price)
			}
			for _, s := range stops {
				if s.Slot != l.Slot || s.NoOther && !s.ByBudget {
					continue
				}
				n := catalog.Cents(max(1, st.Slots[l.Slot].Quantity))
				if price.Call > price.Price && price.Call >= n*s.Highest {
					t.Errorf("seed %d: he may go up to %d without a call, and we pay %d at most", seed, price.Call, n*s.Highest)
				}
				with++
			}
			dearer := *l.Choice
			dearer.Plate = price.Call
			most := plan.OwnerLineOf(st, &dearer).Total // what the owner is charged at that price
			if limit := max(owner.Lines[i].Limit, owner.Lines[i].Total); limit != most {
				t.Errorf("seed %d: the owner was told %d, and the plater may make it %d without a call", seed, limit, most)
			}
			if price.Call == price.Price {
				without++
			}
		}
	}
	if few := campaign.Cases(20, 20); with < few || without < few {
		t.Errorf("%d with what we would pay at most, %d where he calls at once", with, without)
	}
}

// TestPairsWaitTogether: what has to match a piece that waits and goes to the same plater
// waits with it, and so on along the groups; what goes elsewhere, hangs as it is or is in no
// group with it does not. The lot without them is priced as one.
func TestPairsWaitTogether(t *testing.T) {
	state := func() (*catalog.State, *plan.Plan) {
		st := jobs.Tiny()
		st.Slots = []catalog.Slot{{ID: "a"}, {ID: "b"}, {ID: "c"}, {ID: "d"}}
		st.Pieces = []catalog.Piece{{ID: "0"}, {ID: "1", Fitted: []int{1}}, {ID: "2", Fitted: []int{2}},
			{ID: "3", Fitted: []int{3}}}
		st.Matches = []catalog.Match{{ID: "x", Slots: []int{0, 1}}, {ID: "y", Slots: []int{1, 2}}}
		st.Platers[jobs.North].Minimum = 70_00
		pl := &plan.Plan{Of: st}
		for i := range st.Slots {
			pl.Lines = append(pl.Lines, plan.Line{Slot: i, Choice: &plan.Choice{Slot: i, Piece: i, Plater: jobs.North,
				Work: catalog.WorkReplate, Plate: 20_00, Quote: catalog.None}})
		}
		return st, pl
	}
	none := catalog.None
	for name, c := range map[string]struct {
		change func(st *catalog.State, pl *plan.Plan)
		want   []Held
		work   catalog.Cents
		lacks  catalog.Cents
	}{
		"all along the groups": {func(*catalog.State, *plan.Plan) {}, []Held{{0, 0, none}, {1, 1, 0}, {2, 2, 1}},
			20_00, 50_00},
		"the second elsewhere": {func(_ *catalog.State, pl *plan.Plan) { pl.Lines[1].Choice.Plater = jobs.North + 1 },
			[]Held{{0, 0, none}}, 40_00, 30_00},
		"the third as it is": {func(_ *catalog.State, pl *plan.Plan) {
			pl.Lines[2].Choice.Plater, pl.Lines[2].Choice.Work, pl.Lines[2].Choice.Plate = none, catalog.WorkAsIs, 0
		}, []Held{{0, 0, none}, {1, 1, 0}}, 20_00, 50_00},
		"all tried on": {func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Fitted = []int{0} }, nil, 80_00, 0},
		"tried on elsewhere": {func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Fitted = []int{1, 2, 3} },
			[]Held{{0, 0, none}, {1, 1, 0}, {2, 2, 1}}, 20_00, 50_00},
	} {
		st, pl := state()
		c.change(st, pl)
		got := HeldBack(pl)
		if len(got) != len(c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %+v, want %+v", name, got, c.want)
			}
		}
		now := GoesNow(pl, Lots(pl)[0], got)
		if now.Work != c.work || now.Shortfall != c.lacks || now.Total != now.Work+now.Shortfall+now.Freight {
			t.Errorf("%s: %+v, want work %d that lacks %d", name, now, c.work, c.lacks)
		}
	}
}

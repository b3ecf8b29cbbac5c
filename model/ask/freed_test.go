package ask

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestBestCredits: what trades bring at most is what the solver says of them, one row for each piece.
func TestBestCredits(t *testing.T) {
	gaveWay := 0
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 1))
		var open []catalog.Trade
		sides, most := 1+rng.IntN(6), []int{3, 20, 1000}[rng.IntN(3)]
		for range rng.IntN(14) {
			open = append(open, catalog.Trade{Give: rng.IntN(sides), Get: 100 + rng.IntN(sides),
				Credit: catalog.Cents(1 + rng.IntN(most))})
		}
		got := bestCredits(open)
		if want := creditsBySolver(t, open); got != want {
			t.Errorf("seed %d: %d, the solver says %d: %+v", seed, got, want, open)
		}
		if got > dearestFirst(open) {
			gaveWay++
		}
	}
	if gaveWay < 40 {
		t.Errorf("only in %d cases a trade had to give way", gaveWay)
	}
}

// creditsBySolver has a group for each trade, to make it or not.
func creditsBySolver(t *testing.T, open []catalog.Trade) catalog.Cents {
	p, rows := &solver.Problem{}, map[int]int{}
	for _, trade := range open {
		var in []solver.Term
		for _, piece := range []int{trade.Give, trade.Get} {
			if _, ok := rows[piece]; !ok {
				rows[piece] = len(p.Rows)
				p.Rows = append(p.Rows, solver.Row{Limit: 1})
			}
			in = append(in, solver.Term{Row: rows[piece], Coef: 1})
		}
		if in[0].Row > in[1].Row {
			in[0], in[1] = in[1], in[0]
		}
		p.Groups = append(p.Groups, solver.Group{Columns: []solver.Column{{}, {Cost: -int64(trade.Credit), Terms: in}}})
	}
	res, err := program.SolveOnce(context.Background(), p, solver.Change{}, solver.Settings{})
	if err != nil || len(open) > 0 && res.Status != solver.Optimal {
		t.Fatal(res.Status, err)
	}
	return catalog.Cents(-res.Total)
}

// dearestFirst is what comes of making always the trade that brings most of those left.
func dearestFirst(open []catalog.Trade) (sum catalog.Cents) {
	used := map[int]bool{}
	for {
		best := catalog.Trade{}
		for _, t := range open {
			if !used[t.Give] && !used[t.Get] && t.Credit > best.Credit {
				best = t
			}
		}
		if best.Credit == 0 {
			return sum
		}
		used[best.Give], used[best.Get] = true, true
		sum += best.Credit
	}
}

// TestCreditsOfFreed: what was held in reserve is given away where it is not needed any more, and only what is there
// and nobody needs.
func TestCreditsOfFreed(t *testing.T) {
	const first, second, kept, sold = 0, 1, 2, 3
	st := &catalog.State{Pieces: make([]catalog.Piece, 5), Trades: []catalog.Trade{
		{ID: "a", Give: kept, Get: first, Credit: 500}, {ID: "b", Give: kept, Get: second, Credit: 700},
		{ID: "c", Give: sold, Get: second, Credit: 900}, {ID: "d", Give: first, Get: second, Credit: 9000},
		{ID: "e", Give: kept, Get: 4, Credit: 9000}}}
	for i := range st.Pieces {
		st.Pieces[i].Chance = catalog.One
	}
	st.Pieces[sold].Stage = catalog.StageSold
	line := func(k, f int) plan.Line {
		l := plan.Line{Choice: &plan.Choice{Piece: k}}
		if f >= 0 {
			l.Fallback = &plan.Choice{Piece: f}
		}
		return l
	}
	pl := &plan.Plan{Lines: []plan.Line{line(first, kept), line(second, -1)}}
	pl.Charges = []plan.Charge{{Kind: plan.ChargeTrade, Of: 2, Cents: -100}, {Kind: plan.ChargeBundle, Cents: 30}}
	if got := credits(st, pl, pl.Lines); got != 100 {
		t.Errorf("%d as planned", got)
	}
	if got := credits(st, pl, []plan.Line{line(first, -1), line(second, -1)}); got != 700 {
		t.Errorf("%d for what is freed", got)
	}
	pl.Lines = []plan.Line{line(first, -1), line(second, -1)}
	pl.Charges[0] = plan.Charge{Kind: plan.ChargeTrade, Of: 1, Cents: -700}
	st.Pieces[kept].Chance = 0
	if got := credits(st, pl, pl.Lines); got != 0 {
		t.Errorf("%d for giving what doesn't come", got)
	}
}

// TestLeadGivenInTrade: that a lead does not come, which the plan gives in a trade, costs the plan that
// trade, and what other trades then bring.
func TestLeadGivenInTrade(t *testing.T) {
	given, worth := 0, 0
	for seed := range int64(campaign.Cases(200, 600)) {
		st := jobs.Random(seed, 3, jobs.Options{On: []string{"lead", "trade"}})
		for i := range st.Pieces {
			if get := (i + 1) % len(st.Pieces); st.Pieces[i].Chance < catalog.One {
				st.Trades = append(st.Trades, catalog.Trade{ID: st.Pieces[i].ID, Give: i, Get: get, Credit: 150_00})
			}
		}
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		for _, o := range uncertainFigures(pl, choice.Choices(st)) {
			if o.Figure != FigureLead || !slices.ContainsFunc(tradesMade(st, pl),
				func(t catalog.Trade) bool { return t.Give == o.Piece }) {
				continue
			}
			given++
			base, err := knowing(context.Background(), pl, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			gain, most, err := gainWith(context.Background(), base, pl, &o, &o.ways[0])
			if err != nil || gain != most || !o.Planned {
				t.Fatal(gain, most, o.Planned, err)
			}
			gone := st.Clone()
			gone.Pieces[o.Piece].Stage = catalog.StageLost
			now := solved.Cheapest(t, gone)
			if !now.Has {
				continue
			}
			want := pl.Weighed() - creditsBySolver(t, openTrades(gone, pl.Lines)) - now.Weighed()
			for _, t := range tradesMade(st, pl) {
				want += t.Credit
			}
			if gain != max(0, want) {
				t.Errorf("seed %d, piece %d: knowing that it won't come saves %d, by hand %d", seed, o.Piece, gain, want)
			}
			if gain > 0 {
				worth++
			}
		}
	}
	if given < 10 || worth < 3 {
		t.Errorf("%d leads are given in trade, of %d it is worth knowing", given, worth)
	}
}

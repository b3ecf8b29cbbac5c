package ask

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
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
}

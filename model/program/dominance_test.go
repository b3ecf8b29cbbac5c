package program

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/solver"
)

// The proof of the dominance: on small random states, the program without it and
// the program with it have the same least total, whatever limits, charges and
// tags are changed. walk below tries every solution and shares nothing with the
// solver.

func TestDominanceKeepsTheAnswer(t *testing.T) {
	removed, total, feasible := 0, 0, 0
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 7))
		st := mixedState(r)
		for _, best := range []bool{false, true} {
			all := Compile(st, Options{Best: best, AllLines: true})
			few := Compile(st, Options{Best: best})
			for s := range all.Pairs {
				total += len(all.Pairs[s])
				removed += len(all.Pairs[s]) - len(few.Pairs[s])
			}
			for i, ch := range changes(r, all) {
				a, okA := walk(all.Problem, ch, nil)
				b, okB := walk(few.Problem, ch, nil)
				if a != b || okA != okB {
					t.Fatalf("seed %d best %v change %d: %d (%v) with all lines, %d (%v) with fewer", seed, best, i, a,
						okA, b, okB)
				}
				if okA {
					feasible++
				}
			}
			fixed := Compile(st, Options{Best: best, FixedLimits: true})
			a, okA := walk(all.Problem, solver.Change{}, nil)
			b, okB := walk(fixed.Problem, solver.Change{}, nil)
			if a != b || okA != okB {
				t.Fatalf("seed %d best %v: %d (%v) with all lines, %d (%v) with fixed limits", seed, best, a, okA, b,
					okB)
			}
		}
	}
	if removed*10 < total*3 || feasible < 500 {
		t.Errorf("too little is tested: %d of %d lines removed, %d solved", removed, total, feasible)
	}
}

// What costs less on average can take more out of the pocket, by itself or by
// leaving a minimum unfilled; within a budget on outlay it is no replacement.
//
//	a: the shop's, 60.00 as it is: E 60, cash 60
//	b: the customer's, would fetch 100.00; north plates it for 80.00: E 180, cash 80
//	c: fills the other slot at north for 120.00; north's minimum is 200.00
//
// With a north charges 80.00 for nothing: outlay 60 + 120 + 80. With b: 80 + 120.
func TestDominanceWithinBudget(t *testing.T) {
	for _, tt := range []struct {
		name            string
		minimum, budget catalog.Cents
		cash            int64 // of the line of the left slot in the answer
	}{
		{"no budget", 200_00, 0, 60_00},
		{"unfilled minimum", 200_00, 230_00, 80_00},
		{"no minimum", 0, 230_00, 60_00},
	} {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			st.Platers[jobs.North].Minimum, st.Platers[jobs.North].Freight = tt.minimum, 0
			a, b, c := jobs.TinyPiece("a"), jobs.TinyPiece("b"), jobs.TinyPiece("c")
			quote := catalog.Quote{Plater: jobs.North, Grade: jobs.Given(catalog.Centi(90_00)),
				Breakage: jobs.Given(catalog.Micro(0))}
			a.Side, a.Price, a.Grade = catalog.Shops, 60_00, jobs.Given(catalog.Centi(90_00))
			quote.Cost = 80_00
			b.Value, b.Quotes = 100_00, []catalog.Quote{quote}
			quote.Cost = 120_00
			c.Quotes = []catalog.Quote{quote}
			a.Fits, b.Fits, c.Fits = []int{jobs.Left}, []int{jobs.Left}, []int{jobs.Right}
			st.Pieces = []catalog.Piece{a, b, c}
			for s := range st.Slots {
				st.Slots[s].Area.Set = false
			}
			st.Job.Budget = catalog.Val[catalog.Cents]{V: tt.budget, Set: tt.budget > 0}
			all, fixed := BuildAll(st), Compile(st, Options{FixedLimits: true})
			want, okWant := walk(all.Problem, solver.Change{}, nil)
			got, okGot := walk(fixed.Problem, solver.Change{}, nil)
			if want != got || okWant != okGot || !okGot {
				t.Errorf("%d (%v) with all lines, %d (%v) with fewer", want, okWant, got, okGot)
			}
			only, _ := walk(all.Problem, solver.Change{}, func(col int) bool {
				return int64(all.Choices[jobs.Left][all.Pairs[jobs.Left][col].K].Cash) == tt.cash
			})
			if only != want {
				t.Errorf("the answer %d is not one with cash %d", want, tt.cash)
			}
		})
	}
}

// A line with less expected cost and more cash: the customer's piece that would
// fetch 120.00, as it is, against plating another for 100.00. With 50.00 to
// spend only the first will do.
func TestDominanceCash(t *testing.T) {
	st := jobs.Tiny()
	st.Slots = st.Slots[:1]
	st.Slots[jobs.Left].Area.Set = false
	a, b := jobs.TinyPiece("a"), jobs.TinyPiece("b")
	a.Quotes = []catalog.Quote{{Plater: jobs.South, Cost: 100_00, Grade: jobs.Given(catalog.Centi(90_00))}}
	b.Grade, b.Value = jobs.Given(catalog.Centi(90_00)), 120_00
	a.Fits, b.Fits = []int{jobs.Left}, []int{jobs.Left}
	st.Pieces = []catalog.Piece{a, b}
	p := Compile(st, Options{})
	for _, tt := range []struct{ budget, want int64 }{{200_00, 100_00}, {50_00, 120_00}} {
		ch := solver.Change{Limits: []solver.LimitTo{{Row: RowBudget, Limit: tt.budget}}}
		if got, ok := walk(p.Problem, ch, nil); got != tt.want || !ok {
			t.Errorf("budget %d: %d (%v), want %d", tt.budget, got, ok, tt.want)
		}
	}
}

// With Keep, every choice of the slot keeps its best line, so that it can be
// fixed as k.
func TestKeep(t *testing.T) {
	for seed := range uint64(40) {
		st := mixedState(rand.New(rand.NewPCG(seed, 8)))
		all, few := BuildAll(st), Compile(st, Options{Keep: []int{jobs.Left}})
		for k := range all.Choices[jobs.Left] {
			a, okA := walk(all.Problem, solver.Change{},
				func(col int) bool { return int(all.Pairs[jobs.Left][col].K) == k })
			b, okB := walk(few.Problem, solver.Change{},
				func(col int) bool { return int(few.Pairs[jobs.Left][col].K) == k })
			if a != b || okA != okB {
				t.Fatalf("seed %d choice %d: %d (%v) with all lines, %d (%v) with fewer", seed, k, a, okA, b, okB)
			}
		}
	}
}

// changes are the zero change and some that lift or set limits, charges, tags.
func changes(r *rand.Rand, p *Program) []solver.Change {
	list := []solver.Change{{}}
	for range 2 {
		var ch solver.Change
		ch.Limits = append(ch.Limits,
			solver.LimitTo{Row: RowMean, Limit: MeanLimit(p.State, catalog.Centi(60_00+r.IntN(30_00)))},
			solver.LimitTo{Row: RowCompletion, Limit: CompletionLimit(p.State, catalog.Micro(700_000+r.IntN(300_000)))},
			solver.LimitTo{Row: RowBudget, Limit: int64(r.IntN(15)) * 20_00})
		ch.Limits = ch.Limits[r.IntN(3):]
		ch.Fixed = []solver.FixedTo{{Switch: r.IntN(p.TradeSwitch(0)), Fixed: int64(r.IntN(60_00))}}
		ch.Off = []solver.Tag{[]solver.Tag{TagLot("north"), TagMatch("m"), TagBundle("crate"), TagPiece("job:p0"),
			TagTrade("swap")}[r.IntN(5)]}
		list = append(list, ch)
	}
	return list
}

// mixedState makes a state of two or three slots in which pieces, platers, the
// bundle, the vendor, the trade and the match are fought over. Figures are coarse
// so that ties and equal figures come up.
func mixedState(r *rand.Rand) *catalog.State {
	st := jobs.Tiny()
	st.Slots = append(st.Slots[:2], catalog.Slot{ID: "third", Weight: 100, Quantity: 1,
		Rescue: jobs.Start(catalog.Cents(100_00)), RescueDays: jobs.Start(20)})
	st.Slots = st.Slots[:2+r.IntN(2)]
	for s := range st.Slots {
		st.Slots[s].Area.Set = false // quotes only
		st.Slots[s].Quantity = 1 + r.IntN(8)/7
		st.Slots[s].Weight = catalog.Centi(r.IntN(3)) * 100
		st.Slots[s].Rescue.V = catalog.Cents(50+r.IntN(4)*100) * 100
	}
	st.Platers[jobs.North].Minimum = catalog.Cents(r.IntN(3)) * 80_00
	st.Platers[jobs.South].Minimum = catalog.Cents(r.IntN(3)) * 50_00
	st.Platers[jobs.South].Freight = catalog.Cents(r.IntN(3)) * 10_00
	st.Pieces = nil
	for i := range 3 + r.IntN(3) {
		st.Pieces = append(st.Pieces, mixedPiece(r, i, len(st.Slots)))
	}
	if r.IntN(2) == 0 {
		st.Trades = []catalog.Trade{{ID: "swap", Give: 0, Get: 1, Credit: catalog.Cents(r.IntN(80_00))},
			{ID: "late", Give: 2, Get: 1, Credit: 20_00}}
		st.Trades = st.Trades[:1+r.IntN(2)]
	}
	if r.IntN(2) == 0 {
		st.Matches = []catalog.Match{{ID: "m", Slots: []int{jobs.Left, jobs.Right}, SamePlater: r.IntN(2) == 0,
			FreshAlike:  r.IntN(2) == 0,
			GradeWithin: catalog.Val[catalog.Centi]{V: 10_00, Set: r.IntN(3) == 0},
			ToneWithin:  catalog.Val[catalog.Centi]{V: catalog.Centi(r.IntN(2)) * 1_00, Set: r.IntN(2) == 0}}}
	}
	if r.IntN(3) == 0 {
		st.Job.BudgetOn = catalog.OnExpected
	}
	st.Job.Budget = catalog.Val[catalog.Cents]{V: catalog.Cents(100+r.IntN(400)) * 100, Set: r.IntN(3) == 0}
	st.Job.Target.Mean = catalog.Val[catalog.Centi]{V: 75_00, Set: r.IntN(3) == 0}
	st.Job.Completion = catalog.Val[catalog.Micro]{V: 900_000, Set: r.IntN(3) == 0}
	st.Job.WithinDays = catalog.Val[int]{V: 60, Set: r.IntN(3) == 0}
	return st
}

func mixedPiece(r *rand.Rand, i, slots int) catalog.Piece {
	p := jobs.TinyPiece(fmt.Sprintf("p%d", i))
	p.Fits = nil
	for s := range slots {
		if r.IntN(4) > 0 {
			p.Fits = append(p.Fits, s)
		}
	}
	p.Quantity = 1 + r.IntN(3)/2*2
	switch r.IntN(4) {
	case 0:
		p.Side, p.Vendor, p.Price = catalog.Vendors, 0, catalog.Cents(r.IntN(4))*20_00
	case 1:
		p.Side, p.Vendor, p.Bundle = catalog.Vendors, 0, 0
	}
	if p.Side == catalog.Customers {
		p.Value = catalog.Cents(r.IntN(3)) * 30_00
	}
	p.Chance = []catalog.Micro{catalog.One, catalog.One, 800_000}[r.IntN(3)]
	p.Grade = catalog.Val[catalog.Centi]{V: catalog.Centi(60+10*r.IntN(4)) * 100, Set: r.IntN(4) > 0}
	p.Fresh = jobs.Given(r.IntN(2) == 0)
	for q := range r.IntN(3) {
		p.Quotes = append(p.Quotes,
			catalog.Quote{ID: fmt.Sprint(q), Plater: r.IntN(2), Cost: catalog.Cents(1+r.IntN(6)) * 20_00,
				Grade:    jobs.Given(catalog.Centi(70+10*r.IntN(4)) * 100),
				Tone:     jobs.Given(catalog.Centi(r.IntN(3)) * 100),
				Breakage: jobs.Given(catalog.Micro(r.IntN(3)) * 100_000),
				Refused:  jobs.Given(catalog.Micro(r.IntN(2)) * 50_000)})
	}
	return p
}

package model

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// TestFindOutsByHand moves quotes in the state itself to where they may really lie,
// and compares the best set then with the plan carried out regardless.
func TestFindOutsByHand(t *testing.T) {
	looked, worth := 0, 0
	for seed := range int64(300) {
		st := randomState(seed, 3, randomOptions{})
		st.Job.Budget = catalog.Val[catalog.Cents]{}
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes { // wide ranges, so that some matter
				c := st.Pieces[i].Quotes[q].Cost
				st.Pieces[i].Quotes[q].Low, st.Pieces[i].Quotes[q].High = given(c/10), given(c*19/10)
			}
		}
		plan := cheapest(t, st)
		if !plan.Has {
			continue
		}
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes {
				quote := &st.Pieces[i].Quotes[q]
				o := FindOut{Piece: i, Plater: quote.Plater, Figure: FigurePlating}
				if len(st.Pieces[i].Quotes) != 1 || st.Pieces[i].Fits == nil {
					continue // several quotes move together
				}
				for _, sign := range []catalog.Cents{-1, 1} {
					gain, proven, err := gainOf(context.Background(), st, plan, &o, sign, solver.Settings{})
					if err != nil || !proven {
						continue
					}
					moved := st.Clone()
					m := &moved.Pieces[i].Quotes[q]
					m.Cost += sign * (quote.High.V - quote.Low.V) / 2
					now := cheapest(t, moved)
					looked++
					if needed(&st.Slots[plan.Lines[0].Slot]) > 1 || !now.Has {
						continue // rounding per piece
					}
					if regardless := byHand(moved, plan); !close(regardless-now.Expected, gain) {
						t.Errorf("seed %d, quote %d of piece %d, %d: worth %d, by hand %d", seed, q, i, sign, gain, regardless-now.Expected)
					}
					if gain > 0 {
						worth++
					}
				}
			}
		}
	}
	if looked < 50 || worth < 5 {
		t.Errorf("%d prices looked at, %d of them worth knowing", looked, worth)
	}
}

// close allows for the rounding of a spread per piece.
func close(a, b catalog.Cents) bool { return abs(a-b) <= 8 }

// byHand is what the plan's own choices come to in another state.
func byHand(st *catalog.State, plan *Plan) catalog.Cents {
	p := Compile(st, Options{AllLines: true})
	ch := solver.Change{}
	for s, l := range plan.Lines {
		for i, pair := range p.Pairs[s] {
			k, f := p.line(s, pair)
			if sameChoice(k, l.Choice) && sameChoice(f, l.Fallback) {
				ch.Fix = append(ch.Fix, solver.Pick{Group: s, Column: i})
			}
		}
	}
	res, _ := solveOnce(context.Background(), p.Problem, ch, solver.Settings{})
	return catalog.Cents(res.Total)
}

// TestFindOutBreakage does the same with the breakage of quotes.
func TestFindOutBreakage(t *testing.T) {
	looked := 0
	for seed := range int64(200) {
		st := randomState(seed, 3, randomOptions{})
		plan := cheapest(t, st)
		if !plan.Has {
			continue
		}
		for i := range st.Pieces {
			if len(st.Pieces[i].Quotes) != 1 || !st.Pieces[i].Quotes[0].Breakage.Set || st.Slots[0].Quantity > 1 {
				continue
			}
			o := FindOut{Piece: i, Plater: st.Pieces[i].Quotes[0].Plater, Figure: FigureBreakage}
			gain, proven, err := gainOf(context.Background(), st, plan, &o, 1, solver.Settings{})
			if err != nil || !proven || len(st.Pieces[i].Fit) > 0 {
				continue
			}
			moved := st.Clone()
			b := &moved.Pieces[i].Quotes[0].Breakage
			b.V = min(2*b.V, catalog.One)
			now := cheapest(t, moved)
			if !now.Has || anySeveral(st) {
				continue
			}
			looked++
			if regardless := byHand(moved, plan); regardless >= now.Expected && !close(regardless-now.Expected, gain) {
				t.Errorf("seed %d, piece %d: worth %d, by hand %d", seed, i, gain, regardless-now.Expected)
			}
		}
	}
	if looked < 20 {
		t.Errorf("only %d breakages looked at", looked)
	}
}

// TestFindOutGrade does the same with the grade of quotes.
func TestFindOutGrade(t *testing.T) {
	looked, worth := 0, 0
	for seed := range int64(300) {
		st := randomState(seed, 3, randomOptions{})
		for s := range st.Slots {
			st.Slots[s].Target.Floor = given(catalog.Centi(60_00))
		}
		for i := range st.Pieces { // just below what is asked for, so that some matter
			for q := range st.Pieces[i].Quotes {
				st.Pieces[i].Quotes[q].Grade = given(catalog.Centi(58_00))
			}
		}
		plan := cheapest(t, st)
		for i := range st.Pieces {
			if !plan.Has || len(st.Pieces[i].Quotes) != 1 || !st.Pieces[i].Quotes[0].Grade.Set || len(st.Pieces[i].Fit) > 0 {
				continue
			}
			o := FindOut{Piece: i, Plater: st.Pieces[i].Quotes[0].Plater, Figure: FigureGrade}
			gain, proven, err := gainOf(context.Background(), st, plan, &o, 1, solver.Settings{})
			if err != nil || !proven {
				continue
			}
			moved := st.Clone()
			g := &moved.Pieces[i].Quotes[0].Grade
			g.V = min(g.V+3_00, 100_00)
			now := cheapest(t, moved)
			looked++
			if saved := max(0, plan.Expected-now.Expected); saved != gain {
				t.Errorf("seed %d, piece %d: worth %d, by hand %d", seed, i, gain, saved)
			}
			if gain > 0 {
				worth++
			}
		}
	}
	if looked < 20 || worth == 0 {
		t.Errorf("%d grades looked at, %d worth knowing", looked, worth)
	}
}

// anySeveral says whether a slot takes more than one piece: chances of several are
// not doubled by doubling that of one.
func anySeveral(st *catalog.State) bool {
	for i := range st.Slots {
		if needed(&st.Slots[i]) > 1 {
			return true
		}
	}
	return false
}

func TestFindOutsOfDemo(t *testing.T) {
	st := demoState(t)
	plan := cheapest(t, st)
	all, whole, err := FindOuts(context.Background(), st, plan, solver.Settings{})
	if err != nil || !whole {
		t.Fatal(whole, err)
	}
	for i := range all {
		if all[i].Gain <= 0 || all[i].Most < all[i].Gain || (i > 0 && all[i].Gain > all[i-1].Gain) {
			t.Errorf("%d: %+v", i, all[i])
		}
	}
	if len(all) == 0 {
		t.Error("nothing is worth knowing about the demo")
	}
}

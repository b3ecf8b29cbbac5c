package ask

import (
	"context"
	"slices"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestFindOutsByHand moves quotes in the state itself to where they may really lie,
// and compares the best set then with the plan carried out regardless.
func TestFindOutsByHand(t *testing.T) {
	looked, worth := 0, 0
	for seed := range int64(300) {
		st := jobs.Random(seed, 3, jobs.Options{})
		st.Job.Budget = catalog.Val[catalog.Cents]{}
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes { // wide ranges, so that some matter
				c := st.Pieces[i].Quotes[q].Cost
				st.Pieces[i].Quotes[q].Low, st.Pieces[i].Quotes[q].High = jobs.Given(c/10), jobs.Given(c*19/10)
			}
		}
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes {
				quote := &st.Pieces[i].Quotes[q]
				if len(st.Pieces[i].Quotes) != 1 || st.Pieces[i].Fits == nil {
					continue // several quotes move together
				}
				for _, high := range []bool{false, true} {
					gain, proven, err := gainOf(context.Background(), st, plan,
						turn(st, i, quote.Plater, choice.FigurePlating, high), solver.Settings{})
					if err != nil || !proven {
						continue
					}
					moved := st.Clone()
					m := &moved.Pieces[i].Quotes[q]
					if half := (quote.High.V - quote.Low.V) / 2; high {
						m.Cost += half
					} else {
						m.Cost -= half
					}
					now := solved.Cheapest(t, moved)
					looked++
					if choice.Needed(&st.Slots[plan.Lines[0].Slot]) > 1 || !now.Has {
						continue // rounding per piece
					}
					if regardless := byHand(moved, plan); !close(max(0, regardless-now.Weighed()), gain) {
						t.Errorf("seed %d, quote %d of piece %d, high %v: worth %d, by hand %d", seed, q, i, high, gain,
							regardless-now.Weighed())
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
func close(a, b catalog.Cents) bool { return plan.Abs(a-b) <= 8 }

// byHand is what the plan's own choices come to in another state, -1 where the program
// has no line for one of them.
func byHand(st *catalog.State, pl *plan.Plan) catalog.Cents {
	p := program.Compile(st, program.Options{AllLines: true})
	ch := solver.Change{}
	for s, l := range pl.Lines {
		for i, pair := range p.Pairs[s] {
			k, f := p.Line(s, pair)
			if plan.SameChoice(k, l.Choice) && (k.Fails == 0 || plan.SameChoice(f, l.Fallback)) {
				ch.Fix = append(ch.Fix, solver.Pick{Group: s, Column: i})
			}
		}
	}
	if len(ch.Fix) < len(pl.Lines) {
		return -1
	}
	res, _ := program.SolveOnce(context.Background(), p.Problem, ch, solver.Settings{})
	return catalog.Cents(res.Total)
}

func TestFindOutsOfDemo(t *testing.T) {
	st := jobs.DemoState(t)
	plan := solved.Cheapest(t, st)
	all, whole, err := InformationValues(jobs.Within(t, 10*time.Minute), plan, solver.Settings{})
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

// turn is one way in which a figure of a piece at a plater turns out, for the better or
// the worse.
func turn(st *catalog.State, piece, plater int, figure choice.Figure, worse bool) *turnout {
	o := InformationValue{Piece: piece, Plater: plater, Figure: figure}
	ways := o.ofQuote(st, &plan.Choice{Quote: catalog.None}, refusers(choice.Choices(st))[[2]int{o.Piece, o.Plater}])
	if figure == choice.FigureGrade {
		slices.Reverse(ways)
	}
	return &ways[index(worse)]
}

// TestCarriedOut: the lines of a plan and their charges come to its total.
func TestCarriedOut(t *testing.T) {
	looked := 0
	for seed := range int64(200) {
		st := jobs.Random(seed, 3, jobs.Options{})
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		looked++
		if got, keeps := carriedOut(st, pl, func(c *plan.Choice) *plan.Choice {
			return choice.FindSame(choice.ChoicesFor(st, c.Slot), c)
		}); got != pl.Expected || keeps != pl.Keeps {
			t.Errorf("seed %d: %d keeping %d, want %d keeping %d", seed, got, keeps, pl.Expected, pl.Keeps)
		}
	}
	if looked < 80 {
		t.Errorf("only %d looked at", looked)
	}
}

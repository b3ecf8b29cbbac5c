package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/solver"
)

// TestFindOutStripping gives quotes themselves what stripping may show: that it breaks
// more or less often than the estimate, that he keeps it after all, or sends it back.
func TestFindOutStripping(t *testing.T) {
	looked, worth := 0, 0
	for seed := range int64(300) {
		st := jobs.Random(seed, 3, jobs.Options{})
		lessSure(st, seed+1)
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes { // often enough that some matter
				st.Pieces[i].Quotes[q].Refused = jobs.Given(catalog.One / 4)
			}
		}
		plan := solved.Cheapest(t, st)
		if !plan.Has || anySeveral(st) {
			continue
		}
		for i := range st.Pieces {
			if len(st.Pieces[i].Quotes) != 1 || len(st.Pieces[i].Fit) > 0 {
				continue
			}
			q := st.Pieces[i].Quotes[0].Plater
			for _, o := range uncertainFigures(plan, choice.Choices(st)) {
				if o.Figure != choice.FigureBreakage || o.Piece != i || o.Plater != q {
					continue
				}
				for n, w := range o.ways {
					gain, proven, err := gainOf(context.Background(), st, plan, &w, solver.Settings{})
					if err != nil || !proven {
						t.Fatal(proven, err)
					}
					moved := st.Clone()
					quote := &moved.Pieces[i].Quotes[0]
					was := choiceAt(st, i, q)
					breaks := []catalog.Micro{was.Breakage / 2, min(2*was.Breakage, catalog.One), was.Breakage,
						was.Breakage}[n]
					if !quote.Breakage.Set {
						quote.Breakage = jobs.Given(breaks)
					}
					quote.Refused = jobs.Given([]catalog.Micro{0, 0, 0, catalog.One}[n])
					sure := moved.Clone()
					if n == 3 { // nobody would plan on what is sure to be sent back
						sure.Bans = append(sure.Bans,
							catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: i, Plater: q}})
					}
					now := solved.Cheapest(t, sure)
					if !now.Has {
						continue
					}
					looked++
					regardless := byHand(moved, plan)
					if regardless < 0 {
						continue // what is sure to fail has no line in the program
					}
					if want := max(0, regardless-now.Weighed()); want != gain {
						t.Errorf("seed %d, piece %d, way %d: worth %d, by hand %d", seed, i, n, gain, want)
					}
					if gain > 0 {
						worth++
					}
				}
			}
		}
	}
	if looked < 100 || worth < 5 {
		t.Errorf("%d looked at, %d worth knowing", looked, worth)
	}
}

// choiceAt is a choice for a piece at a plater.
func choiceAt(st *catalog.State, piece, plater int) *plan.Choice {
	for _, choices := range choice.Choices(st) {
		for i := range choices {
			if choices[i].Piece == piece && choices[i].Plater == plater {
				return &choices[i]
			}
		}
	}
	return nil
}

// TestFindOutGrade does the same with the grade of quotes.
func TestFindOutGrade(t *testing.T) {
	looked, worth := 0, 0
	for seed := range int64(300) {
		st := jobs.Random(seed, 3, jobs.Options{})
		for s := range st.Slots {
			st.Slots[s].Target.Floor = jobs.Given(catalog.Centi(60_00))
		}
		for i := range st.Pieces { // just below what is asked for, so that some matter
			for q := range st.Pieces[i].Quotes {
				st.Pieces[i].Quotes[q].Grade = jobs.Given(catalog.Centi(58_00))
			}
		}
		plan := solved.Cheapest(t, st)
		for i := range st.Pieces {
			if !plan.Has || len(st.Pieces[i].Quotes) != 1 || !st.Pieces[i].Quotes[0].Grade.Set ||
				len(st.Pieces[i].Fit) > 0 {
				continue
			}
			gain, proven, err := gainOf(context.Background(), st, plan,
				turn(st, i, st.Pieces[i].Quotes[0].Plater, choice.FigureGrade, false), solver.Settings{})
			if err != nil || !proven {
				continue
			}
			moved := st.Clone()
			g := &moved.Pieces[i].Quotes[0].Grade
			g.V = min(g.V+3_00, 100_00)
			now := solved.Cheapest(t, moved)
			looked++
			if saved := max(0, plan.Weighed()-now.Weighed()); saved != gain {
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
		if choice.Needed(&st.Slots[i]) > 1 {
			return true
		}
	}
	return false
}

package program

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// solveFor gives the plan of a state, which there is.
func solveFor(t *testing.T, st *catalog.State) *plan.Plan {
	t.Helper()
	p, err := Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sameLines says whether two plans hang the same in the same slots, the reserve included.
func sameLines(a, b *plan.Plan) bool {
	return slices.EqualFunc(plan.KeptLines(a), plan.KeptLines(b), func(x, y catalog.KeptLine) bool {
		x.Expected, y.Expected = 0, 0
		f, g := x.Fallback, y.Fallback
		x.Fallback, y.Fallback = nil, nil
		return x == y && (f == nil) == (g == nil) && (f == nil || *f == *g)
	})
}

// TestKeptPlanStays: whatever plan of the least total is kept, that one is advised again and
// at the same total: pieces that are as good as each other don't change places.
func TestKeptPlanStays(t *testing.T) {
	moved, same := 0, 0
	for seed := range int64(campaign.Cases(80, 400)) {
		st := jobs.Random(seed, 3, jobs.Options{})
		for i := range min(3, len(st.Pieces)) { // twins, so that there are plans as good as each other
			twin := st.Pieces[i]
			twin.ID += "-twin"
			st.Pieces = append(st.Pieces, twin)
		}
		first := solveFor(t, st)
		if !first.Has {
			continue
		}
		for s := range st.Slots {
			for i := range st.Pieces {
				other := st.Clone()
				other.Locks = append(other.Locks, catalog.Lock{Filter: catalog.Filter{Slot: s, Piece: i, Plater: catalog.None}})
				q := solveFor(t, other)
				if !q.Has || q.Expected != first.Expected {
					continue
				}
				kept := st.Clone()
				kept.Kept = &catalog.Kept{Lines: plan.KeptLines(q)}
				again := solveFor(t, kept)
				if again.Expected != first.Expected {
					t.Errorf("seed %d: the total is %d, was %d", seed, again.Expected, first.Expected)
				}
				if !sameLines(q, again) {
					t.Errorf("seed %d: kept\n%v\nadvised\n%v", seed, plan.KeptLines(q), plan.KeptLines(again))
				}
				if same++; !sameLines(q, first) {
					moved++
				}
			}
		}
	}
	if moved < campaign.Cases(20, 20) {
		t.Errorf("%d plans kept, %d of them not the one that is advised unasked: too few to tell", same, moved)
	}
}

// TestLeftStaysLeft: of two pieces as good as each other the one that is named for a side
// goes there, in whatever order the file has them.
func TestLeftStaysLeft(t *testing.T) {
	for _, order := range [][2]string{{"left rim", "right rim"}, {"right rim", "left rim"}} {
		st := jobs.Tiny()
		st.Pieces = st.Pieces[:0]
		for _, name := range order {
			p := jobs.TinyPiece(name)
			p.Name, p.Grade = name, jobs.Given(catalog.Centi(80_00))
			st.Pieces = append(st.Pieces, p)
		}
		p := solveFor(t, st)
		for i := range p.Lines {
			if got, want := p.PieceOf(p.Lines[i].Choice).Name, []string{"left rim", "right rim"}[p.Lines[i].Slot]; got != want {
				t.Errorf("%v: %s hangs in %s", order, got, st.Slots[p.Lines[i].Slot].ID)
			}
		}
	}
}

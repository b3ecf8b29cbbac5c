package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// randomRecord is something that may happen to a job at the bench; it may be refused.
func randomRecord(r *rand.Rand, st *catalog.State) []string {
	piece := st.PieceLabel(r.IntN(len(st.Pieces)))
	switch r.IntN(8) {
	case 0:
		return []string{"note", "the owner rang"}
	case 1:
		return []string{"fitted", piece}
	case 2:
		return []string{"graded", piece, "--grade", fmt.Sprint(20 + r.IntN(75))}
	case 3:
		return []string{"lost", piece}
	case 4:
		return []string{"broke", piece}
	case 5:
		return []string{"failed", "crest-friend"}
	case 6:
		return []string{"came", "crest-friend"}
	}
	return []string{"quoted", piece, "--to", "pell", "--level", "show", "--cost", fmt.Sprint(90 + r.IntN(200))}
}

// TestSteadyOverRecords: whatever is recorded, in whatever order, pieces don't change places
// for nothing, and what is told to have changed since the plan that was kept is what has,
// each with its cause.
func TestSteadyOverRecords(t *testing.T) {
	defer func(was func() time.Time) { now = was }(now)
	now = func() time.Time { return time.Date(2031, 1, 20, 9, 0, 0, 0, time.UTC) }
	recorded, level, changed := 0, 0, 0
	for seed := range campaign.Cases(6, 60) {
		r := rand.New(rand.NewPCG(uint64(seed), 31))
		dir := demoCopy(t)
		withTwins(t, filepath.Join(dir, "job.toml"))
		slot := twinSlots[r.IntN(len(twinSlots))]
		for _, args := range [][]string{
			{"record", "lock", slot, dir, "--piece", fmt.Sprint("twin-", 1+r.IntN(twins))}, {"plan", dir, "--keep"},
		} {
			if code, _, errs := brightset(args...); code != exitAnswered {
				t.Fatal(args, errs)
			}
		}
		before := planOf(t, dir)
		for n := range 6 {
			act := append(append([]string{"record"}, randomRecord(r, before.Of)...), dir)
			if n == 0 { // what it hung by is gone, and it stays all the same
				act = []string{"record", "unlock", slot, dir}
			}
			if code, _, _ := brightset(act...); code != exitAnswered {
				continue
			}
			after := planOf(t, dir)
			if !after.Has {
				break
			}
			recorded++
			if after.Expected == before.Expected && stands(before, after.Of) {
				level++
				for i := range after.Lines {
					if was, is := before.NameOf(before.Lines[i].Choice), after.NameOf(after.Lines[i].Choice); was != is {
						t.Errorf("seed %d, %v: %s takes the place of %s for nothing", seed, act, is, was)
					}
				}
			}
			changed += toldAsChanged(t, fmt.Sprintf("seed %d, %v", seed, act), after)
			before = after
		}
	}
	if recorded < 8 || level == 0 || changed == 0 {
		t.Errorf("%d records, %d without another total, %d changes: the cases show too little", recorded, level, changed)
	}
}

// twins are pieces as good as one another in several slots.
const twins = 4

var twinSlots = []string{"bullet-left", "bullet-right", "crank-left", "crank-right"}

// withTwins adds pieces that are as good as one another in three slots, so that many plans
// come to one total.
func withTwins(t *testing.T, file string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for i := range twins {
		text = fmt.Appendf(text, "\n[piece.twin-%d]\nfits = [\"%s\"]\nkind = \"original\"\nmetal = \"steel\"\n"+
			"grade = 84\n", i+1, strings.Join(twinSlots, `", "`))
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

func planOf(t *testing.T, dir string) *plan.Plan {
	t.Helper()
	st, err := catalog.Load(filepath.Join(dir, "job.toml"), catalog.Options{Today: now()})
	if err != nil {
		t.Fatal(err)
	}
	p, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// stands says whether every piece of a plan is still there to hang.
func stands(p *plan.Plan, st *catalog.State) bool {
	return !slices.ContainsFunc(p.Lines, func(l plan.Line) bool { return st.Pieces[l.Choice.Piece].Gone() })
}

// toldAsChanged checks what is told against the plan that was kept, and counts it.
func toldAsChanged(t *testing.T, name string, p *plan.Plan) int {
	t.Helper()
	kept := p.Of.Kept
	told := map[string]*plan.PlanChange{}
	all := plan.PlanChanges(kept.Lines, kept.Seq, p)
	for i := range all {
		told[all[i].Slot] = &all[i]
		for _, e := range all[i].Because {
			if e.Seq <= kept.Seq {
				t.Errorf("%s: %s is put down to entry %d, from before the plan", name, all[i].Slot, e.Seq)
			}
		}
		if all[i].ByOthers != (len(all[i].Because) == 0) {
			t.Errorf("%s: %s has no cause", name, all[i].Slot)
		}
	}
	for i := range kept.Lines {
		was := &kept.Lines[i]
		slot, _ := p.Of.SlotIndex(was.Slot)
		l := &p.Lines[slot]
		s := told[was.Slot]
		moved := was.Piece != p.PieceOf(l.Choice).Key()
		switch {
		case s == nil && moved:
			t.Errorf("%s: nothing is told of %s, where %s hung", name, was.Slot, was.Piece)
		case s != nil && !s.Reserve && !s.Again && plan.AsKept(p.Of, &was.KeptChoice, l.Choice):
			t.Errorf("%s: %s is told to have changed, and is as it was", name, was.Slot)
		}
		if at, ok := p.Of.FindPiece(was.Piece); s != nil && moved && ok && p.Of.Pieces[at].Gone() && s.ByOthers {
			t.Errorf("%s: %s was for %s and is gone, and that is not told as the cause", name, was.Piece, was.Slot)
		}
	}
	return len(all)
}

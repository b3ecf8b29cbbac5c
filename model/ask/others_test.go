package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// othersOf gives the advised plan and those beside it; nil where there is no plan.
func othersOf(t *testing.T, st *catalog.State, n, differ int) (*plan.Plan, []Other) {
	t.Helper()
	ctx := context.Background()
	advised, err := program.Solve(ctx, st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if !advised.Has {
		return nil, nil
	}
	all, err := Others(ctx, advised, n, differ, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return advised, all
}

// TestOthersAgainstBrute: every near-best plan costs what the cheapest set of lines
// costs that differs enough from all before it, by trying all sets.
func TestOthersAgainstBrute(t *testing.T) {
	plans, ends := 0, 0
	swapped := 0 // plans in which pieces change places besides
	for seed := range int64(campaign.Cases(80, 1500)) {
		differ := 1 + int(seed%3)
		st := jobs.Random(3000+seed, 2+int(seed%3), jobs.Options{})
		if seed%2 == 1 {
			st = jobs.Random(3000+seed, 2+int(seed/2%2), jobs.Options{On: []string{"bag"}, Off: []string{"quantity"}})
			withEquals(st, seed)
		}
		advised, all := othersOf(t, st, 4, differ)
		found := []*plan.Plan{advised}
		for _, o := range all {
			if o.Kind != OtherNear {
				continue
			}
			b := adapter.NewSearch(st)
			b.Refuse = func(lines []*adapter.Line) bool {
				ks := make([]*plan.Choice, len(lines))
				for i, l := range lines {
					ks[i] = l.K
				}
				for _, x := range found {
					if otherwise(st, x, ks) < differ {
						return true
					}
				}
				return false
			}
			b.Run()
			if b.Has != o.Plan.Has || b.Has && b.Total != o.Plan.Weighed() {
				t.Errorf("seed %d, other %d at %d slots: %d (%v), by trying all %d (%v)", 3000+seed, len(found), differ,
					o.Plan.Weighed(), o.Plan.Has, b.Total, b.Has)
			}
			if !o.Plan.Has {
				ends++
				break
			}
			plans++
			ks := make([]*plan.Choice, len(st.Slots))
			changed := 0
			for s := range ks {
				ks[s] = o.Plan.Lines[s].Choice
				if !plan.SameChoice(ks[s], advised.Lines[s].Choice) {
					changed++
				}
			}
			if n := otherwise(st, advised, ks); n != o.Differ {
				t.Errorf("seed %d, other %d: told to differ in %d slots, it does in %d", 3000+seed, len(found),
					o.Differ, n)
			} else if n < changed {
				swapped++
			}
			found = append(found, o.Plan)
		}
	}
	if plans < campaign.Cases(60, 60) || ends < campaign.Cases(5, 5) || swapped < campaign.Cases(3, 3) {
		t.Errorf("only %d other plans, %d ends of the list and %d with pieces that change places", plans, ends, swapped)
	}
}

// TestDoLeastAgainstBrute: nothing keeps more, and nothing that keeps as much is
// cheaper, by trying all sets.
func TestDoLeastAgainstBrute(t *testing.T) {
	dearer := 0
	for seed := range int64(campaign.Cases(96, 700)) {
		slots := 2 + int(seed%2)
		if seed%12 == 10 { // takes a hundred times as long
			slots = 4
		}
		st := jobs.Random(4000+seed, slots, jobs.Options{})
		pl, err := DoLeast(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		cheapest, ok, _ := adapter.Cheapest(st)
		if ok != pl.Has {
			t.Errorf("seed %d: a plan %v, by trying all %v", 4000+seed, pl.Has, ok)
		}
		if !pl.Has {
			continue
		}
		weight := func(k *plan.Choice) int64 {
			if st.Pieces[k.Piece].Side == catalog.Customers && (k.Work == "as-is" || k.Work == "clean") {
				return int64(st.Slots[k.Slot].Weight)
			}
			return 0
		}
		has := int64(0)
		for i := range pl.Lines {
			has += weight(pl.Lines[i].Choice)
		}
		for _, more := range []int64{0, 1} {
			b := adapter.NewSearch(st)
			b.Refuse = func(lines []*adapter.Line) bool {
				sum := int64(0)
				for _, l := range lines {
					sum += weight(l.K)
				}
				return sum < has+more
			}
			b.Run()
			if more == 1 && b.Has || more == 0 && b.Total != pl.Weighed() {
				t.Errorf("seed %d: do-least keeps %d at %d; by trying all %d is had at %d (%v)", 4000+seed, has,
					pl.Weighed(), has+more, b.Total, b.Has)
			}
		}
		if int64(pl.Weighed()) > cheapest {
			dearer++
		}
	}
	if dearer < campaign.Cases(4, 40) {
		t.Errorf("do-least differs from the cheapest in only %d jobs", dearer)
	}
}

// TestOthersBeside: best finish and the plan without locks are what solving by hand
// gives; on the demo the near-best plans rise and lie far enough apart.
func TestOthersBeside(t *testing.T) {
	st, err := catalog.Load("../../testdata/locked/job.toml", catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, all := othersOf(t, st, 2, 1)
	free := st.Clone()
	free.Locks = nil
	open, _ := program.Solve(context.Background(), free, solver.Settings{})
	best, _ := program.Best(context.Background(), st, solver.Settings{})
	want := map[OtherKind]*plan.Plan{OtherUnlocked: open, OtherFinest: best}
	for _, o := range all {
		if w := want[o.Kind]; w != nil && (o.Plan.Weighed() != w.Weighed() || o.Plan.Grade != w.Grade) {
			t.Errorf("%s: %d, by hand %d", o.Kind, o.Plan.Weighed(), w.Weighed())
		}
		delete(want, o.Kind)
	}
	if len(want) > 0 {
		t.Errorf("not shown: %v", want)
	}

	advised, near := othersOf(t, jobs.DemoState(t), 4, 3)
	last := advised.Weighed()
	for _, o := range near[:4] {
		if o.Plan.Weighed() < last || o.Differ < 3 {
			t.Errorf("%d after %d, %d slots differ", o.Plan.Weighed(), last, o.Differ)
		}
		last = o.Plan.Weighed()
	}
	if near[4].Kind != OtherLeast || len(near) != 6 {
		t.Errorf("%d plans, without locks there should be 6", len(near))
	}
}

// TestLevelEitherWay: whether two plans are level does not hang on which of them is the
// advised one: the cheaper may err upwards and the dearer downwards, whichever that is.
func TestLevelEitherWay(t *testing.T) {
	askew := 0
	for seed := range int64(campaign.Cases(80, 1500)) {
		st := jobs.Random(7000+seed, 2+int(seed%3), jobs.Options{})
		st.Tables.Spread.Low, st.Tables.Spread.High = jobs.Set[catalog.Micro](100_000), jobs.Set[catalog.Micro](300_000)
		advised, all := othersOf(t, st, 3, 1)
		for i := range all {
			if all[i].Plan == nil || !all[i].Plan.Has || all[i].Differ == 0 {
				continue
			}
			is, was := swapsOf(st).unmatched(all[i].Plan, advised)
			cheap, dear := spreadOf(all[i].Plan, is), spreadOf(advised, was)
			right, wrong := cheap.Above+dear.Below, cheap.Below+dear.Above
			for _, less := range []catalog.Cents{right, right + 1, (right + wrong + 1) / 2} {
				cheaper := *all[i].Plan
				cheaper.Expected = advised.Weighed() + cheaper.Keeps - less
				down, up := Other{Plan: &cheaper}, Other{Plan: advised}
				down.compare(st, advised)
				up.compare(st, &cheaper)
				if down.Level != (less <= right) || up.Level != down.Level {
					t.Errorf("seed %d: %d less, %d may be off: level %v, and %v the other way round", 7000+seed,
						less, right, down.Level, up.Level)
				}
			}
			if right != wrong {
				askew++
			}
		}
	}
	if askew < 10 {
		t.Errorf("only %d pairs of plans may be off further one way than the other", askew)
	}
}

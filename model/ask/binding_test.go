package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/program"
	"brightset/solver"
)

// TestBindingsByHand: each lock and ban costs what a solve of the state without it
// saves, and all together what a state without any saves.
func TestBindingsByHand(t *testing.T) {
	ctx := context.Background()
	locked, err := catalog.Load("../../testdata/locked/job.toml", catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := []*catalog.State{locked, jobs.DemoState(t)}
	for seed := range int64(50) {
		all = append(all, jobs.Random(5000+seed, 3, jobs.Options{On: []string{"lock", "ban"}}))
	}
	paid, free := 0, 0
	for i, st := range all {
		plan, err := program.Solve(ctx, st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		all, err := Bindings(ctx, plan, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if !plan.Has {
			if all != nil {
				t.Errorf("job %d has no plan, but bindings with a cost", i)
			}
			continue
		}
		n := len(st.Locks) + len(st.Bans)
		if n > 1 {
			n++
		}
		if len(all) != n {
			t.Errorf("job %d: %d bindings, want %d", i, len(all), n)
		}
		for _, b := range all {
			without := st.Clone()
			without.Locks, without.Bans = nil, nil
			for k, l := range st.Locks {
				if k != b.Lock && (b.Lock != catalog.None || b.Ban != catalog.None) {
					without.Locks = append(without.Locks, l)
				}
			}
			for k, l := range st.Bans {
				if k != b.Ban && (b.Lock != catalog.None || b.Ban != catalog.None) {
					without.Bans = append(without.Bans, l)
				}
			}
			byHand, err := program.Solve(ctx, without, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if want := plan.Expected - byHand.Expected; !b.Looked || !b.Proven || b.Costs != want {
				t.Errorf("job %d, lock %d, ban %d: costs %d, by hand %d", i, b.Lock, b.Ban, b.Costs, want)
			}
			if b.Costs > 0 {
				paid++
			} else {
				free++
			}
		}
	}
	if paid < 20 || free < 20 {
		t.Errorf("%d locks and bans cost something, %d nothing: too few to test with", paid, free)
	}
}

// TestBindingsBest: with the best finish it is the finish that counts.
func TestBindingsBest(t *testing.T) {
	ctx := context.Background()
	st, err := catalog.Load("../../testdata/locked/job.toml", catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := program.Best(ctx, st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	all, err := Bindings(ctx, plan, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	gained := false
	for _, b := range all[:len(st.Locks)] {
		without := st.Clone()
		without.Locks = append(without.Locks[:b.Lock:b.Lock], without.Locks[b.Lock+1:]...)
		byHand, err := program.Best(ctx, without, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if b.Gain != byHand.Grade-plan.Grade || b.Costs != plan.Expected-byHand.Expected {
			t.Errorf("lock %d: gains %v at %d, by hand %v at %d", b.Lock, b.Gain, b.Costs, byHand.Grade-plan.Grade,
				plan.Expected-byHand.Expected)
		}
		gained = gained || b.Gain > 0
	}
	if !gained {
		t.Error("no lock keeps the finish down")
	}
}

// TestBesideOutOfTime: what there is no time for is not looked at, and no error.
func TestBesideOutOfTime(t *testing.T) {
	st := jobs.DemoState(t)
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	ended, stop := context.WithCancel(context.Background())
	stop()
	for _, c := range []struct {
		ctx context.Context
		set solver.Settings
	}{{ended, solver.Settings{}}, {jobs.OutOfTime(t), solver.Settings{}}} {
		all, err := Bindings(c.ctx, plan, c.set)
		if err != nil || len(all) != 1 || all[0].Looked {
			t.Errorf("bindings out of time: %+v, %v", all, err)
		}
		others, err := Others(c.ctx, plan, 2, 2, c.set)
		if err != nil || len(others) != 3 {
			t.Errorf("others out of time: %d, %v", len(others), err)
		}
		for _, o := range others {
			if o.Plan != nil {
				t.Errorf("%s was looked at out of time", o.Kind)
			}
		}
	}
}

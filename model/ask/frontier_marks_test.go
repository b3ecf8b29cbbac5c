package ask

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// askedFor is a state whose job's file names another target and gives no budget, from
// the words: the target's mean is the set's; a slot that names a target keeps all of it,
// any other takes the job's, except for what its own keys say.
func askedFor(st *catalog.State, t catalog.Target) *catalog.State {
	out := st.Clone()
	out.Job.Budget = catalog.Val[catalog.Cents]{}
	out.Job.Target = t
	for i := range out.Slots {
		s := &out.Slots[i]
		if s.Own.Named {
			continue
		}
		s.Target = catalog.Target{Floor: t.Floor, Fresh: t.Fresh, Lasting: t.Lasting, FallbackFloor: t.FallbackFloor}
		if k := s.Own.Keys.Floor; k.Set {
			s.Target.Floor = k
		}
		if k := s.Own.Keys.Fresh; k.Set {
			s.Target.Fresh = k
		}
		if k := s.Own.Keys.Lasting; k.Set {
			s.Target.Lasting = k
		}
		if k := s.Own.Keys.FallbackFloor; k.Set {
			s.Target.FallbackFloor = k
		}
	}
	return out
}

// targetedState is a random job with named targets in its tables, some slots of which
// have keys of their own over the job's target.
func targetedState(seed int64, slots int) *catalog.State {
	st := jobs.Random(seed, slots, jobs.Options{})
	r := rand.New(rand.NewPCG(uint64(seed), 41))
	grade := func(low, high catalog.Centi) catalog.Val[catalog.Centi] {
		return jobs.Set(jobs.Between(r, low, high))
	}
	for _, name := range []string{"plain", "good", "fine"} {
		t := catalog.Target{Name: name, Floor: grade(20_00, 80_00), Mean: grade(40_00, 90_00)}
		if jobs.Chance(r, 30) {
			t.Lasting = jobs.Set(true)
		}
		if jobs.Chance(r, 15) {
			t.Fresh = jobs.Set(true)
		}
		if jobs.Chance(r, 30) {
			t.FallbackFloor = grade(10_00, 70_00)
		}
		st.Tables.Targets = append(st.Tables.Targets, t)
	}
	st.Job.Target = st.Tables.Targets[r.IntN(3)]
	for i := range st.Slots {
		s := &st.Slots[i]
		if s.Own.Named {
			continue
		}
		if jobs.Chance(r, 40) {
			s.Own.Keys.Floor = grade(20_00, 90_00)
		}
		if jobs.Chance(r, 20) {
			s.Own.Keys.Lasting = jobs.Set(jobs.Chance(r, 50))
		}
	}
	budget := st.Job.Budget
	st = askedFor(st, st.Job.Target)
	st.Job.Budget = budget
	return st
}

// TestTargetMarksByHand: what is said of a named target is what a plan of a job with that
// target and no budget says.
func TestTargetMarksByHand(t *testing.T) {
	met, none := 0, 0
	look := func(name string, st *catalog.State) {
		c, err := Frontier(context.Background(), st, 2000, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if c.NoPlan != nil {
			return
		}
		if len(c.Marks) != len(st.Tables.Targets) {
			t.Errorf("%s: %d targets are told of, there are %d", name, len(c.Marks), len(st.Tables.Targets))
		}
		for i, m := range c.Marks {
			asked := askedFor(st, st.Tables.Targets[i])
			plan, err := program.Solve(context.Background(), asked, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if m.Name != asked.Job.Target.Name || m.Plan.Has != plan.Has || m.Plan.Weighed() != plan.Weighed() {
				t.Errorf("%s: target %q costs %d (%v), by hand %d (%v)", name, m.Name, m.Plan.Weighed(), m.Plan.Has,
					plan.Weighed(), plan.Has)
				continue
			}
			if !plan.Has {
				none++
				continue
			}
			met++
			if broken := check.Check(asked, m.Plan); len(broken) > 0 {
				t.Errorf("%s: %v", name, broken)
			}
		}
	}
	look("demo", jobs.DemoState(t))
	for seed := range int64(campaign.Cases(80, 1500)) {
		look(jobs.CaseName(seed, 3, "marks"), targetedState(seed, 3))
	}
	if met < campaign.Cases(30, 30) || none < campaign.Cases(5, 5) {
		t.Errorf("only %d targets that can be met and %d that can't", met, none)
	}
}

// TestCurvePointsAreTheSame: whatever the step, the points are some of those that no other
// set beats, and the curve begins and ends where it does with all of them.
func TestCurvePointsAreTheSame(t *testing.T) {
	curve := func(st *catalog.State, step catalog.Centi) *Curve {
		c, err := Frontier(context.Background(), st, step, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	points := 0
	for seed := range int64(campaign.Cases(80, 1500)) {
		st := levelState(6000+seed, 3)
		all := curve(st, 0)
		if all.NoPlan != nil {
			continue
		}
		whole := map[int64]catalog.Cents{}
		for i := range all.Points {
			whole[sumOf(st, all.Points[i].Plan)] = all.Points[i].Plan.Weighed()
		}
		for _, step := range []catalog.Centi{200, 1000} {
			some := curve(st, step)
			for i := range some.Points {
				p := some.Points[i].Plan
				points++
				if total, is := whole[sumOf(st, p)]; !is || total != p.Weighed() {
					t.Errorf("%s, step %d: point %d at a mean of %.4f costs %d, and isn't one of all",
						jobs.CaseName(6000+seed, 3, "level"), step, i, p.Grade, p.Weighed())
				}
			}
			first, last := some.Points[0].Plan, some.Points[len(some.Points)-1].Plan
			if first.Weighed() != all.Points[0].Plan.Weighed() ||
				last.Weighed() != all.Points[len(all.Points)-1].Plan.Weighed() {
				t.Errorf("%s, step %d: from %d to %d, with all points from %d to %d",
					jobs.CaseName(6000+seed, 3, "level"), step,
					first.Weighed(), last.Weighed(), all.Points[0].Plan.Weighed(),
					all.Points[len(all.Points)-1].Plan.Weighed())
			}
		}
	}
	if points < campaign.Cases(80, 80) {
		t.Errorf("only %d points were looked at", points)
	}
}

// levelState is a random job in which many sets cost the same and are finished
// differently: pieces that cost nothing have grades of their own, a point or less apart.
func levelState(seed int64, slots int) *catalog.State {
	st := jobs.Random(seed, slots, jobs.Options{Off: []string{"value", "vendor", "bundle", "lead"}})
	r := rand.New(rand.NewPCG(uint64(seed), 43))
	for i := range st.Pieces {
		st.Pieces[i].Price = 0
		if jobs.Chance(r, 60) {
			st.Pieces[i].Grade = jobs.Set(80_00 + jobs.Between[catalog.Centi](r, 0, 1_99))
		}
	}
	return st
}

// TestCurveFirst: a mean belongs to the first point that reaches it; none reaches one that is
// higher than the last.
func TestCurveFirst(t *testing.T) {
	c := &Curve{}
	for _, mean := range []float64{40, 50.5, 60} {
		c.Points = append(c.Points, CurvePoint{Plan: &plan.Plan{Grade: mean}})
	}
	for mean, want := range map[catalog.Centi]int{0: 0, 4000: 0, 4001: 1, 5050: 1, 5051: 2, 6000: 2, 6001: -1} {
		if got := c.First(mean); got != want {
			t.Errorf("the first point of a mean of %d is %d, got %d", mean, want, got)
		}
	}
}

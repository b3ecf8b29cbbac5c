package risk

import (
	"context"
	"math"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
)

// TestOutcomesMean: the outcomes of a line are certain together and come to its
// expected cost on average, but for rounding.
func TestOutcomesMean(t *testing.T) {
	look := func(st *catalog.State) (lines int) {
		plan := solved.Cheapest(t, st)
		for i := range plan.Lines {
			sum, mean := 0.0, 0.0
			for _, o := range Outcomes(st, &plan.Lines[i]) {
				sum += o.Chance
				mean += o.Chance * float64(o.Cents)
			}
			if math.Abs(sum-1) > 1e-9 || math.Abs(mean-float64(plan.Lines[i].Expected)) > 5+1e-3*mean {
				t.Errorf("line %d: chances add up to %v, mean %v, expected %d", i, sum, mean, plan.Lines[i].Expected)
			}
			lines++
		}
		return lines
	}
	look(jobs.DemoState(t))
	lines := 0
	for seed := range int64(80) {
		lines += look(jobs.Random(seed, 3, jobs.Options{}))
	}
	if lines < 60 {
		t.Errorf("only %d lines were looked at", lines)
	}
}

// TestRiskByHand enumerates all outcomes of small plans together.
func TestRiskByHand(t *testing.T) {
	means, rare := 0, 0
	for seed := range int64(60) {
		st := jobs.Random(seed, 3, jobs.Options{})
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		sure := catalog.Cents(0)
		for _, c := range plan.Charges {
			sure += c.Cents
		}
		r := RiskOf(context.Background(), plan)
		for _, v := range []catalog.Cents{plan.Outlay, plan.Outlay + 50_00, plan.Outlay + 300_00} {
			within, kept := 0.0, 0.0
			var walk func(i int, chance float64, cash catalog.Cents, safe bool)
			walk = func(i int, chance float64, cash catalog.Cents, safe bool) {
				if i == len(plan.Lines) {
					if cash <= v {
						within += chance
					}
					if safe {
						kept += chance
					}
					return
				}
				for _, o := range Outcomes(st, &plan.Lines[i]) {
					walk(i+1, chance*o.Chance, cash+o.Cash, safe && !o.Rescue)
				}
			}
			walk(0, 1, sure, true)
			if mean := st.Job.Target.Mean; mean.Set {
				if got, want := r.Mean, chanceOfMean(st, plan, mean.V); !isJust(got, want) {
					t.Errorf("seed %d: chance of the mean %v, by hand %v", seed, got, want)
				}
				means++
				rare += min(1, int((1-r.Mean.Most)*1e6))
			}
			if got := r.Cash.Within(v); !isJust(got, within) {
				t.Errorf("seed %d: chance to stay within %d is %v, by hand %v", seed, v, got, within)
			}
			if math.Abs(1-r.Rescues-kept) > 1e-9 || math.Abs(kept-plan.Completion) > 1e-5 {
				t.Errorf("seed %d: rescue %v, by hand %v, completion of the plan %v", seed, r.Rescues, 1-kept,
					plan.Completion)
			}
		}
	}
	if means < 20 || rare < 5 {
		t.Errorf("%d means looked at, %d of them not certain", means, rare)
	}
}

// isJust says whether a chance is told as the one that it is, but for rounding.
func isJust(b Between, want float64) bool {
	return b.Least == b.Most && math.Abs(b.Least-want) < 1e-9
}

// chanceOfMean enumerates the outcomes of all slots for the chance that the mean grade
// is as asked for.
func chanceOfMean(st *catalog.State, plan *plan.Plan, mean catalog.Centi) float64 {
	chance := 0.0
	var walk func(i int, p, points, weights float64)
	walk = func(i int, p, points, weights float64) {
		if i == len(plan.Lines) {
			if weights == 0 || points >= float64(mean)*weights-1e-6 {
				chance += p
			}
			return
		}
		w := float64(st.Slots[i].Weight)
		for _, o := range Outcomes(st, &plan.Lines[i]) {
			walk(i+1, p*o.Chance, points+w*float64(o.Grade), weights+w)
		}
	}
	walk(0, 1, 0, 0)
	return chance
}

// TestDays: the day by which the set hangs, against all outcomes gone through by hand.
func TestDays(t *testing.T) {
	looked := 0
	for seed := range int64(60) {
		st := jobs.Random(seed, 3, jobs.Options{})
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		r := RiskOf(context.Background(), plan)
		for _, q := range []float64{0.1, 0.5, 0.9, 1} {
			day := r.Days(q)
			if alone := DaysOf(plan, q); alone != day {
				t.Errorf("seed %d: day %d by itself, %d with everything else", seed, alone, day)
			}
			in := map[int]float64{} // by day, and by the day before
			var walk func(i int, chance float64, last int)
			walk = func(i int, chance float64, last int) {
				if i == len(plan.Lines) {
					for _, d := range []int{day, day - 1} {
						if last <= d {
							in[d] += chance
						}
					}
					return
				}
				for _, o := range Outcomes(st, &plan.Lines[i]) {
					walk(i+1, chance*o.Chance, max(last, o.Days))
				}
			}
			walk(0, 1, 0)
			looked++
			if in[day] < q-1e-9 || (day > 0 && in[day-1] >= q+1e-9) {
				t.Errorf("seed %d: by day %d with %v: %v, the day before %v", seed, day, q, in[day], in[day-1])
			}
		}
	}
	if looked < 40 {
		t.Errorf("only %d looked at", looked)
	}
}

// TestSimulationAgrees: the mean of the simulated totals is the exact one within
// five times the sampling error.
func TestSimulationAgrees(t *testing.T) {
	const runs = 20_000
	for _, st := range []*catalog.State{jobs.DemoState(t), jobs.Random(1, 3, jobs.Options{})} {
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			t.Fatal("no plan")
		}
		r, s := RiskOf(context.Background(), plan), Simulate(context.Background(), plan, runs, 1)
		variance, mean := 0.0, r.Total.Mean()
		for _, a := range r.Total.low {
			v := float64(a.cents) - mean
			variance += a.chance * v * v
		}
		if margin := 5 * math.Sqrt(variance/runs); math.Abs(s.Total-mean) > margin+1 {
			t.Errorf("simulated mean %v, exact %v, margin %v", s.Total, mean, margin)
		}
		mean, variance = 0, 0
		for _, a := range r.grade.low {
			v := float64(a.cents) / float64(100*program.TotalWeight(st))
			mean, variance = mean+a.chance*v, variance+a.chance*v*v
		}
		if margin := 5 * math.Sqrt((variance-mean*mean)/runs); math.Abs(s.Grade-mean) > margin+1e-6 {
			t.Errorf("simulated mean grade %v, exact %v, margin %v", s.Grade, mean, margin)
		}
		again := Simulate(context.Background(), plan, runs, 1)
		if Quantile(again.Cash, 0.9) != Quantile(s.Cash, 0.9) || again.Total != s.Total {
			t.Error("the same seed gives another simulation")
		}
	}
}

// TestAddUp: two dice of 0 or 10 cents, and a certain sum.
func TestAddUp(t *testing.T) {
	die := []atom{{0.5, 0}, {0.5, 10}}
	d, whole := addUp(context.Background(), [][]atom{die, die}, 100)
	if !whole || d.Off != 0 {
		t.Errorf("whole: %v; off by %d at most", whole, d.Off)
	}
	for v, want := range map[catalog.Cents]float64{99: 0, 100: 0.25, 110: 0.75, 119: 0.75, 120: 1} {
		if got, more := d.Within(v), d.AtLeast(v+1); !isJust(got, want) || !isJust(more, 1-want) {
			t.Errorf("at most %d: %v, want %v; more: %v", v, got, want, more)
		}
	}
	for q, want := range map[float64]catalog.Cents{0: 120, 0.25: 120, 0.26: 110, 0.75: 110, 0.76: 100, 1: 100} {
		if got := d.Reached(q); got != want {
			t.Errorf("reached with %v: %d, want %d", q, got, want)
		}
	}
	if d.Quantile(0.5) != 110 || d.Quantile(0.9) != 120 || d.Mean() != 110 {
		t.Errorf("quantiles %d and %d, mean %v", d.Quantile(0.5), d.Quantile(0.9), d.Mean())
	}
}

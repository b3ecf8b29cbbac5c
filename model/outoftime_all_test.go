package model

import (
	"context"
	"math"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// TestOutOfTime: whatever is asked once time is up gets an answer that says so, and no
// choices are worked out for it.
func TestOutOfTime(t *testing.T) {
	st, set, ctx := demoState(t), solver.Settings{}, outOfTime(t)
	plan := cheapest(t, st)
	stopped := func(p *Plan, err error) (bool, error) {
		return p != nil && p.Status == solver.Stopped && p.Stop == solver.TimeLimit && !p.Has, err
	}
	for name, ask := range map[string]func() (marked bool, err error){
		"plan":     func() (bool, error) { return stopped(Solve(ctx, st, set)) },
		"best":     func() (bool, error) { return stopped(Best(ctx, st, set)) },
		"least":    func() (bool, error) { return stopped(DoLeast(ctx, st, set)) },
		"why":      func() (bool, error) { w, err := AskWhy(ctx, st, 0, set); return !w.Advised.Has, err },
		"frontier": func() (bool, error) { c, err := Frontier(ctx, st, 100, set); return !c.Whole && c.NoPlan != nil, err },
		"hunt":     func() (bool, error) { h, err := Hunt(ctx, st, nil, set); return !h.Whole && !h.Plan.Has, err },
		"leads": func() (bool, error) {
			_, whole, err := Leads(ctx, st, plan, set)
			return !whole || !usesLead(plan), err
		},
		"find-out": func() (bool, error) { _, whole, err := FindOuts(ctx, st, plan, set); return !whole, err },
		"strip":    func() (bool, error) { _, whole, err := StripFirst(ctx, st, plan, set); return !whole, err },
		"stops":    func() (bool, error) { _, whole, err := StopPrices(ctx, st, plan, set); return !whole, err },
		"rejected": func() (bool, error) { _, whole, err := Rejected(ctx, st, plan, false, set); return !whole, err },
		"rules":    func() (bool, error) { _, whole, err := RulePrices(ctx, st, 0, plan, set); return !whole, err },
		"explain":  func() (bool, error) { c, err := Explain(ctx, st, set); return c.Stopped, err },
		"simulate": func() (bool, error) { s := Simulate(ctx, st, plan, 100, 1); return !s.Whole() && s.Runs == 0, nil },
		"one spare": func() (bool, error) {
			two, _, err := OneForTwoAgainstOne(ctx, st, set)
			return two.Status == solver.Stopped, err
		},
	} {
		before := derived.Load()
		marked, err := ask()
		if err != nil || !marked {
			t.Errorf("%s: out of time, and it doesn't say so (%v)", name, err)
		}
		if n := derived.Load() - before; n > 0 && name != "one spare" {
			t.Errorf("%s: choices for %d slots were worked out though time was up", name, n)
		}
	}
}

func usesLead(p *Plan) bool {
	return usedIn(p, func(c *Choice) bool { return c.Chance < catalog.One })
}

// TestRiskOutOfTime: what is told by coarse steps says so, and is off by no more than it says.
func TestRiskOutOfTime(t *testing.T) {
	st := demoState(t)
	plan := cheapest(t, st)
	coarse, exact := RiskOf(outOfTime(t), st, plan), RiskOf(context.Background(), st, plan)
	if !coarse.Coarse || exact.Coarse {
		t.Fatalf("coarse: %v out of time, %v else", coarse.Coarse, exact.Coarse)
	}
	for _, d := range [][2]*Distribution{{coarse.Total, exact.Total}, {coarse.Cash, exact.Cash}, {coarse.grade, exact.grade}} {
		off := float64(d[0].Off + d[1].Off)
		if got := math.Abs(d[0].Mean() - d[1].Mean()); got > off {
			t.Errorf("the mean is off by %v, said to be by %v at most", got, off)
		}
		for q := 0.05; q < 1; q += 0.05 {
			if got := math.Abs(float64(d[0].Quantile(q) - d[1].Quantile(q))); got > off {
				t.Errorf("the sum at %.2f is off by %v, said to be by %v at most", q, got, off)
			}
		}
	}
}

// TestChoicesWorkedOutOnce: what is asked of one figure after the other works out the
// choices for the slots that a figure has to do with, never all of them again.
func TestChoicesWorkedOutOnce(t *testing.T) {
	st := demoState(t)
	plan := cheapest(t, st)
	before := derived.Load()
	figures := openToStripping(st, plan, Choices(st))
	if n := derived.Load() - before; n > int64(len(st.Slots)) {
		t.Errorf("listing %d figures worked out the choices for %d slots", len(figures), n)
	}
	most := int64(len(st.Slots))
	for i := range figures {
		for _, w := range figures[i].ways {
			for s := range st.Slots {
				if w.gone != nil && fitsSlot(&st.Pieces[figures[i].Piece], s) {
					most++
				}
			}
		}
	}
	before = derived.Load()
	if _, whole, err := StripFirst(within(t, 10*minute), st, plan, solver.Settings{}); err != nil || !whole {
		t.Fatal(whole, err)
	}
	if n := derived.Load() - before; n > most {
		t.Errorf("%d figures: choices worked out for %d slots, %d are enough", len(figures), n, most)
	}
	sent := int64(0)
	for i := range plan.Lines {
		if c := plan.Lines[i].Choice; c.Plated() {
			for s := range st.Slots {
				if fitsSlot(&st.Pieces[c.Piece], s) {
					sent++ // without it
				}
			}
			sent++ // its terms
		}
	}
	before = derived.Load()
	if _, whole, err := StopPrices(within(t, 10*minute), st, plan, solver.Settings{}); err != nil || !whole {
		t.Fatal(whole, err)
	}
	if n := derived.Load() - before; n > int64(len(st.Slots))+sent {
		t.Errorf("prices at which to stop: choices worked out for %d slots, %d are enough", n, int64(len(st.Slots))+sent)
	}
}

// TestAgainIsAnew: a program made out of another is the one made from nothing.
func TestAgainIsAnew(t *testing.T) {
	looked, reused := 0, 0
	for seed := range int64(60) {
		st := randomState(seed, 4, randomOptions{})
		base := Compile(st, Options{FixedLimits: true})
		for piece := range st.Pieces {
			now := st.Clone()
			now.Pieces[piece].Chance = catalog.One / 2
			adjust := func(c *Choice) {
				if c.Piece == piece && c.Plated() {
					c.Plate += 7_00
					c.Grade = max(0, c.Grade-3_00)
				}
			}
			for _, state := range []*catalog.State{st, now} {
				again := base.again(state, Options{Adjust: adjust}, piece)
				anew := Compile(state, Options{FixedLimits: true, Adjust: adjust})
				if !equalProblems(again.Problem, anew.Problem) {
					t.Fatalf("seed %d, piece %d: another program", seed, piece)
				}
				looked++
				if again.sameWants {
					reused++
				}
			}
		}
	}
	if looked < 300 || reused < 200 {
		t.Errorf("%d looked at, of %d lines were taken over", looked, reused)
	}
}

// TestFewerLinesAtOnce: leaving off at the first fallback that makes all others needless
// leaves out no line that comparing each with each keeps.
func TestFewerLinesAtOnce(t *testing.T) {
	lines := 0
	for seed := range int64(150) {
		st := randomState(seed, 4, randomOptions{})
		for _, opt := range []Options{{FixedLimits: true}, {}} {
			p := Compile(st, opt)
			for s, b := range p.benches {
				j := newYardstick(st, s, p.wants, opt)
				var want []Pair
				held := b.ranked()
				for _, k := range b.planned {
					var kept []reserve
					for i := range held {
						if b.allowed(k, held[i].f) && !j.outdone(kept, &held[i], &b.choices[k]) {
							kept = append(kept, held[i])
						}
					}
					for i := range kept {
						want = append(want, b.pair(k, kept[i].f))
					}
				}
				got := b.fewerLines(j)
				if !samePairs(got, want) {
					t.Fatalf("seed %d, slot %d: %v, want %v", seed, s, got, want)
				}
				lines += len(got)
			}
		}
	}
	if lines < 2000 {
		t.Errorf("only %d lines", lines)
	}
}

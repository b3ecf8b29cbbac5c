package solver

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/testdata/campaign"
)

// TestFlat: with its rules as rows a domain has the solutions it has.
func TestFlat(t *testing.T) {
	ruled := 0
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 92))
		p := realProblem(r, 2+r.IntN(4), 4)
		in, d := partOf(r, p)
		if d == nil {
			continue
		}
		f := in.flat(d).in
		if len(f.rows) > len(in.rows) {
			ruled++
		}
		// Without rules, those that keep the rows instead are those that keep the rules.
		q := *p
		q.WithinTolerance, q.AllEqual = nil, nil
		all, with := 0, 0
		solutionsIn(p, in, d, func([]int, []bool) { all++ })
		solutionsIn(&q, in, d, func(cols []int, _ []bool) {
			for x := len(in.rows); x < len(f.rows); x++ {
				sum := int64(0)
				for _, c := range cols {
					sum += coefOf(f.cols[c].terms, x)
				}
				if sum > f.rows[x].limit {
					return
				}
			}
			with++
		})
		if all != with {
			t.Errorf("seed %d: %d solutions, %d with rules as rows", seed, all, with)
		}
	}
	if ruled < 60 {
		t.Errorf("only %d had rules", ruled)
	}
}

// TestTighten: what is taken out of a domain is in no solution better than what is in hand,
// or as good; the bound is one; and where all is gone there is none.
func TestTighten(t *testing.T) {
	gone, less := 0, 0
	for seed := range uint64(campaign.Cases(6000, 60_000)) {
		r := rand.New(rand.NewPCG(seed, 93))
		p := realProblem(r, 3+r.IntN(4), 4)
		if seed%2 == 0 {
			p = steepProblem(r, 5, 5)
		}
		if refusal(p) != nil {
			continue
		}
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		want, has := bruteForce(p, Change{})
		other := in.beyond()
		if has {
			other = want + r.Int64N(2) + 1
		}
		s := &search{p: p, in: in, ctx: context.Background(), other: other}
		n, was := &node{d: d, y: in.zeroDuals(), pool: in.newPool(), value: float64(-Limit)}, d.clone()
		m := in.newMaster(d, in.newPool(), true)
		done := s.tighten(n, d, m, &outcome{})
		m.close()
		best := 0
		solutionsIn(p, in, was, func(cols []int, on []bool) {
			pick := make([]int, len(cols))
			for g, c := range cols {
				pick[g] = in.cols[c].orig
			}
			if o := p.Evaluate(pick, on, Change{}); len(o.Broken) > 0 || o.Total >= other {
				return
			}
			best++
			in := !slices.ContainsFunc(cols, func(c int) bool { return !d.alive.has(c) })
			for h, v := range on {
				in = in && (d.y[h] == open || (d.y[h] == 1) == v)
			}
			if done || !in {
				t.Errorf("seed %d: a set of %d is ruled out (gone: %v), below %d", seed, want, done, other)
			}
		})
		if best > 0 && n.value > float64(want) {
			t.Errorf("seed %d: bound %f of a set of %d", seed, n.value, want)
		}
		if done {
			gone++
		}
		if d.alive.count() < was.alive.count() {
			less++
		}
	}
	if gone < 20 || less < 100 {
		t.Errorf("only %d were gone, %d had less left", gone, less)
	}
}

// TestResume: a linear program that takes over the basis of another comes to the same.
func TestResume(t *testing.T) {
	resumed, failed, after, before := 0, 0, 0, 0 // and the steps taken
	for seed := range uint64(200) {
		p := steepProblem(rand.New(rand.NewPCG(seed, 94)), 8, 6)
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		f, lp := in.flat(d), (*flatLP)(nil)
		for round := range 4 {
			next, anew := f.load(d, lp, 1e3), f.load(d, nil, 1e3)
			a, err := next.m.solve(d)
			if err != nil {
				t.Fatal(err)
			}
			b, err := anew.m.solve(d)
			if err != nil {
				t.Fatal(err)
			}
			if a == nil || b == nil { // an engine may fail, but not often
				failed++
				break
			}
			if diff := a.value - b.value; diff > 1e-6*b.value || diff < -1e-6*b.value {
				t.Errorf("seed %d, round %d: %f, from nothing %f", seed, round, a.value, b.value)
			}
			if round > 0 {
				resumed++
				after += next.m.lin.patience() - next.s.steps
				before += anew.m.lin.patience() - anew.s.steps
			}
			used, err := f.with(next.inUse()).load(d, nil, 1e3).m.solve(d)
			if err != nil || used == nil || math.Abs(used.value-a.value) > 1e-6*a.value {
				t.Errorf("seed %d, round %d: %f, with what is in use alone %v", seed, round, a.value, used)
			}
			more := next.cutOff(d, a)
			if len(more) == 0 {
				break
			}
			f, lp = f.with(next.inUse(), more), next
		}
	}
	if 2*after > before {
		t.Errorf("%d steps, from nothing %d", after, before)
	}
	if resumed < 100 || failed > 4 {
		t.Errorf("only %d were taken over, the engine failed on %d", resumed, failed)
	}
}

// TestMostRuleRows: rules of many groups make no more rows than pay.
func TestMostRuleRows(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 95))
	p := &Problem{WithinTolerance: []WithinTolerance{{Tolerance: 20}}}
	for g := range 30 {
		var group Group
		var values []int64
		for range 8 {
			group.Columns = append(group.Columns, Column{Cost: r.Int64N(100)})
			values = append(values, r.Int64N(100))
		}
		w := &p.WithinTolerance[0]
		p.Groups, w.Groups, w.Values = append(p.Groups, group), append(w.Groups, g), append(w.Values, values)
	}
	in := newInstance(p, &Change{}, without{dominance: true})
	in.findBlocks(false)
	if n := len(in.flat(in.fullDomain()).in.rows) - len(in.rows); n != mostRuleRows {
		t.Errorf("%d rows of rules", n)
	}
}

package solver

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// graded makes a small problem about a mean of grades in units of many sizes, with charges
// and pieces in common, and some groups that have to match.
func graded(r *rand.Rand) *Problem {
	p := &Problem{
		Rows:     []Row{{Name: "mean", Sense: AtLeast}, {Name: "once", Limit: 1}, {Name: "room"}},
		Switches: []Switch{{Name: "a", Fixed: r.Int64N(60)}, {Name: "b", Fixed: r.Int64N(60), Minimum: r.Int64N(80)}},
	}
	unit := []int64{1, 100, 9_973}[r.IntN(3)]
	if r.IntN(2) == 0 { // switches that make room, or take it up
		p.Switches[0].Terms = []Term{{0, (r.Int64N(41) - 10) * unit}, {2, r.Int64N(41) - 20}}
		p.Switches[0].Fixed -= 50
		p.Rows[2].Charges = r.IntN(2) == 0
	}
	match := WithinTolerance{Name: "match", Groups: []int{0, 1, 2}[:2+r.IntN(2)], Tolerance: 8}
	least, most := int64(0), int64(0)
	for g := range 4 + r.IntN(2) {
		weight, lo, hi := 1+r.Int64N(3), Limit, int64(0)
		var group Group
		var grades []int64
		for range 2 + r.IntN(3) {
			grade := 60 + r.Int64N(40)
			v := weight * grade * unit
			if unit > 100 && r.IntN(3) == 0 {
				v += r.Int64N(unit)
			}
			c := Column{Cost: grade*weight/2 + r.Int64N(40), Terms: []Term{{0, v}}}
			if r.IntN(3) == 0 {
				c.Terms = append(c.Terms, Term{1, 1})
			}
			c.Terms = append(c.Terms, Term{2, r.Int64N(60) - 10})
			if h := r.IntN(4); h < 2 {
				c.Needs = []int{h}
				if h == 1 {
					c.Loads = []Load{{1, r.Int64N(60)}}
				}
			}
			lo, hi = min(lo, v), max(hi, v)
			grades = append(grades, grade)
			group.Columns = append(group.Columns, c)
		}
		if contains(match.Groups, g) {
			match.Values = append(match.Values, grades)
		}
		p.Groups = append(p.Groups, group)
		least, most = least+lo, most+hi
	}
	if r.IntN(2) == 0 {
		p.WithinTolerance = []WithinTolerance{match}
	}
	p.Rows[0].Limit = least + (most-least)*(40+r.Int64N(60))/100
	p.Rows[2].Limit = 80 + r.Int64N(100)
	return p
}

// TestGraded: with a row kept whole and without, the answer is that of trying everything.
func TestGraded(t *testing.T) {
	cases, feasible := campaign.Cases(600, 40_000), 0
	for seed := range uint64(cases) {
		found, err := agrees(graded(rand.New(rand.NewPCG(seed, 42))), Change{}, 1+int(seed)%(len(leaves)-1))
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if found {
			feasible++
		}
	}
	if feasible < cases/2 {
		t.Errorf("%d of %d with a solution: too few to tell", feasible, cases)
	}
}

// TestKnapsackByTrying: no solution that is not already beyond the bar is below the bound
// that keeps a row whole, and nothing that it rules out is in a solution below the bar,
// whether the row is kept in its own units or in coarser ones. It is nowhere below the
// bound that prices the row.
func TestKnapsackByTrying(t *testing.T) {
	defer func(was int64) { mostUnits = was }(mostUnits)
	judged, fixed, above, kept := 0, 0, 0, 0
	for seed := range uint64(campaign.Cases(1400, 40_000)) {
		r := rand.New(rand.NewPCG(seed, 41))
		mostUnits = []int64{2, 20, 1200}[seed%3]
		p := graded(r)
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(seed%2 == 0)
		d := in.fullDomain()
		for c := range in.cols {
			if r.IntN(8) == 0 {
				d.alive.drop(c)
			}
		}
		if !in.propagate(d) {
			continue
		}
		type solution struct {
			pick  []int
			on    []bool
			total int64
		}
		var all []solution
		least := Limit
		eachPick(p, in, func(pick []int, on []bool, total int64) {
			if in.aliveAll(d, pick) && settledSo(d, on) {
				all = append(all, solution{append([]int(nil), pick...), on, total})
				least = min(least, total)
			}
		})
		if len(all) == 0 {
			continue
		}
		random := in.randomDuals(r)
		for row := range in.rows {
			y := random
			if seed%2 == 0 {
				y = in.zeroDuals()
			}
			plain := in.lagrangian(d, y, true)
			upper := least + 1 + r.Int64N(3)*max(1, (least-plain.lower())/4)
			k := in.newKnapsack(d, row, plain, float64(upper-1)-plain.value+2*plain.err)
			if k == nil {
				continue
			}
			kept++
			b := k.bound(d, y)
			if b.value < plain.value-b.err-plain.err {
				t.Errorf("seed %d row %d: %v with the row kept, %v with it priced", seed, row, b.value, plain.value)
			}
			if b.value > plain.value+b.err+plain.err {
				above++
			}
			e := d.clone()
			if b.prune(upper) {
				t.Errorf("seed %d row %d: cut off, though a solution comes to %d", seed, row, least)
			}
			in.fix(e, b, upper)
			fixed += d.alive.count() - e.alive.count()
			for _, s := range all {
				judged++
				if s.total < upper && (b.prune(s.total+1) || !in.aliveAll(e, s.pick) || !settledSo(e, s.on)) {
					t.Errorf("seed %d row %d: ruled out, though %d is below %d", seed, row, s.total, upper)
				}
			}
		}
	}
	t.Logf("%d kept, %d judged, %d columns ruled out, %d bounds raised", kept, judged, fixed, above)
	if few := campaign.Cases(100, 100); judged < 10*few || fixed < few || above < few {
		t.Errorf("%d solutions judged, %d columns ruled out, %d bounds raised: too few to tell", judged, fixed, above)
	}
}

// TestKnapsackIsExact: with one row and nothing else the bound is the optimum, where
// pricing the row falls short of it.
func TestKnapsackIsExact(t *testing.T) {
	p := &Problem{Rows: []Row{{Name: "mean", Sense: AtLeast, Limit: 305}}}
	for range 4 {
		p.Groups = append(p.Groups, Group{Columns: []Column{
			{Cost: 10, Terms: []Term{{0, 60}}}, {Cost: 40, Terms: []Term{{0, 90}}}, {Cost: 19, Terms: []Term{{0, 70}}}}})
	}
	in := newInstance(p, &Change{}, without{})
	in.findBlocks(true)
	d := in.fullDomain()
	m := in.newMaster(d, in.newPool(), true)
	defer m.close()
	r, err := m.relax(d, nil, Limit, allRounds)
	if err != nil {
		t.Fatal(err)
	}
	k := in.newKnapsack(d, 0, r.bound, math.Inf(1))
	if k.units != 5 {
		t.Errorf("room for %d units, want 5 of ten each", k.units)
	}
	want, _ := bruteForce(p, Change{})
	if got := k.bound(d, r.duals.without(0)); got.lower() != want || r.bound.lower() >= want {
		t.Errorf("with the row kept %d, priced %d, the least is %d", got.lower(), r.bound.lower(), want)
	}
}

package risk

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// leads is a plan of n leads of grade 91 at 100.01 that come with a chance of nine in ten; a
// rescue of 300.00 is as good as the floor of 60.
func leads(n int) *plan.Plan {
	st := &catalog.State{}
	p := &plan.Plan{Of: st}
	for s := range n {
		slot := catalog.Slot{Quantity: 1, Weight: 100, Rescue: jobs.Given(catalog.Cents(300_00))}
		slot.Target.Floor = jobs.Given(catalog.Centi(60_00))
		st.Slots = append(st.Slots, slot)
		st.Pieces = append(st.Pieces, catalog.Piece{Chance: 900_000})
		p.Lines = append(p.Lines, plan.Line{Slot: s, Choice: &plan.Choice{Slot: s, Piece: s, Work: catalog.WorkAsIs,
			Plater: catalog.None, Quote: catalog.None, Chance: 900_000, Get: 100_01, Cash: 100_01, Grade: 91_00}})
	}
	return p
}

// TestNineInTenExactly: what is reached with a chance of exactly nine in ten is reached in nine
// of ten.
func TestNineInTenExactly(t *testing.T) {
	r := RiskOf(context.Background(), leads(1))
	if r.Grade(0.9) != 91 || r.Grade(0.91) != 60 {
		t.Errorf("%v in nine of ten, %v in 91 of 100", r.Grade(0.9), r.Grade(0.91))
	}
}

// TestMeanJustMet: a mean that is met only where all goes well is met as often as that, however
// far a grade by weight may fall. With one more it is not met at all.
func TestMeanJustMet(t *testing.T) {
	p := leads(8)
	p.Of.Job.Target.Mean = jobs.Given(catalog.Centi(91_00))
	if r := RiskOf(context.Background(), p); !isJust(r.Mean, math.Pow(0.9, 8)) {
		t.Errorf("%v", r.Mean)
	}
	p.Of.Job.Target.Mean.V++
	if r := RiskOf(context.Background(), p); !isJust(r.Mean, 0) {
		t.Errorf("%v that it is more than it can be", r.Mean)
	}
}

// TestBudgetJustKept: a budget that the plan spends to the cent is kept where no rescue costs
// more than the lead it takes the place of, however dear the rescues are.
func TestBudgetJustKept(t *testing.T) {
	for _, rescue := range []catalog.Cents{300_00, 4000_00, 6000_01} {
		p := leads(12)
		p.Of.Slots[10].Rescue.V, p.Of.Slots[11].Rescue.V = rescue, rescue
		for _, budget := range []catalog.Cents{12 * 100_01, 12*100_01 - 1, 12*100_01 + 199_99} {
			p.Of.Job.Budget = jobs.Given(budget)
			want := map[catalog.Cents]float64{12 * 100_01: math.Pow(0.9, 12),
				12*100_01 + 199_99: math.Pow(0.9, 12) + 10*0.1*math.Pow(0.9, 11)}[budget]
			if rescue == 300_00 && want > math.Pow(0.9, 12) {
				want += 2 * 0.1 * math.Pow(0.9, 11)
			}
			if r := RiskOf(context.Background(), p); !isJust(r.Budget, want) || r.Cash.Off != 0 {
				t.Errorf("rescue %d: budget %d kept with %v, want %v", rescue, budget, r.Budget, want)
			}
		}
	}
}

// TestSteps: where sums are told by steps, what is said of a chance holds the true one, and what is
// said of a sum is off by no more than it says and on the side that keeps the chance. What is
// most likely is told to the cent.
func TestSteps(t *testing.T) {
	rng, wide, ctx := rand.New(rand.NewPCG(3, 5)), 0, context.Background()
	for n := range 200 {
		s := spreadOut(randomParts(rng), catalog.Cents(rng.IntN(1000)))
		exact, steps := s.convolve(ctx, 1, 1<<20), s.convolve(ctx, 60, 60)
		if all := total(exact.low); exact.Off != 0 || math.Abs(all-1) > 1e-9 || math.Abs(total(steps.low)-all) > 1e-9 {
			t.Fatalf("%d: off by %d, chances add up to %v and %v", n, exact.Off, all, total(steps.low))
		}
		if steps.Step > 1 {
			wide++
		}
		for _, a := range exact.low {
			for _, v := range []catalog.Cents{a.cents - 1, a.cents} {
				e, b := exact.Within(v), steps.Within(v)
				m, c := exact.AtLeast(v), steps.AtLeast(v)
				if b.Least > e.Least+1e-9 || b.Most < e.Most-1e-9 || c.Least > m.Least+1e-9 || c.Most < m.Most-1e-9 {
					t.Fatalf("%d: within %d %v, told %v; that or more %v, told %v", n, v, e, b, m, c)
				}
			}
		}
		for q := 0.05; q < 1; q += 0.1 {
			up, down := steps.Quantile(q)-exact.Quantile(q), exact.Reached(q)-steps.Reached(q)
			if up < 0 || down < 0 || max(up, down) > steps.Off {
				t.Fatalf("%d: at %v off by %d and %d, said to be by %d at most", n, q, up, down, steps.Off)
			}
		}
		for _, sums := range [][]atom{steps.low, steps.high} {
			i := above(sums, s.likely-1)
			if i == len(sums) || sums[i].cents != s.likely || sums[i].chance < s.gone()-1e-12 {
				t.Fatalf("%d: the likeliest sum %d is not among those told", n, s.likely)
			}
		}
	}
	if wide < 50 {
		t.Errorf("only %d told by steps", wide)
	}
}

func total(sums []atom) (sum float64) {
	for _, a := range sums {
		sum += a.chance
	}
	return sum
}

// gone is the chance that every part is what it is most likely to be.
func (s *summing) gone() float64 {
	chance := 1.0
	for _, part := range s.parts {
		most := 0.0
		for _, a := range part {
			most = max(most, a.chance)
		}
		chance *= most
	}
	return chance
}

func randomParts(rng *rand.Rand) [][]atom {
	parts := make([][]atom, 1+rng.IntN(6))
	for i := range parts {
		left := 1.0
		for range 1 + rng.IntN(3) {
			c := left * rng.Float64()
			left -= c
			parts[i] = append(parts[i], atom{c, catalog.Cents(rng.IntN(500) - 100)})
		}
		parts[i] = append(parts[i], atom{left, catalog.Cents(500 + rng.IntN(3000))})
	}
	return parts
}

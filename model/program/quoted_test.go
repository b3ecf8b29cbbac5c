package program

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestQuoteKept: a plan with a budget on what the owner pays never quotes him more, and it
// is the cheapest whose quote is no more. With the budget at its quote the plan stays; a
// cent below, it is another, if there is one, and no cheaper.
func TestQuoteKept(t *testing.T) {
	seen := map[string]int{}
	for seed := range int64(campaign.Cases(320, 4000)) {
		slots := 1 + int(seed%3)
		if seed%16 == 14 { // may take a thousand times as long
			slots = 4
		}
		st := jobs.Random(seed, slots, jobs.Options{On: []string{"budget-quote", "maker", "vendor"},
			Off: []string{"budget-outlay", "budget-expected"}})
		if seed%2 == 1 { // a piece broke on which money was spent
			gone := st.Pieces[0]
			gone.ID, gone.Stage = gone.ID+"-gone", catalog.StageBroken
			st.Job.Spent = []catalog.Spent{{Cents: 30_00, Piece: len(st.Pieces)}}
			st.Pieces, st.Job.SpentSum = append(st.Pieces, gone), st.Job.SpentSum+30_00
		}
		pl := keepsQuote(t, seed, st)
		if pl == nil {
			seen["none"]++
			continue
		}
		seen["plan"]++
		if pl.ForOwner().Tax > 0 && st.Quote.Unit() > 1 {
			seen["marked and taxed"]++
		}
		exact := st.Clone()
		exact.Job.Budget.V = pl.ForOwner().Total - st.Job.SpentSum
		if same := keepsQuote(t, seed, exact); same == nil || same.Weighed() != pl.Weighed() {
			t.Errorf("seed %d: with just what is quoted there is another plan", seed)
		}
		exact.Job.Budget.V--
		switch less := keepsQuote(t, seed, exact); {
		case less == nil:
			seen["nothing a cent below"]++
		case plan.Fingerprint(less) == plan.Fingerprint(pl) || less.Weighed() < pl.Weighed():
			t.Errorf("seed %d: a cent below the quote the plan is the same, or cheaper", seed)
		default:
			seen["another a cent below"]++
		}
	}
	for _, what := range []string{"none", "plan", "marked and taxed", "nothing a cent below", "another a cent below"} {
		if seen[what] < campaign.Cases(4, 4) {
			t.Errorf("only %d jobs: %s", seen[what], what)
		}
	}
}

// TestQuoteDoubled: with markups of the whole, which need no parts of a cent, charges bear
// theirs too.
func TestQuoteDoubled(t *testing.T) {
	charged := 0
	for seed := range int64(campaign.Cases(120, 1000)) {
		st := jobs.Random(seed, 1+int(seed%3), jobs.Options{On: []string{"budget-quote", "freight", "vendor"},
			Off: []string{"budget-outlay", "budget-expected"}})
		st.Quote.Plating, st.Quote.Parts = catalog.One, catalog.Micro(seed%2)*catalog.One
		pl := keepsQuote(t, seed, st)
		if pl == nil || len(pl.Charges) == 0 {
			continue
		}
		charged++
		st.Job.Budget.V = pl.ForOwner().Total - st.Job.SpentSum - 1
		if less := keepsQuote(t, seed, st); less != nil && less.Weighed() < pl.Weighed() {
			t.Errorf("seed %d: a cent below the quote the plan is cheaper", seed)
		}
	}
	if charged < campaign.Cases(10, 10) {
		t.Errorf("only %d plans with charges", charged)
	}
}

// TestQuoteOfWhatIsSpent: what is spent bears the markup that it says, and a piece that has been
// sent was packed.
func TestQuoteOfWhatIsSpent(t *testing.T) {
	plans, packed := 0, 0
	for seed := range int64(campaign.Cases(120, 1000)) {
		st := jobs.StagedState(seed, 1+int(seed%3))
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		st.Quote, st.Job.Spent, st.Job.SpentSum = jobs.OwnerQuote(r), nil, 5_00
		for i := range 4 {
			one := catalog.Spent{Cents: jobs.Between[catalog.Cents](r, -20_00, 60_00), Bears: catalog.Bears(i % 3),
				Piece: r.IntN(1+len(st.Pieces)) - 1}
			st.Job.Spent, st.Job.SpentSum = append(st.Job.Spent, one), st.Job.SpentSum+one.Cents
		}
		st.Job.Budget, st.Job.BudgetOn = jobs.Set(jobs.Between[catalog.Cents](r, 200_00, 900_00)), catalog.OnQuote
		pl := keepsQuote(t, seed, st)
		if pl == nil {
			continue
		}
		plans++
		for _, l := range pl.Lines {
			if !l.Choice.Plated() && pl.PieceOf(l.Choice).Sent.Was && st.Quote.Labour(true) > st.Quote.Labour(false) {
				packed++
			}
		}
		st.Job.Budget.V = pl.ForOwner().Total - st.Job.SpentSum // all three add up to the cent
		if same := keepsQuote(t, seed, st); same == nil || same.Weighed() != pl.Weighed() {
			t.Errorf("seed %d: with just what is quoted there is another plan", seed)
		}
	}
	if plans < 10 || packed < 3 {
		t.Errorf("only %d plans, %d with what is back and was packed", plans, packed)
	}
}

// TestQuoteFarOff: a budget, or what is spent, that is too much to be told in parts of a cent
// doesn't bind, or leaves nothing.
func TestQuoteFarOff(t *testing.T) {
	off := []string{"budget-outlay", "budget-expected", "mean", "days", "completion", "lock", "floor"}
	st := jobs.Random(3, 2, jobs.Options{On: []string{"budget-quote"}, Off: off})
	st.Quote.Plating = 123_457
	st.Job.Budget.V, st.Job.SpentSum = catalog.MaxMoney, 0
	if keepsQuote(t, 3, st) == nil {
		t.Error("no plan keeps a budget that is far too large")
	}
	st.Job.Budget.V, st.Job.SpentSum = -catalog.MaxMoney, catalog.MaxMoney
	if keepsQuote(t, 3, st) != nil {
		t.Error("a plan keeps a budget that is far overspent")
	}
}

// keepsQuote finds the cheapest plan; nil where there is none. It is what trying everything
// gives.
func keepsQuote(t *testing.T, seed int64, st *catalog.State) *plan.Plan {
	t.Helper()
	pl, err := Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	least, feasible, _ := adapter.Cheapest(st)
	if pl.Has != feasible || feasible && int64(pl.Weighed()) != least {
		t.Fatalf("seed %d: %d, %t; by trying everything %d, %t", seed, pl.Weighed(), pl.Has, least, feasible)
	}
	if !pl.Has {
		return nil
	}
	if left := pl.BudgetLeft(); left < 0 || left != st.Job.Budget.V+st.Job.SpentSum-pl.ForOwner().Total {
		t.Errorf("seed %d: quoted %d, the budget is %d", seed, pl.ForOwner().Total, st.Job.Budget.V+st.Job.SpentSum)
	}
	return pl
}

// TestUnmarked: the highest sum that a markup or a tax leaves within another.
func TestUnmarked(t *testing.T) {
	for share := range catalog.Micro(40) {
		share *= 12_345
		for sum := range catalog.Cents(300) {
			least := plan.Unmarked(share, sum)
			if plan.Marked(least, share) > sum || plan.Marked(least+1, share) <= sum {
				t.Fatalf("%d before %d millionths give %d", sum, share, least)
			}
		}
	}
	if plan.Unmarked(70_000, -5) != -5 {
		t.Error("what is owed back is not taxed")
	}
}

package paper_test

import (
	"context"
	"fmt"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/joint"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestAccounts: of random jobs of one shop that are planned together, the shares of every sum
// add up over the jobs to the cent, and all that is sent and bought for them comes to what is
// charged, once. A lot that one job has for itself is on nobody's account.
func TestAccounts(t *testing.T) {
	seen := map[string]int{}
	for seed := range uint64(campaign.Cases(96, 400)) {
		f := seeded.Family{Name: "few", Slots: 4, Pieces: 2, Platers: 2, Vendors: 1, Bundles: 2, Matches: 1, Quotes: 0.3,
			Offered: 0.4, Floor: 60, Lasting: true}
		all := jobs.Shop(f, 2+int(seed%2), 6, seed)
		for _, st := range all {
			for q := range st.Platers {
				st.Platers[q].Minimum = catalog.Cents(seed%3) * 900_00
			}
		}
		out, err := joint.Solve(context.Background(), all, solver.Settings{Gap: 0.02})
		if err != nil {
			t.Fatal(err)
		}
		if !out.Has {
			continue
		}
		var plans []*plan.Plan
		for j := range out.Jobs {
			plans = append(plans, out.Jobs[j].Plan)
		}
		accountsAddUp(t, out, seen)
		lots := chargedOnce(t, out, plans)
		for j := range out.Jobs {
			sharesKept(t, out, j, lots)
		}
	}
	for _, what := range []string{"work", string(plan.ChargePlaterFreight), string(plan.ChargeMinimum),
		string(plan.ChargeVendorFreight), string(plan.ChargeBundle)} {
		if seen[what] < 3 {
			t.Errorf("only %d rows of %s; seen %v", seen[what], what, seen)
		}
	}
}

// accountsAddUp adds the accounts up by row and in all.
func accountsAddUp(t *testing.T, out *plan.Joint, seen map[string]int) {
	t.Helper()
	whole, shares, has := map[string]catalog.Cents{}, map[string]catalog.Cents{}, map[string]int{}
	evened := catalog.Cents(0)
	for j := range out.Jobs {
		a := paper.AccountOf(out, j)
		evened += a.Evened
		sum, alone := a.Evened, catalog.Cents(0)
		for _, r := range a.Rows {
			key := string(r.Kind) + " " + r.ID
			whole[key], shares[key] = r.Whole, shares[key]+r.Share
			has[key]++
			sum, alone = sum+r.Share, alone+r.Single
			if r.Jobs < 2 || r.Share < 0 || r.Share > r.Single {
				t.Errorf("job %d: %+v", j+1, r)
			}
			if r.Kind == "" {
				seen["work"]++
			}
			seen[string(r.Kind)]++
		}
		if sum != a.Total || alone != a.Alone {
			t.Errorf("job %d: its account comes to %d, not %d, by itself to %d, not %d", j+1, sum, a.Total, alone, a.Alone)
		}
		if owed := paper.Owed(out, j); owed.Outlay != ownCash(owed) {
			t.Errorf("job %d: owes %d, its lines and charges come to %d", j+1, owed.Outlay, ownCash(owed))
		}
	}
	for key, sum := range whole {
		if shares[key] != sum || has[key] < 2 {
			t.Errorf("%s: shares of %d jobs come to %d, the whole is %d", key, has[key], shares[key], sum)
		}
	}
	if evened != 0 {
		t.Errorf("what is evened out leaves %d", evened)
	}
}

// ownCash adds a plan up.
func ownCash(p *plan.Plan) catalog.Cents {
	sum := catalog.Cents(0)
	for i := range p.Lines {
		sum += p.Lines[i].Choice.Cash
	}
	for _, c := range p.Charges {
		sum += c.Cents
	}
	return sum
}

// chargedOnce compares what lots and purchases cost with the charges, and gives how many jobs
// have pieces in each lot.
func chargedOnce(t *testing.T, out *plan.Joint, plans []*plan.Plan) map[string]int {
	t.Helper()
	parts := map[string]int{}
	sum, charges := catalog.Cents(0), catalog.Cents(0)
	for _, lot := range paper.CommonLots(plans, make([][]paper.Held, len(plans))) {
		work := catalog.Cents(0)
		for _, part := range lot.Parts {
			for _, i := range part.Lines {
				work += plans[part.Job].Lines[i].Choice.Plate
			}
		}
		q := &plans[lot.Parts[0].Job].Of.Platers[lot.Parts[0].Plater]
		if lot.Whole.Work != work || lot.Whole.Total != max(work, q.Minimum)+q.Freight {
			t.Errorf("lot to %s: work %d in all %d, not %d and %d", q.ID, lot.Whole.Work, lot.Whole.Total, work,
				max(work, q.Minimum)+q.Freight)
		}
		sum += lot.Whole.Total - work
		parts[q.ID] = len(lot.Parts)
	}
	for _, buy := range paper.CommonPurchases(plans) {
		pieces := catalog.Cents(0)
		for _, part := range buy.Parts {
			for _, i := range part.Lines {
				pieces += plans[part.Job].Lines[i].Choice.Get
			}
		}
		sum += buy.Total - pieces
	}
	for _, c := range out.Charges {
		charges += c.Cents
	}
	if sum != charges {
		t.Errorf("lots and purchases come to %d on top of work and pieces, the charges to %d", sum, charges)
	}
	return parts
}

// sharesKept: what is kept of a lot for a job is what the charges have it pay, and nothing is
// kept of a lot of its own.
func sharesKept(t *testing.T, out *plan.Joint, job int, lots map[string]int) {
	t.Helper()
	want := map[string]catalog.Cents{}
	for _, c := range out.Charges {
		want[fmt.Sprint(c.Kind, c.ID)] += c.Shares[job]
	}
	kinds := map[catalog.ShareKind]plan.ChargeKind{catalog.ShareFreight: plan.ChargePlaterFreight,
		catalog.ShareLeast: plan.ChargeMinimum, catalog.ShareBundle: plan.ChargeBundle}
	for _, s := range paper.KeptShares(out, job) {
		if s.Cents != want[fmt.Sprint(kinds[s.Kind], s.Of)] || s.Kind != catalog.ShareBundle && lots[s.Of] < 2 {
			t.Errorf("job %d keeps %+v", job+1, s)
		}
	}
}

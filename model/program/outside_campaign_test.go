package program_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/model/internal/outside"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// outsideState is one job of the campaign against another solver.
func outsideState(seed int64) *catalog.State {
	switch seed % 3 {
	case 0:
		return jobs.FewConcerned(seed)
	case 1:
		return jobs.Random(seed, 1+int(seed/3%7), jobs.Options{})
	}
	st := program.SizedState(seed, 1+int(seed/3%6))
	for _, m := range jobs.AllMoney(st) { // a float has to hold the total and what it is compared with
		*m %= 100_000_00
	}
	return st
}

// TestOutsideCampaign gives another solver small programs with all lines, before any
// dominance, with figures of all sizes. It works with tolerances: a coefficient of ten
// million lets it break a row by ten. Where it differs, trying everything decides.
func TestOutsideCampaign(t *testing.T) {
	outside.Tool(t, "cbc", "coinor-cbc")
	jobs, found, off := campaign.Cases(24, 3000), 0, 0
	dir := t.TempDir()
	for seed := range int64(jobs) {
		st := outsideState(seed)
		plan, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if plan.Has {
			found++
		}
		p := program.BuildAll(st)
		if someEmpty(p.Problem) { // no program: a slot that nothing can fill
			if plan.Has {
				t.Errorf("seed %d: a plan, though nothing fills a slot", seed)
			}
			continue
		}
		mps := filepath.Join(dir, fmt.Sprintf("job-%d.mps", seed))
		outside.WriteAll(t, p, mps)
		want, has := outside.Cbc(t, mps)
		os.Remove(mps)
		os.Remove(mps + ".cbc")
		if has == plan.Has && (!has || want == float64(plan.Weighed())) {
			continue
		}
		all := oracle.NewSearch(st).Run()
		if all.Has != plan.Has || all.Has && all.Total != plan.Weighed() {
			t.Errorf("seed %d: %s %d; cbc %v %v, by trying everything %d %v", seed, plan.Status, plan.Weighed(), want,
				has, all.Total, all.Has)
		}
		off++
		t.Logf("seed %d: %s %d, which trying everything confirms; cbc %v %v", seed, plan.Status, plan.Weighed(), want,
			has)
	}
	t.Logf("%d programs, %d with a plan; cbc is off in %d", jobs, found, off)
	if found < jobs/3 || off > jobs/50+1 {
		t.Errorf("of %d programs %d have a plan, and cbc is off in %d: too few to tell", jobs, found, off)
	}
}

func someEmpty(p *solver.Problem) bool {
	for i := range p.Groups {
		if len(p.Groups[i].Columns) == 0 {
			return true
		}
	}
	return false
}

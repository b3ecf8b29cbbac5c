package risk

import (
	"math"
	"testing"

	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
)

// TestOutcomesOfStages: in the middle of a job the ways a line may turn out come to what
// it is expected to cost, and to days that have yet to come.
func TestOutcomesOfStages(t *testing.T) {
	looked := 0
	for seed := range int64(200) {
		st := jobs.StagedState(seed, 3)
		plan := solved.Cheapest(t, st)
		for i := range plan.Lines {
			l := &plan.Lines[i]
			mean, chance := 0.0, 0.0
			for _, o := range Outcomes(st, l) {
				mean, chance = mean+o.Chance*float64(o.Cents), chance+o.Chance
				// a rescue after the fallback is no part of the plan
				late := o.Days > choice.DaysAtLatest(st, l) && !(o.Rescue && l.Fallback != nil)
				if o.Days != 0 && o.Days <= st.Job.Elapsed || late {
					t.Errorf("seed %d: on day %d, now it is %d, and all is settled on %d", seed, o.Days, st.Job.Elapsed,
						choice.DaysAtLatest(st, l))
				}
			}
			if looked++; math.Abs(mean-float64(l.Expected)) > 4 || math.Abs(chance-1) > 1e-9 {
				t.Errorf("seed %d: %.1f on average with a chance of %g, expected %d", seed, mean, chance, l.Expected)
			}
		}
	}
	if looked < 150 {
		t.Errorf("only %d lines looked at", looked)
	}
}

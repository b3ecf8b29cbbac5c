package adapter

import (
	"fmt"
	"reflect"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// BruteLogPlan shows what a plan does, to find out where two of them part.
func BruteLogPlan(t *testing.T, name string, st *catalog.State, p *plan.Plan) {
	t.Helper()
	for _, l := range p.Lines {
		t.Logf("%s: %s: %s", name, st.Slots[l.Slot].ID, jobs.RandomChoiceText(st, l.Choice))
		if l.Fallback != nil {
			t.Logf("%s:     or %s", name, jobs.RandomChoiceText(st, l.Fallback))
		}
	}
	t.Logf("%s: charges %v, expected %d, outlay %d", name, p.Charges, p.Expected, p.Outlay)
}

func CompareChoices(t *testing.T, st *catalog.State) {
	t.Helper()
	made := choice.Choices(st)
	for s := range st.Slots {
		left := map[string]*plan.Choice{}
		for i := range made[s] {
			left[bruteChoiceKey(&made[s][i])] = &made[s][i]
		}
		for _, want := range BruteChoices(st, s) {
			got := left[bruteChoiceKey(want)]
			if got == nil {
				t.Errorf("slot %d: no choice %s", s, jobs.RandomChoiceText(st, want))
				continue
			}
			delete(left, bruteChoiceKey(want))
			if has := fromOracle(toOracle(got)); !reflect.DeepEqual(has, want) { // without what is for the reader alone
				t.Errorf("slot %d: %s\nhas %+v\nwant %+v", s, jobs.RandomChoiceText(st, want), *has, *want)
			}
		}
		for _, extra := range left {
			t.Errorf("slot %d: no such choice as %s", s, jobs.RandomChoiceText(st, extra))
		}
	}
}

func bruteChoiceKey(c *plan.Choice) string {
	return fmt.Sprintf("%d %s %d %q %d", c.Piece, c.Work, c.Plater, c.Level, c.Quote)
}

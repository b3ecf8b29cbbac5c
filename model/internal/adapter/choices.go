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

// LogPlan shows what a plan does, to find out where two of them part.
func LogPlan(t *testing.T, name string, st *catalog.State, p *plan.Plan) {
	t.Helper()
	for _, l := range p.Lines {
		t.Logf("%s: %s: %s", name, st.Slots[l.Slot].ID, jobs.ChoiceText(st, l.Choice))
		if l.Fallback != nil {
			t.Logf("%s:     or %s", name, jobs.ChoiceText(st, l.Fallback))
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
			left[choiceKey(&made[s][i])] = &made[s][i]
		}
		for _, want := range Choices(st, s) {
			got := left[choiceKey(want)]
			if got == nil {
				t.Errorf("slot %d: no choice %s", s, jobs.ChoiceText(st, want))
				continue
			}
			delete(left, choiceKey(want))
			if has := fromOracle(toOracle(got)); !reflect.DeepEqual(has, want) { // without what is for the reader alone
				t.Errorf("slot %d: %s\nhas %+v\nwant %+v", s, jobs.ChoiceText(st, want), *has, *want)
			}
		}
		for _, extra := range left {
			t.Errorf("slot %d: no such choice as %s", s, jobs.ChoiceText(st, extra))
		}
	}
}

func choiceKey(c *plan.Choice) string {
	return fmt.Sprintf("%d %s %d %q %d", c.Piece, c.Work, c.Plater, c.Level, c.Quote)
}

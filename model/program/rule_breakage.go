package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// breakageRule: b(k) <= max_breakage. A piece that can't be had again is not
// put at more risk than the slot allows. Fallbacks are not bound by it.
func breakageRule(st *catalog.State, c *plan.Choice, role Role) string {
	most := st.Slots[c.Slot].MaxBreakage
	if role == Reserve || !most.Set || c.Breakage <= most.V {
		return ""
	}
	return fmt.Sprintf("breakage %s is above the most allowed, %s", plan.Percent(c.Breakage), plan.Percent(most.V))
}

package model

import (
	"fmt"

	"brightset/catalog"
)

// breakageRule: b(k) <= max_breakage. A piece that can't be had again is not
// put at more risk than the slot allows. Fallbacks are not bound by it.
func breakageRule(st *catalog.State, c *Choice, role Role) string {
	most := st.Slots[c.Slot].MaxBreakage
	if role == Reserve || !most.Set || c.Breakage <= most.V {
		return ""
	}
	return fmt.Sprintf("breakage %s is above the most allowed, %s", percent(c.Breakage), percent(most.V))
}

package program

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// lastingRule: where the target says lasting, k leaves no fault that goes on
// growing; nor does f, unless fallbacks have a floor of their own.
func lastingRule(st *catalog.State, c *plan.Choice, role Role) string {
	if !st.Slots[c.Slot].Target.Lasting.Or(false) || !c.Growing || lenient(st, c, role) {
		return ""
	}
	return "it leaves a fault that goes on growing, and the target asks for work that lasts"
}

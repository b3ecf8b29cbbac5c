package program

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// freshRule: where the target says fresh, k is freshly finished; so is f, unless
// fallbacks have a floor of their own.
func freshRule(st *catalog.State, c *plan.Choice, role Role) string {
	if !st.Slots[c.Slot].Target.Fresh.Or(false) || c.Fresh || lenient(st, c, role) {
		return ""
	}
	return "it is not freshly finished, and the target asks for that"
}

package program

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// redoneRule: where the target says redone, k is refinished for the object: plated, or
// plated already and back. What its maker finished, however fresh, is not. So is f, unless
// fallbacks have a floor of their own. That it is done in few lots is left to what lots
// cost: each pays its freight and its minimum; a plan with more than one says so.
func redoneRule(st *catalog.State, c *plan.Choice, role Role) string {
	if !st.Slots[c.Slot].Target.Redone.Or(false) || c.Redone || lenient(st, c, role) {
		return ""
	}
	return "it is not refinished, and the target asks for that of every piece"
}

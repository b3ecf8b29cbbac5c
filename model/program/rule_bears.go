package program

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// bearsRule: where a hand or a load hangs on the slot, neither k nor f is a piece that
// bears less than when it was new, whatever its grade and however it is mended. No floor
// for fallbacks suspends it. What hangs there already is a fact; the plan warns of it.
func bearsRule(st *catalog.State, c *plan.Choice, _ Role) string {
	if !st.Slots[c.Slot].Bears || !c.Weak || st.HungIn(c.Slot) == c.Piece {
		return ""
	}
	return "a hand or a load hangs there, and it is cracked, thinned, eaten or mended: ask somebody qualified"
}

package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// floorRule: grade(k) >= floor; grade(f) >= fallback_floor, which is the floor
// where none is given. No piece hangs that is below the finish asked for.
func floorRule(st *catalog.State, c *plan.Choice, role Role) string {
	t := &st.Slots[c.Slot].Target
	floor, word := t.Floor, "floor"
	if lenient(st, c, role) {
		floor, word = t.FallbackFloor, "fallback floor"
	}
	if !floor.Set || c.Grade >= floor.V {
		return ""
	}
	return fmt.Sprintf("grade %s is below the %s of %s", plan.Centi(c.Grade), word, plan.Centi(floor.V))
}

// freshRule: where the target says fresh, k is freshly finished; so is f, unless
// fallbacks have a floor of their own.
func freshRule(st *catalog.State, c *plan.Choice, role Role) string {
	if !st.Slots[c.Slot].Target.Fresh.Or(false) || c.Fresh || lenient(st, c, role) {
		return ""
	}
	return "it is not freshly finished, and the target asks for that"
}

// lastingRule: where the target says lasting, k leaves no fault that goes on
// growing; nor does f, unless fallbacks have a floor of their own.
func lastingRule(st *catalog.State, c *plan.Choice, role Role) string {
	if !st.Slots[c.Slot].Target.Lasting.Or(false) || !c.Growing || lenient(st, c, role) {
		return ""
	}
	return "it leaves a fault that goes on growing, and the target asks for work that lasts"
}

// lenient says whether the slot sets its fallbacks a floor of their own; the
// other demands on finish then don't bind them.
func lenient(st *catalog.State, c *plan.Choice, role Role) bool {
	return role == Reserve && st.Slots[c.Slot].Target.FallbackFloor.Set
}

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

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

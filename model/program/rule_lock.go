package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// lockRule: k of a locked slot is as the lock says, or what came of that: a lock on
// plating a piece is kept by the piece that is back. Fallbacks are not bound.
func lockRule(st *catalog.State, c *plan.Choice, role Role) string {
	if role == Reserve {
		return ""
	}
	for i := range st.Locks {
		l := &st.Locks[i]
		if done := choice.AsDone(st, c, l.Work); l.Slot != c.Slot || Matches(&l.Filter, c) ||
			Matches(&l.Filter, &done) {
			continue
		}
		if l.Reason != "" {
			return fmt.Sprintf("slot %q is locked: %s", st.Slots[c.Slot].ID, l.Reason)
		}
		return fmt.Sprintf("slot %q is locked on something else", st.Slots[c.Slot].ID)
	}
	return ""
}

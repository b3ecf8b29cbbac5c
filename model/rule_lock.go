package model

import (
	"fmt"

	"brightset/catalog"
)

// lockRule: k of a locked slot is as the lock says. Fallbacks are not bound.
func lockRule(st *catalog.State, c *Choice, role Role) string {
	if role == Reserve {
		return ""
	}
	for i := range st.Locks {
		l := &st.Locks[i]
		if l.Slot != c.Slot || Matches(&l.Filter, c) {
			continue
		}
		if l.Reason != "" {
			return fmt.Sprintf("slot %q is locked: %s", st.Slots[c.Slot].ID, l.Reason)
		}
		return fmt.Sprintf("slot %q is locked on something else", st.Slots[c.Slot].ID)
	}
	return ""
}

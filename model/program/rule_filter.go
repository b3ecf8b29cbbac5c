package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// banRule: a ban forbids the choices it names, as k and as f.
func banRule(st *catalog.State, c *plan.Choice, _ Role) string {
	for i := range st.Bans {
		b := &st.Bans[i]
		if !Matches(&b.Filter, c) {
			continue
		}
		if b.Reason != "" {
			return fmt.Sprintf("ban %q: %s", b.ID, b.Reason)
		}
		return fmt.Sprintf("ban %q", b.ID)
	}
	return ""
}

// Matches says whether a filter takes a choice. A field left empty takes all.
func Matches(f *catalog.Filter, c *plan.Choice) bool {
	return (f.Slot == catalog.None || f.Slot == c.Slot) &&
		(f.Piece == catalog.None || f.Piece == c.Piece) &&
		(f.Work == "" || f.Work == c.Work) &&
		(f.Plater == catalog.None || f.Plater == c.Plater) &&
		(f.Level == "" || f.Level == c.Level)
}

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
			return fmt.Sprintf("%s is locked: %s", st.Slots[c.Slot].Name, l.Reason)
		}
		return fmt.Sprintf("%s is locked on something else", st.Slots[c.Slot].Name)
	}
	return ""
}

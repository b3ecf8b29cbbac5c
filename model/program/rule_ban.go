package program

import (
	"fmt"

	"brightset/catalog"
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

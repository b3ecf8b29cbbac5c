package report

import (
	"testing"

	"brightset/catalog"
)

// TestDefectGroups: a fault stands where it is looked for, which need not be what it is a fault of: a dent is out of
// shape, and a piece may hang with it.
func TestDefectGroups(t *testing.T) {
	st := &catalog.State{Tables: catalog.BuiltIn()}
	where, n := map[string]string{}, 0
	for _, g := range DefectGroups(st) {
		for _, d := range g.All {
			where[d.Name] = g.Name
			n++
		}
	}
	if n != len(st.Tables.Defects) || len(where) != n {
		t.Errorf("%d faults in groups, %d of them different, of %d", n, len(where), len(st.Tables.Defects))
	}
	for name, want := range map[string]string{"dent": "Out of shape", "bend": "Out of shape", "pits": "On the surface",
		"missing post": "Missing, broken or weak", "extra hole": "Missing, broken or weak"} {
		if where[name] != want {
			t.Errorf("%s stands under %q, not %q", name, where[name], want)
		}
	}
}

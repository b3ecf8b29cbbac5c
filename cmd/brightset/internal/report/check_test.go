package report

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
)

// jobOf is a job of so many slots with five pieces each.
func jobOf(t *testing.T, slots int) *catalog.State {
	t.Helper()
	var b strings.Builder
	b.WriteString("[job]\ntitle = \"growth\"\n")
	for s := range slots {
		fmt.Fprintf(&b, "[slot.s%d]\n", s)
	}
	for s := range slots {
		for p := range 5 {
			fmt.Fprintf(&b, "[piece.s%d-p%d]\nfits = [\"s%d\"]\nkind = \"original\"\nmetal = \"steel\"\ngrade = %d\n", s, p, s,
				50+p)
		}
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	st, err := catalog.Load(path, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// A piece is looked at for the slots it fits: twice the slots with their pieces are twice
// the work, not four times.
func TestCheckGrowsWithThePieces(t *testing.T) {
	work := func(slots int) float64 {
		st := jobOf(t, slots)
		choices, outs := choice.Choices(st), choice.Exclusions(st)
		return testing.AllocsPerRun(1, func() { Check(st, choices, outs, -1) })
	}
	if few, many := work(40), work(80); many > 2.3*few {
		t.Errorf("%.0f pieces of memory for 40 slots, %.0f for 80", few, many)
	}
}

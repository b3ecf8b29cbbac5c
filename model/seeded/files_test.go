package seeded_test

import (
	"context"
	"path/filepath"
	"testing"

	"brightset/catalog"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
)

// TestFiles: what is written loads without a warning, and has the same least total.
func TestFiles(t *testing.T) {
	for seed := range uint64(12) {
		f := seeded.Family{Name: "written", Slots: 8, Pieces: 5, Platers: 3, Vendors: 3, Bundles: 2, Trades: 6, Matches: 2,
			Quotes: 0.4, Leads: 0.2, Completion: 0.8, Mean: 80, Floor: 60, Lasting: seed%2 == 0, Days: int(seed) * 50,
			Owned: 0.5, Budget: float64(seed%3) * 0.4}
		st := seeded.Job(f, seed)
		folder := t.TempDir()
		if err := seeded.WriteFiles(st, folder); err != nil {
			t.Fatal(err)
		}
		read, err := catalog.Load(filepath.Join(folder, "job.toml"), catalog.Options{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if len(read.Trades) != len(st.Trades) || len(read.Pieces) != len(st.Pieces) || len(read.Matches) != len(st.Matches) {
			t.Errorf("seed %d: something is missing in what was read", seed)
		}
		want, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		got, err := program.Solve(context.Background(), read, solver.Settings{})
		if err != nil || got.Status != want.Status || got.Expected != want.Expected || got.Outlay != want.Outlay {
			t.Errorf("seed %d: read %v at %d, made %v at %d (%v)", seed, got.Status, got.Expected,
				want.Status, want.Expected, err)
		}
	}
}

package choice

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// Whose finish a piece has as it lies, and whether it is a fresh one. What a plater does is
// both fresh and refinished.
func TestFreshAndRedone(t *testing.T) {
	haze := []catalog.Finding{{Defect: jobs.Haze, Extent: 10_000, Count: 1, Where: catalog.Back}}
	said := func(fresh bool) catalog.Val[bool] { return jobs.Given(fresh) }
	tests := []struct {
		name          string
		change        func(p *catalog.Piece)
		fresh, redone bool
	}{
		{"a used piece", func(p *catalog.Piece) {}, false, false},
		{"a used piece that is called fresh", func(p *catalog.Piece) { p.Fresh = said(true) }, true, true},
		{"unused stock", func(p *catalog.Piece) { p.Kind = catalog.OldStock }, true, false},
		{"unused stock with a fault on the back", func(p *catalog.Piece) { p.Kind, p.Findings = catalog.OldStock, haze },
			false, false},
		{"unused stock that is called not fresh", func(p *catalog.Piece) { p.Kind, p.Fresh = catalog.OldStock, said(false) },
			false, false},
		{"unused stock with a fault, called fresh", func(p *catalog.Piece) {
			p.Kind, p.Findings, p.Fresh = catalog.OldStock, haze, said(true)
		}, true, false},
		{"a reproduction", func(p *catalog.Piece) { p.Kind = catalog.Reproduction }, true, false},
		{"a reproduction with a fault", func(p *catalog.Piece) { p.Kind, p.Findings = catalog.Reproduction, haze },
			true, false},
		{"back from a plater", func(p *catalog.Piece) {
			p.Stage, p.Sent.Was, p.Fresh = catalog.StageBack, true, said(true)
		}, true, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			st.Pieces[jobs.Other].Findings = nil
			tt.change(&st.Pieces[jobs.Other])
			all := ChoicesFor(st, jobs.Left)
			c := jobs.Pick(all, jobs.Other, catalog.WorkAsIs, catalog.None, "")
			if c.Fresh != tt.fresh || c.Redone != tt.redone {
				t.Errorf("fresh %v, redone %v, want %v, %v", c.Fresh, c.Redone, tt.fresh, tt.redone)
			}
			if d := jobs.Pick(all, jobs.Other, catalog.WorkReplate, jobs.North, "show"); !d.Fresh || !d.Redone {
				t.Errorf("plated: fresh %v, redone %v", d.Fresh, d.Redone)
			}
		})
	}
}

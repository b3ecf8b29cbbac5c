package choice

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// A piece that looks well and is twisted, cracked or without its post. Bent is mended by
// straightening (work 1), light pits by nothing.
func TestSoundness(t *testing.T) {
	bent := catalog.Finding{ID: "a", Defect: jobs.Bent, Severity: catalog.Moderate, Extent: catalog.One, Count: 1,
		Where: catalog.Back}
	said := func(harmless bool) catalog.Val[bool] { return jobs.Given(harmless) }
	tests := []struct {
		name        string
		of          catalog.Soundness
		change      func(st *catalog.State, f *catalog.Finding)
		hangs       bool // as it is
		weak, after bool // as it lies, and mended at the plater's
	}{
		{"of finish", catalog.OfFinish, nil, true, false, false},
		{"of shape", catalog.OfShape, nil, false, false, false},
		{"of fastening", catalog.OfFastening, nil, false, false, false},
		{"of shape, harmless", catalog.OfShape, func(_ *catalog.State, f *catalog.Finding) {
			f.Harmless = said(true)
		}, true, false, false},
		{"of shape, harmless by the table", catalog.OfShape, func(st *catalog.State, _ *catalog.Finding) {
			st.Tables.Defects[jobs.Bent].By[catalog.Moderate].Harmless = said(true)
		}, true, false, false},
		{"of shape, not harmless here", catalog.OfShape, func(st *catalog.State, f *catalog.Finding) {
			st.Tables.Defects[jobs.Bent].By[catalog.Moderate].Harmless, f.Harmless = said(true), said(false)
		}, false, false, false},
		{"of shape, straightened already", catalog.OfShape, func(st *catalog.State, f *catalog.Finding) {
			f.Done = st.Tables.Defects[jobs.Bent].By[catalog.Moderate].Works
		}, true, false, false},
		{"of strength", catalog.OfStrength, nil, false, true, true},
		{"of strength, harmless", catalog.OfStrength, func(_ *catalog.State, f *catalog.Finding) {
			f.Harmless = said(true)
		}, true, true, true},
		{"of strength, restored", catalog.OfStrength, func(st *catalog.State, f *catalog.Finding) {
			f.Harmless = said(true)
			for _, w := range st.Tables.Defects[jobs.Bent].By[catalog.Moderate].Works {
				st.Tables.Works[w].Restores = said(true)
			}
		}, true, true, false},
		{"of finish, mended once", catalog.OfFinish, func(st *catalog.State, _ *catalog.Finding) {
			st.Pieces[jobs.Other].Weak = true
		}, true, true, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			p := &st.Pieces[jobs.Other]
			p.Findings = []catalog.Finding{bent}
			st.Tables.Defects[jobs.Bent].Soundness = tt.of
			if tt.change != nil {
				tt.change(st, &p.Findings[0])
			}
			all := ChoicesFor(st, jobs.Left)
			hangs := false
			for i := range all {
				c := &all[i]
				if c.Piece != jobs.Other {
					continue
				}
				switch {
				case c.Work == catalog.WorkAsIs:
					hangs = true
					if c.Grade != 70_00 || c.Weak != tt.weak {
						t.Errorf("grade %d, weak %v", c.Grade, c.Weak)
					}
				case c.Plated() && c.Weak != tt.after:
					t.Errorf("mended: weak %v", c.Weak)
				}
			}
			if hangs != tt.hangs {
				t.Errorf("hangs as it is: %v", hangs)
			}
			if tt.hangs {
				return
			}
			outs := ExclusionsFor(st, jobs.Left)
			if !slices.ContainsFunc(outs, func(o Exclusion) bool {
				return o.Piece == jobs.Other && o.Work == catalog.WorkAsIs && o.Why != ""
			}) {
				t.Error("nothing says why it can't hang")
			}
			p.Stage, p.HungIn = catalog.StageHung, jobs.Left
			if all := ChoicesFor(st, jobs.Left); len(all) != 1 || all[0].Work != catalog.WorkAsIs {
				t.Errorf("it hangs there, and the choices are %+v", all)
			}
		})
	}
}

package choice

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// Each case worked out by hand from tinyTables.
func TestAsIsAndClean(t *testing.T) {
	f := func(defect int, sev catalog.Severity, extent catalog.Micro, count int, where catalog.Where) catalog.Finding {
		return catalog.Finding{Defect: defect, Severity: sev, Extent: extent, Count: count, Where: where}
	}
	tests := []struct {
		name        string
		findings    []catalog.Finding
		eye         catalog.Val[catalog.Centi]
		asIs        catalog.Centi // -1: no such choice
		clean       catalog.Centi
		tone        catalog.Centi
		grows, left bool // as-is, clean
	}{
		// nothing known: neither
		{name: "nothing known", asIs: -1, clean: -1},
		// 100 - 0.5 x 40 - 4 x 2.50 = 70; without the haze 90, capped by the work at 85
		{"points", []catalog.Finding{f(jobs.Haze, 0, 500_000, 1, "face"), f(jobs.Pits, 0, 100_000, 4, "face")},
			catalog.Val[catalog.Centi]{}, 70_00, 85_00, 0, false, false},
		// nickel showing caps at 55 however little: 100 - 0.01 x 30 = 99.70
		{"cap", []catalog.Finding{f(jobs.Nickel, 0, 10_000, 1, "edge")}, catalog.Val[catalog.Centi]{}, 55_00, -1, 4_00,
			true, false},
		// on the back it costs no points and doesn't show, but its cap holds and it grows
		{"back", []catalog.Finding{f(jobs.Nickel, 0, 10_000, 1, "back")}, catalog.Val[catalog.Centi]{}, 55_00, -1, 0,
			true, false},
		// 100 - 45 x 2.50 = -12.50, not below 0
		{"not below nothing", []catalog.Finding{f(jobs.Pits, 0, 0, 45, "face")}, catalog.Val[catalog.Centi]{}, 0, -1, 0,
			false, false},
		// the eye says 93: cleaning can't make it worse, 85 is below
		{"by eye", []catalog.Finding{f(jobs.Haze, 0, 500_000, 1, "face")}, jobs.Given(catalog.Centi(93_00)), 93_00,
			93_00, 0, false, false},
		{"clean leaves growth", []catalog.Finding{f(jobs.Haze, 0, 0, 1, "face"), f(jobs.Nickel, 0, 0, 1, "face")},
			catalog.Val[catalog.Centi]{}, 55_00, 55_00, 4_00, true, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			st.Pieces[jobs.Hazy].Findings, st.Pieces[jobs.Hazy].Grade = tt.findings, tt.eye
			all := Choices(st)[jobs.Left]
			for _, w := range []struct {
				work  string
				grade catalog.Centi
				grows bool
			}{{catalog.WorkAsIs, tt.asIs, tt.grows}, {catalog.WorkClean, tt.clean, tt.left}} {
				c := jobs.Pick(all, jobs.Hazy, w.work, catalog.None, "")
				if (c == nil) != (w.grade == -1) {
					t.Fatalf("%s: choice is there: %v", w.work, c != nil)
				}
				if c != nil && (c.Grade != w.grade || c.Tone != tt.tone || c.Growing != w.grows) {
					t.Errorf("%s: grade %d tone %d growing %v, want %d %d %v", w.work, c.Grade, c.Tone, c.Growing,
						w.grade, tt.tone, w.grows)
				}
			}
		})
	}
}

// Cleaning hazy: 0.5 + 1 x 0.1 + 0.25 x 3.2 = 1.4 hours at 40.00 = 56.00. In pot
// metal it breaks 0.02.
func TestCleanCost(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Hazy].Metal = jobs.PotMetal
	c := jobs.Pick(Choices(st)[jobs.Left], jobs.Hazy, catalog.WorkClean, catalog.None, "")
	if c.Other != 56_00 || c.Cash != 56_00 || c.Breakage != 20_000 || c.Fails != 20_000 || c.Fresh {
		t.Errorf("got %+v", c)
	}
	want := []plan.Assumption{"hours of clean", "the shop's hourly rate", "breakage of clean in pot metal",
		"that polishing takes away light haze", "highest grade after clean"}
	for _, r := range want {
		if !slices.Contains(c.Assumptions, r) {
			t.Errorf("rests %q lack %q", c.Assumptions, r)
		}
	}
	st.Slots[jobs.Left].Area = catalog.Val[catalog.Micro]{} // 0.6 hours, and a warning
	c = jobs.Pick(Choices(st)[jobs.Left], jobs.Hazy, catalog.WorkClean, catalog.None, "")
	if c.Other != 24_00 || len(c.Warnings) != 1 {
		t.Errorf("without an area: other %d, warnings %q", c.Other, c.Warnings)
	}
}

// A piece made to fit: 1.5 hours at 40.00 = 60.00, breakage 0.05, at most 65.
func TestFit(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Other].Fits = []int{jobs.Right}
	st.Pieces[jobs.Other].Fit = []catalog.Fit{{Slot: jobs.Left, Hours: 1_500_000, Breakage: 50_000, Cap: 65_00}}
	all := Choices(st)
	c := jobs.Pick(all[jobs.Left], jobs.Other, catalog.WorkAsIs, catalog.None, "")
	if c == nil || c.Other != 60_00 || c.Breakage != 50_000 || c.Grade != 65_00 {
		t.Errorf("as-is: %+v", c)
	}
	// plated: 1 - 0.988 x 0.95 = 0.0614 (north: 1.2 x 0.01 = 0.012)
	if c := jobs.Pick(all[jobs.Left], jobs.Other, catalog.WorkReplate, jobs.North, "show"); c.Breakage != 61_400 ||
		c.Other != 60_00 {
		t.Errorf("plated: breakage %d other %d", c.Breakage, c.Other)
	}
	if c := jobs.Pick(all[jobs.Right], jobs.Other, catalog.WorkAsIs, catalog.None, ""); c.Other != 0 ||
		c.Grade != 70_00 {
		t.Errorf("where it fits by itself: %+v", c)
	}
}

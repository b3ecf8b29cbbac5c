package program

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// Each rule with a choice that just keeps it and one that just breaks it, as k
// and as f.
func TestRules(t *testing.T) {
	type change func(st *catalog.State, c *plan.Choice)
	floor := func(st *catalog.State, _ *plan.Choice) {
		st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(80_00))
	}
	lenient := func(st *catalog.State, _ *plan.Choice) {
		st.Slots[jobs.Left].Target.FallbackFloor = jobs.Given(catalog.Centi(60_00))
	}
	grade := func(g catalog.Centi) change { return func(_ *catalog.State, c *plan.Choice) { c.Grade = g } }
	redone := func(st *catalog.State, _ *plan.Choice) { st.Slots[jobs.Left].Target.Redone = jobs.Given(true) }
	fresh := func(st *catalog.State, _ *plan.Choice) { st.Slots[jobs.Left].Target.Fresh = jobs.Given(true) }
	lasting := func(st *catalog.State, c *plan.Choice) {
		st.Slots[jobs.Left].Target.Lasting = jobs.Given(true)
		c.Growing = true
	}
	breaks := func(b catalog.Micro) change {
		return func(st *catalog.State, c *plan.Choice) {
			st.Slots[jobs.Left].MaxBreakage = jobs.Given(catalog.Micro(50_000))
			c.Breakage = b
		}
	}
	days := func(n int) change {
		return func(st *catalog.State, c *plan.Choice) { st.Job.WithinDays = jobs.Given(60); c.Days = n }
	}
	ban := func(f func(*catalog.Filter)) change {
		return func(st *catalog.State, _ *plan.Choice) {
			b := catalog.Ban{ID: "b", Filter: jobs.Anything()}
			f(&b.Filter)
			st.Bans = append(st.Bans, b)
		}
	}
	lock := func(f func(*catalog.Filter)) change {
		return func(st *catalog.State, _ *plan.Choice) {
			l := catalog.Lock{Filter: jobs.Anything()}
			l.Slot = jobs.Left
			f(&l.Filter)
			st.Locks = append(st.Locks, l)
		}
	}
	tests := []struct {
		name string
		do   []change
		k, f string // the rule that keeps it out
	}{
		{"no rules", nil, "", ""},
		{"at the floor", []change{floor, grade(80_00)}, "", ""},
		{"below the floor", []change{floor, grade(79_99)}, "floor", "floor"},
		{"fallback floor", []change{floor, lenient, grade(60_00)}, "floor", ""},
		{"below both", []change{floor, lenient, grade(59_99)}, "floor", "floor"},
		{"not fresh", []change{fresh}, "fresh", "fresh"},
		{"fresh", []change{fresh, func(_ *catalog.State, c *plan.Choice) { c.Fresh = true }}, "", ""},
		{"not refinished", []change{redone}, "redone", "redone"},
		{"fresh from its maker", []change{redone, func(_ *catalog.State, c *plan.Choice) { c.Fresh = true }},
			"redone", "redone"},
		{"refinished", []change{redone, func(_ *catalog.State, c *plan.Choice) { c.Redone = true }}, "", ""},
		{"not refinished, fallback floor", []change{redone, lenient}, "redone", ""},
		{"not fresh, fallback floor", []change{fresh, lenient}, "fresh", ""},
		{"growing", []change{lasting}, "lasting", "lasting"},
		{"growing, fallback floor", []change{lasting, lenient}, "lasting", ""},
		{"breakage at most", []change{breaks(50_000)}, "", ""},
		{"breakage above", []change{breaks(50_001)}, "breakage", ""},
		{"in time", []change{days(60)}, "", ""},
		{"late", []change{days(61)}, "days", ""},
		{"ban of all", []change{ban(func(*catalog.Filter) {})}, "ban", "ban"},
		{"ban of another slot", []change{ban(func(f *catalog.Filter) { f.Slot = jobs.Right })}, "", ""},
		{"ban of the plater", []change{ban(func(f *catalog.Filter) { f.Plater = jobs.South })}, "ban", "ban"},
		{"ban of another level", []change{ban(func(f *catalog.Filter) { f.Level = "driver" })}, "", ""},
		{"ban of another work", []change{ban(func(f *catalog.Filter) { f.Work = catalog.WorkClean })}, "", ""},
		{"lock on it", []change{lock(func(f *catalog.Filter) { f.Piece = jobs.Bare })}, "", ""},
		{"lock on another", []change{lock(func(f *catalog.Filter) { f.Piece = jobs.Hazy })}, "lock", ""},
		{"lock of another slot", []change{lock(func(f *catalog.Filter) { f.Slot, f.Piece = jobs.Right, jobs.Hazy })},
			"", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			c := &plan.Choice{Slot: jobs.Left, Piece: jobs.Bare, Work: catalog.WorkReplate, Plater: jobs.South,
				Level: "show", Quote: catalog.None, Grade: 70_00}
			for _, do := range tt.do {
				do(st, c)
			}
			for role, want := range []string{tt.k, tt.f} {
				got := ""
				if reasons := Admit(st, c, Role(role)); len(reasons) > 0 {
					got = reasons[0].Rule
				}
				if got != want {
					t.Errorf("role %d: out by rule %q, want %q", role, got, want)
				}
			}
		})
	}
}

func TestReasonsInWords(t *testing.T) {
	st := jobs.Tiny()
	st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(82_50))
	st.Slots[jobs.Left].MaxBreakage = jobs.Given(catalog.Micro(32_500))
	c := &plan.Choice{Slot: jobs.Left, Grade: 7_05, Breakage: 1_000_000}
	want := []Reason{{"floor", "grade 7.05 is below the floor of 82.5"},
		{"breakage", "breakage 100% is above the most allowed, 3.25%"}}
	got := Admit(st, c, Planned)
	if len(got) != 2 || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("got %q", got)
	}
	st.Slots[jobs.Left].MaxBreakage.V = 30_000
	for breakage, want := range map[catalog.Micro]string{203_584: "20.4%", 30_400: "3.04%", 30_500: "3.1%"} {
		c.Breakage = breakage
		if got := breakageRule(st, c, Planned); got != "breakage "+want+" is above the most allowed, 3%" {
			t.Errorf("%d: %s", breakage, got)
		}
	}
}

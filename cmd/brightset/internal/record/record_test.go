package record

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/testdata/campaign"
)

// swift is a folder in memory where the machine has one: what is synced there costs
// nothing.
func swift(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "brightset-test")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// demo is a copy of the demo job to write in.
func demo(t *testing.T) string {
	t.Helper()
	dir := swift(t)
	if err := os.CopyFS(dir, os.DirFS("../../../../testdata/demo")); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "job.toml")
}

func recorderAt(t *testing.T, path string) *catalog.Recorder {
	t.Helper()
	d, err := catalog.OpenRecorder(path,
		catalog.Options{Now: func() time.Time { return time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC) }})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// text is a state as text, without the record and the clock.
func text0(t *testing.T, st *catalog.State) string {
	t.Helper()
	c := *st
	c.Record, c.Revision, c.Job.AsOf, c.Job.Elapsed, c.Kept = nil, "", time.Time{}, 0, nil
	out, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func do(t *testing.T, d *catalog.Recorder, name string, f Facts) error {
	t.Helper()
	a, ok := Find(name)
	if !ok {
		t.Fatalf("no action %q", name)
	}
	f.Anyway = true // what was agreed is a matter of its own
	deed, err := a.Deed(d, f)
	if err == nil {
		_, err = d.Record(deed)
	}
	return err
}

// step is one record of the story below.
type step struct {
	name  string
	facts Facts
}

// story is a job from the first look to the last piece hung, with every action.
var story = []step{
	{"found", Facts{Target: "spear-l1", Defect: "pits", Severity: "light", Extent: "0.1"}},
	{"cleared", Facts{Target: "spear-l1", Defect: "pits"}},
	{"graded", Facts{Target: "arm-1", Grade: "nice", Tone: "0.5"}},
	{"new", Facts{Target: "crest-9", Fits: "crest", Kind: "original", Metal: "pot metal", Chance: "0.5", Tag: "T9"}},
	{"quoted", Facts{Target: "crest-9", To: "pell", Cost: "120.00", Level: "show", Days: "60"}},
	{"quoted", Facts{Target: "crest-9", To: "pell", Cost: "125.00", Level: "show", Days: "60"}},
	{"came", Facts{Target: "crest-9"}},
	{"failed", Facts{Target: "crest-friend"}},
	{"fitted", Facts{Target: "crest-2,drawer-grille"}},
	{"sent", Facts{Target: "crest-2,drawer-grille", To: "pell", On: "2031-02-01"}},
	{"stripped", Facts{Target: "crest-2", Defect: "pits", Severity: "moderate"}},
	{"priced", Facts{Target: "crest-2", Cost: "150.00"}},
	{"approved", Facts{Target: "crest-2"}},
	{"plated", Facts{Target: "crest-2"}},
	{"back", Facts{Target: "crest-2", Grade: "93", Cost: "155.00"}},
	{"hung", Facts{Target: "crest-2"}},
	{"unhung", Facts{Target: "crest-2"}},
	{"refused", Facts{Target: "drawer-grille"}},
	{"sent", Facts{Target: "bullet-1", To: "brackwater", Level: "driver", StripFirst: true}},
	{"stripped", Facts{Target: "bullet-1"}},
	{"priced", Facts{Target: "bullet-1", Cost: "88.00"}},
	{"approved", Facts{Target: "bullet-1"}},
	{"recalled", Facts{Target: "bullet-1", Cost: "20.00"}},
	{"broke", Facts{Target: "bullet-2"}},
	{"lost", Facts{Target: "screws-old", Count: "2"}},
	{"sold", Facts{Target: "crest-3"}},
	{"bought", Facts{Target: "letters-nos", Freight: "24.00"}},
	{"traded", Facts{Target: "vents"}},
	{"lock", Facts{Target: "bezel-speed", Piece: "bezel-s1", Reason: "straight before the eyes"}},
	{"lock", Facts{Target: "bezel-speed", Work: "clean"}},
	{"unlock", Facts{Target: "bezel-speed"}},
	{"ban", Facts{Target: "crank-repro", Slot: "crank-left"}},
	{"unban", Facts{Target: "no crank-repro"}},
	{"spent", Facts{Target: "a can of wax", Cost: "12.00"}},
	{"note", Facts{Target: "the owner rang"}},
	{"slot", Facts{Target: "tail-left", Name: "left tail lamp rim", Area: "12 in2", Part: "tail", Goal: "driver"}},
	{"slot", Facts{Target: "tail-right", Area: "12 in2", Part: "tail", With: "tail-left"}},
	{"slot", Facts{Target: "tail-left", Weight: "2"}},
	{"plater", Facts{Target: "weir", Name: "Weir Plating", Minimum: "80.00", Freight: "9.00", Days: "21"}},
	{"plater", Facts{Target: "weir", Level: "show", Metal: "pot metal", Rate: "44.00", Grade: "90"}},
	{"vendor", Facts{Target: "quay", Name: "Quay Finds", Freight: "12.00", Days: "9"}},
	{"maker", Facts{Target: "josh", Name: "Josh", Hourly: "40.00", Works: "new post", Days: "4"}},
	{"bundle", Facts{Target: "box", From: "quay", Price: "90.00", Days: "3"}},
	{"bundled", Facts{Target: "arm-2", Bundle: "box"}},
	{"unbundled", Facts{Target: "arm-2", Cost: "40.00"}},
	{"removed", Facts{Target: "box"}},
	{"new", Facts{Target: "tin-1", Fits: "screws", Kind: "original", Metal: "steel", Quantity: "5", Grade: "80"}},
	{"new", Facts{Target: "tin-2", Fits: "screws", Kind: "original", Metal: "steel", Quantity: "4", Grade: "75"}},
	{"joined", Facts{Target: "tin-1", Piece: "tin-2", Count: "3"}},
	{"match", Facts{Target: "vents", Slots: "vent-left,vent-right", GradeWithin: "4"}},
	{"avenue", Facts{Target: "meet", Slot: "crest", Kind: "original", Chance: "0.3", Price: "300.00", Low: "200.00",
		High: "400.00", Where: "autumn meet", Days: "30"}},
	{"trade", Facts{Target: "swap", Give: "arm-1", Get: "drawer-arm", Credit: "5.00"}},
	{"terms", Facts{Target: "job", Goal: "driver", Budget: "2000.00", Days: "99"}},
}

// TestStory records a whole job; after every entry its undo gives the state before it,
// byte for byte, and its redo the state after it.
func TestStory(t *testing.T) {
	path := demo(t)
	seen := map[string]bool{}
	d := recorderAt(t, path)
	for i, s := range story {
		seen[s.name] = true
		before := text0(t, d.State)
		if err := do(t, d, s.name, s.facts); err != nil {
			t.Fatalf("step %d, %s %s: %v", i+1, s.name, s.facts.Target, err)
		}
		after := text0(t, d.State)
		if (after == before) != (s.name == "note") {
			t.Errorf("step %d, %s %s: changed is %v", i+1, s.name, s.facts.Target, after != before)
		}
		d = recorderAt(t, path)
		if i%3 > 0 && !campaign.Long() {
			continue // every day a third of the steps are taken back
		}
		st, _, err := d.Undo()
		if err != nil || text0(t, st) != before {
			t.Errorf("step %d, %s: its undo gives another state (%v)", i+1, s.name, err)
		}
		if st, _, err = d.Redo(); err != nil || text0(t, st) != after {
			t.Errorf("step %d, %s: its redo gives another state (%v)", i+1, s.name, err)
		}
	}
	for _, a := range Actions {
		if !seen[string(a.Name)] {
			t.Errorf("no step records %q", a.Name)
		}
	}
	st := recorderAt(t, path).State
	// pell's lot: 60.00 freight, the crest's new post 36.00 before, 140.00 and 314.83 of
	// work, which comes to more than the least; the crest 10.00 more by its price, 5.00 more in the end; the grille's work
	// comes back less 40.00 for stripping.
	want := catalog.Cents(60_00 + 36_00 + 155_00 + st.Platers[plater(t, st, "pell")].StripFee)
	// brackwater's lot of one: 35.00 freight, and up to the least of 150.00 on the
	// estimate of 90.58; the work came back, and 20.00 was paid.
	want += 35_00 + (150_00 - 90_58) + 20_00
	// bought 115.00 and 24.00, wax, and a trade of a piece of 22.00 with 14.00 of credit
	want += 115_00 + 24_00 + 12_00 + 22_00 - 14_00
	if st.Job.SpentSum != want {
		t.Errorf("spent %d, want %d", st.Job.SpentSum, want)
		for _, s := range st.Job.Spent {
			t.Log(s.For, s.Cents)
		}
	}
}

func plater(t *testing.T, st *catalog.State, id string) int {
	t.Helper()
	for i := range st.Platers {
		if st.Platers[i].ID == id {
			return i
		}
	}
	t.Fatal("no plater", id)
	return 0
}

// TestWrongOrder: what can't have happened is refused in words that say what to do, and
// nothing is written.
func TestWrongOrder(t *testing.T) {
	path := demo(t)
	for _, s := range []step{{"sent", Facts{Target: "crest-2", To: "pell", Cost: "140.00"}}, {"broke",
		Facts{Target: "bullet-2"}},
		{"hung", Facts{Target: "vent-l1"}}} {
		if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		step
		says string
	}{
		{step{"back", Facts{Target: "spear-l1"}}, "is not at a plater's; first type: brightset record sent"},
		{step{"sent", Facts{Target: "crest-2", To: "pell"}}, "is at pell already"},
		{step{"sent", Facts{Target: "vent-l1", To: "pell"}}, "hangs in vent-left"},
		{step{"approved", Facts{Target: "crest-2"}}, "is approved already"},
		{step{"hung", Facts{Target: "crest-2"}}, "is at pell"},
		{step{"broke", Facts{Target: "bullet-2"}}, "is broken; if that was wrong, type: brightset record undo"},
		{step{"graded", Facts{Target: "bulet-2", Grade: "80"}}, `did you mean "bullet-2"`},
		{step{"sent", Facts{Target: "spear-l1", To: "pel"}}, `did you mean "pell"`},
		{step{"sent", Facts{Target: "spear-l1,spear-l1", To: "pell"}}, "twice"},
		{step{"sent", Facts{Target: "bullet-1", To: "brackwater"}}, "--level driver"},
		{step{"failed", Facts{Target: "arm-1"}}, "is no lead"},
		{step{"lost", Facts{Target: "screws-old", Count: "900"}}, "write a number from 1 to"},
		{step{"hung", Facts{Target: "crank-repro"}}, "--slot crank-left"},
		{step{"new", Facts{Target: "arm-1", Fits: "crest"}}, "is there already"},
		{step{"unlock", Facts{Target: "crest"}}, "has no lock"},
		{step{"unban", Facts{Target: "no-cheap-crst"}}, `did you mean "no-cheap-crest"`},
		{step{"traded", Facts{Target: "vent"}}, `did you mean "vents"`},
		{step{"spent", Facts{Target: "wax"}}, "say how much"},
		{step{"spent", Facts{Target: "wax", Cost: "12,00"}}, "comma"},
		{step{"graded", Facts{Target: "arm-1", Grade: "120"}}, "not between 0 and 100"},
		{step{"found", Facts{Target: "arm-1", Defect: "pit"}}, `did you mean "pits"`},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "12.5", Grade: "80"}}, "two decimals"},
		{step{"lock", Facts{Target: "crest", Piece: "arm-1"}}, "doesn't fit"},
		{step{"stripped", Facts{Target: "vent-l1"}}, "is hung already"},
		{step{"plated", Facts{Target: "vent-l1"}}, "is not at a plater's"},
	} {
		before := journals(t, path)
		err := do(t, recorderAt(t, path), c.name, c.facts)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %s: %v\nwant %q", c.name, c.facts.Target, err, c.says)
		}
		if journals(t, path) != before {
			t.Errorf("%s %s: something was written", c.name, c.facts.Target)
		}
	}
}

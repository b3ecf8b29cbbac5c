package record

import (
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestTerms: who sells and who does single works, bundles, match groups, avenues, trades and what is
// asked of the whole job are there once they are recorded, as if a file said so.
func TestTerms(t *testing.T) {
	path := demo(t)
	for _, s := range []step{
		{"vendor", Facts{Target: "quay", Name: "Quay Finds", Freight: "12.00", Days: "9"}},
		{"vendor", Facts{Target: "plain"}},
		{"maker", Facts{Target: "josh", Name: "Josh", Hourly: "40.00", Works: "new post, mend crack", Days: "4"}},
		{"bundle", Facts{Target: "box", From: "quay", Price: "90.00", Days: "3"}},
		{"match", Facts{Target: "vents", Slots: "vent-left,vent-right", FreshAlike: true, GradeWithin: "4",
			ToneWithin: "1.5"}},
		{"avenue", Facts{Target: "meet", Slot: "crest", Kind: "original", Chance: "0.3", Price: "300.00", Low: "200.00",
			High: "400.00", Cost: "20.00", Where: "autumn meet", Days: "30"}},
		{"trade", Facts{Target: "swap", Give: "arm-1", Get: "drawer-arm", Credit: "5.00"}},
		{"terms", Facts{Target: "job", Goal: "driver", Budget: "2000.00", Days: "99", Completion: "0.8", Mean: "81.5"}},
		{"slot", Facts{Target: "crest", Floor: "61"}},
	} {
		if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
			t.Fatalf("%s %s: %v", s.name, s.facts.Target, err)
		}
	}
	st := recorderAt(t, path).State
	v, m, b := st.Vendors[len(st.Vendors)-2], st.Makers[len(st.Makers)-1], st.Bundles[len(st.Bundles)-1]
	if v.Name != "Quay Finds" || v.Freight != 12_00 || v.Days != 9 || m.Name != "Josh" || m.Hourly != 40_00 ||
		len(m.Works) != 2 || m.Days != 4 || st.Vendors[b.Vendor].ID != "quay" || b.Price != 90_00 || b.Days.V != 3 {
		t.Errorf("%+v\n%+v\n%+v", v, m, b)
	}
	g, a, tr := st.Matches[len(st.Matches)-1], st.Avenues[len(st.Avenues)-1], st.Trades[len(st.Trades)-1]
	if len(g.Slots) != 2 || !g.FreshAlike || g.SamePlater || g.GradeWithin.V != 400 || g.ToneWithin.V != 150 ||
		a.Where != "autumn meet" || a.Low != 200_00 || a.Likely != 300_00 || a.High != 400_00 || a.Cost != 20_00 ||
		a.Days != 30 || st.Pieces[tr.Give].ID != "arm-1" || st.Pieces[tr.Get].ID != "drawer-arm" || tr.Credit != 5_00 {
		t.Errorf("%+v\n%+v\n%+v", g, a, tr)
	}
	if s := slices.IndexFunc(st.Slots, func(s catalog.Slot) bool { return s.ID == "crest" }); st.Slots[s].Target.Floor.V !=
		61_00 {
		t.Errorf("%+v", st.Slots[s].Target)
	}
	if j := &st.Job; j.Target.Mean.V != 81_50 || j.Target.Floor != driver(st).Floor ||
		j.Budget.V != 2000_00 || j.WithinDays.V != 99 ||
		j.Completion.V != 800_000 {
		t.Errorf("%+v", j)
	}
}

// driver is the target of that name.
func driver(st *catalog.State) *catalog.Target {
	i := slices.IndexFunc(st.Tables.Targets, func(t catalog.Target) bool { return t.Name == "driver" })
	return &st.Tables.Targets[i]
}

// TestBundled: a piece that is put into a bundle has no price of its own and is the bundle's vendor's, a new one
// too; taken out it is his for its own price. What is on its way can't be put in.
func TestBundled(t *testing.T) {
	path := demo(t)
	piece := func() *catalog.Piece {
		st := recorderAt(t, path).State
		i, ok := st.FindPiece("arm-2")
		if !ok {
			t.Fatal("no such piece")
		}
		return &st.Pieces[i]
	}
	must(t, recorderAt(t, path), step{"vendor", Facts{Target: "quay"}})
	must(t, recorderAt(t, path), step{"bundle", Facts{Target: "box", From: "quay", Price: "90.00"}})
	must(t, recorderAt(t, path), step{"bundle", Facts{Target: "crate", Price: "20.00"}})
	must(t, recorderAt(t, path), step{"bundled", Facts{Target: "arm-2", Bundle: "box"}})
	if p := piece(); p.Bundle == catalog.None || p.Price != 0 || p.Value != 0 || p.Side != catalog.Vendors {
		t.Errorf("%+v", p)
	}
	must(t, recorderAt(t, path), step{"unbundled", Facts{Target: "arm-2", Cost: "40.00"}})
	if p := piece(); p.Bundle != catalog.None || p.Price != 40_00 || p.Side != catalog.Vendors {
		t.Errorf("%+v", p)
	}
	must(t, recorderAt(t, path), step{"bundled", Facts{Target: "arm-2", Bundle: "crate"}})
	must(t, recorderAt(t, path), step{"unbundled", Facts{Target: "arm-2", Cost: "7.00"}})
	if p := piece(); p.Price != 7_00 || p.Side != catalog.Shops {
		t.Errorf("%+v", p)
	}
	must(t, recorderAt(t, path), step{"new", Facts{Target: "found", Fits: "crest", Kind: "original", Metal: "brass",
		Owner: "customer", Bundle: "box"}})
	must(t, recorderAt(t, path), step{"sent", Facts{Target: "crest-2", To: "pell"}})
	for says, f := range map[string]Facts{"still to be bought": {Target: "crest-2", Bundle: "box"},
		"no bundle": {Target: "arm-2", Bundle: "boxes"}} {
		if err := do(t, recorderAt(t, path), "bundled", f); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%+v: %v", f, err)
		}
	}
	if err := do(t, recorderAt(t, path), "unbundled", Facts{Target: "arm-2", Cost: "1.00"}); err == nil ||
		!strings.Contains(err.Error(), "no bundle") {
		t.Error(err)
	}
	must(t, recorderAt(t, path), step{"bought", Facts{Target: "box"}})
}

// TestRemoved: what nothing rests on is taken away whole, wherever it was written, and undo brings it
// back; what something rests on, or something happened to, stays, and it is said why.
func TestRemoved(t *testing.T) {
	path := demo(t)
	must(t, recorderAt(t, path), step{"vendor", Facts{Target: "quay", Name: "Quay Finds"}})
	must(t, recorderAt(t, path), step{"found", Facts{Target: "arm-1", Defect: "pits"}})
	before := recorderAt(t, path).State
	for _, name := range []string{"quay", "arm-1"} {
		must(t, recorderAt(t, path), step{"removed", Facts{Target: name}})
	}
	st := recorderAt(t, path).State
	if _, there := st.FindPiece("arm-1"); there || len(st.Vendors) != len(before.Vendors)-1 {
		t.Error("it is still there")
	}
	d := recorderAt(t, path)
	if st, _, err := d.Undo(); err != nil || len(st.Pieces) != len(before.Pieces) {
		t.Error("it is not brought back", err)
	} else if i, _ := st.FindPiece("arm-1"); len(st.Pieces[i].Findings) == 0 {
		t.Error("it comes back without what was found on it")
	}
	must(t, recorderAt(t, path), step{"sent", Facts{Target: "crest-2", To: "pell"}})
	for name, says := range map[string]string{"crest": "no slot or part", "pell": "unknown plater",
		"nobody": "nothing that", "crest-2": "on its way"} {
		if err := do(t, recorderAt(t, path), "removed", Facts{Target: name}); err == nil ||
			!strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	must(t, recorderAt(t, path), step{"vendor", Facts{Target: "arm-2"}})
	must(t, recorderAt(t, path), step{"maker", Facts{Target: "arm-2", Hourly: "1.00", Works: "new post"}})
	if err := do(t, recorderAt(t, path), "removed", Facts{Target: "arm-2"}); err == nil ||
		!strings.Contains(err.Error(), "--what maker") {
		t.Error(err)
	}
	must(t, recorderAt(t, path), step{"removed", Facts{Target: "arm-2", What: "maker"}})
}

// TestEachItsOwn: of several pieces in one lot each can go its own way, at a price of its own, and
// freight is paid once; they come back together, each as it looks.
func TestEachItsOwn(t *testing.T) {
	path := demo(t)
	lot := Facts{Target: "crest-2,drawer-grille", To: "pell", Each: []Facts{
		{Target: "job:crest-2", Level: "show", Work: "repair-replate", Cost: "101.00"},
		{Target: "shop:drawer-grille", Cost: "55.00"}}}
	must(t, recorderAt(t, path), step{"sent", lot})
	st := recorderAt(t, path).State
	freights := 0
	for _, s := range st.Job.Spent {
		if strings.HasPrefix(s.For, "freight of pell") {
			freights++
		}
	}
	i, _ := st.FindPiece("crest-2")
	k, _ := st.FindPiece("drawer-grille")
	one, two := &st.Pieces[i].Sent, &st.Pieces[k].Sent
	if freights != 1 || one.Lot != two.Lot || one.Cost != 101_00 || two.Cost != 55_00 || one.Level != "show" {
		t.Errorf("%d freights\n%+v\n%+v", freights, one, two)
	}
	must(t, recorderAt(t, path), step{"back", Facts{Target: lot.Target, Each: []Facts{
		{Target: "job:crest-2", Grade: "91"}, {Target: "shop:drawer-grille", Grade: "83"}}}})
	st = recorderAt(t, path).State
	if st.Pieces[i].Grade.V != 9100 || st.Pieces[k].Grade.V != 8300 || st.Pieces[i].Stage != catalog.StageBack {
		t.Error(st.Pieces[i].Grade, st.Pieces[k].Grade)
	}
	bad := Facts{Target: "arm-1", Each: []Facts{{Target: "job:arm-1", Grade: "8,5"}}}
	if err := do(t, recorderAt(t, path), "graded", bad); err == nil || !strings.Contains(err.Error(), "8.5") {
		t.Error("what is said of one piece isn't looked at:", err)
	}
}

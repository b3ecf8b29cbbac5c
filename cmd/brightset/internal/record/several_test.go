package record

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/catalog/event"
)

// strict records as do does, but nothing against what was agreed.
func strict(t *testing.T, d *catalog.Recorder, s step) error {
	t.Helper()
	a, _ := Find(s.name)
	deed, err := a.Deed(d, s.facts)
	if err == nil {
		_, err = d.Record(deed)
	}
	return err
}

// TestSeveralAtOnce: what befalls several pieces is recorded in one go, and leaves each as
// if it had been recorded by itself.
func TestSeveralAtOnce(t *testing.T) {
	lot := "spear-r1,drawer-arm"
	sent := Facts{Target: lot, To: "brackwater", Level: "driver"}
	for _, tale := range [][]step{
		{{"stripped", Facts{Defect: "pits", Severity: "light"}}, {"priced", Facts{Cost: "60"}}, {"approved", Facts{}},
			{"plated", Facts{}}, {"back", Facts{Grade: "88", Cost: "60"}}},
		{{"refused", Facts{Cost: "5.00"}}},
		{{"priced", Facts{Cost: "60.00", Grade: "85"}}, {"recalled", Facts{}}},
		{{"back", Facts{Grade: "84"}}, {"broke", Facts{}}},
		{{"found", Facts{Defect: "pits"}}, {"graded", Facts{Grade: "70"}}, {"lost", Facts{}}},
	} {
		together, oneByOne := recorderAt(t, demo(t)), recorderAt(t, demo(t))
		must(t, together, step{"sent", sent})
		must(t, oneByOne, step{"sent", sent})
		for _, s := range tale {
			s.facts.Target = lot
			must(t, together, s)
			for _, id := range strings.Split(lot, ",") {
				s.facts.Target = id
				must(t, oneByOne, s)
			}
		}
		if a, b := standing(together.State, lot), standing(oneByOne.State, lot); a != b {
			t.Errorf("%v: recorded together\n%s\none by one\n%s", tale, a, b)
		}
	}
	d := recorderAt(t, demo(t))
	must(t, d, step{"hung", Facts{Target: "vent-l1,drawer-grille", Grade: "80"}})
	must(t, d, step{"unhung", Facts{Target: "vent-l1,drawer-grille"}})
	must(t, d, step{"sold", Facts{Target: "arm-1,arm-2"}})
	must(t, d, step{"bought", Facts{Target: "letters-nos,crest-nos", Freight: "24.00"}})
	for _, s := range []struct {
		step
		says string
	}{
		{step{"hung", Facts{Target: "spear-l1,spear-l-nos"}}, "can't both hang in spear-left"},
		{step{"lost", Facts{Target: "screws-old,crest-2", Count: "1"}}, "--count 1 is for one piece"},
		{step{"sold", Facts{Target: "crest-1,crest-2", Credit: "9.00"}}, "--credit 9.00 is for one piece"},
		{step{"bought", Facts{Target: "crank-repro,grille-repro", Price: "9.00"}}, "--price 9.00 is for one piece"},
	} {
		if err := do(t, d, s.name, s.facts); err == nil || !strings.Contains(err.Error(), s.says) {
			t.Errorf("%s %s: %v, want %q", s.name, s.facts.Target, err, s.says)
		}
	}
}

// standing is how far pieces have come, and what is spent by now.
func standing(st *catalog.State, ids string) string {
	text := fmt.Sprint(st.Job.SpentSum, len(st.Bans))
	for _, id := range strings.Split(ids, ",") {
		i, _ := st.FindPiece(id)
		p := &st.Pieces[i]
		text += fmt.Sprint("; ", id, " ", p.Stage, p.AtPlater(), p.Sent.Cost, p.Sent.Paid.V, p.Grade.V, len(p.Findings),
			len(p.Quotes))
	}
	return text
}

// TestBoughtFromNobody: what no file names and comes from no vendor is written down and paid
// in one record; where it was bought is kept.
func TestBoughtFromNobody(t *testing.T) {
	d := recorderAt(t, demo(t))
	stall := Facts{Target: "crest-stall", From: "stall at the harbour", Price: "40", Fits: "crest", Kind: "original",
		Metal: "pot metal", Grade: "60"}
	must(t, d, step{"bought", stall})
	must(t, d, step{"bought", Facts{Target: "arm-1", From: "the club's evening", Price: "7.50"}})
	i, ok := d.State.FindPiece("crest-stall")
	if !ok || d.State.Pieces[i].Side != catalog.Customers || d.State.Pieces[i].Price != 0 ||
		d.State.Job.SpentSum != 47_50 {
		t.Errorf("%v, spent %d", ok, d.State.Job.SpentSum)
	}
	if got := d.State.Job.Spent[0].For; got != "bought crest-stall from stall at the harbour" {
		t.Error(got)
	}
	for _, f := range []Facts{{Target: "crest-swap", Price: "40"}, {Target: "crest-swap", Price: "40", Fits: "crest"},
		{Target: "crest-swap", Fits: "crest", Kind: "original", Metal: "brass"}} {
		if err := do(t, d, "bought", f); err == nil || !strings.Contains(err.Error(),
			"--fits SLOTS --kind KIND --metal METAL") {
			t.Error(err)
		}
	}
}

// TestSentStripsFirst: a lot goes to be stripped and looked at, unless its price is firm or
// was agreed.
func TestSentStripsFirst(t *testing.T) {
	firm := func(how string) []step {
		return []step{{"quoted", Facts{Target: "sound", To: "north", Cost: "20.00", Level: "show", Grade: "90", Firm: how}}}
	}
	for _, c := range []struct {
		name  string
		first []step
		sent  Facts
		want  catalog.Stage
	}{
		{"our own guess", nil, Facts{}, catalog.StageSeen},
		{"his estimate", firm("estimate"), Facts{}, catalog.StageSeen},
		{"after strip", firm("after strip"), Facts{}, catalog.StageSeen},
		{"firm", firm("firm"), Facts{}, catalog.StageApproved},
		{"firm, looked at all the same", firm("firm"), Facts{StripFirst: true}, catalog.StageSeen},
		{"agreed", nil, Facts{Cost: "44.00"}, catalog.StageApproved},
	} {
		d := laterRecorder(t)
		must(t, d, c.first...)
		c.sent.Target, c.sent.To = "sound", "north"
		must(t, d, step{"sent", c.sent})
		i, _ := d.State.FindPiece("sound")
		if p := &d.State.Pieces[i]; p.Stage != c.want || !p.AtPlater() {
			t.Errorf("%s: %v", c.name, p.Stage)
		}
	}
}

// TestClashes: an act against what was agreed is refused, names what it goes against, and
// is taken when it is said that it happened all the same.
func TestClashes(t *testing.T) {
	firm := Facts{Target: "bullet-1", To: "brackwater", Level: "driver", Cost: "90.00"}
	for _, c := range []struct {
		name   string
		before []step
		act    step
		says   string // "": no clash
	}{
		{"ban", nil, step{"sent", Facts{Target: "crest-1", To: "brackwater", Level: "driver", Slot: "crest"}},
			`ban "no-cheap-crest"`},
		{"no ban", nil, step{"sent", Facts{Target: "crest-2", To: "pell"}}, ""},
		{"lock", []step{{"lock", Facts{Target: "spear-left", Piece: "spear-l-nos"}}}, step{"hung",
			Facts{Target: "spear-l1", Grade: "80"}},
			"spear-left is locked on something else"},
		{"the lock's own", []step{{"lock", Facts{Target: "spear-left", Piece: "spear-l1"}}},
			step{"hung", Facts{Target: "spear-l1", Grade: "80"}}, ""},
		{"banned and bought", []step{{"ban", Facts{Target: "letters-nos"}}}, step{"bought",
			Facts{Target: "letters-nos"}}, `ban "no letters-nos"`},
		{"dearer than agreed", []step{{"sent", firm}}, step{"back", Facts{Target: "bullet-1", Cost: "95.00"}},
			"to do bullet-1 for 90.00, not 95.00"},
		{"as agreed", []step{{"sent", firm}}, step{"back", Facts{Target: "bullet-1", Cost: "90.00"}}, ""},
		{"cheaper", []step{{"sent", firm}}, step{"back", Facts{Target: "bullet-1", Cost: "80.00"}}, ""},
		{"another price", []step{{"sent", firm}}, step{"priced", Facts{Target: "bullet-1", Cost: "99.00"}}, "not 99.00"},
	} {
		d := recorderAt(t, demo(t))
		must(t, d, c.before...)
		err := strict(t, d, c.act)
		var clash *Clash
		if errors.As(err, &clash) != (c.says != "") || err != nil && !strings.Contains(err.Error(), c.says) ||
			err != nil && !strings.Contains(err.Error(), "--anyway") {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
		c.act.facts.Anyway = true
		if err != nil && strict(t, d, c.act) != nil {
			t.Errorf("%s: not even with --anyway", c.name)
		}
	}
}

// TestClashesWithTheKeptPlan: another piece, another plater and a sale are told of, what the
// plan has, and what it holds in reserve, is not.
func TestClashesWithTheKeptPlan(t *testing.T) {
	keep := func(d *catalog.Recorder) {
		deed := catalog.Act{Action: "keep"}
		b := &builder{d: d, st: d.State, deed: deed}
		for _, l := range []catalog.KeptLine{
			{Slot: "spear-left", KeptChoice: catalog.KeptChoice{Piece: "job:spear-l1", Work: "repair-replate",
				Plater: "brackwater", Level: "driver"},
				Fallback: &catalog.KeptChoice{Piece: "job:spear-l-nos", Work: "as-is"}},
		} {
			target := event.Of(event.TablePlan, l.Slot)
			b.choice(target, &l.KeptChoice)
			b.set(false, target, event.KeyExpected, "1.00")
			b.set(false, target, event.KeyFallback, nested(choiceTable(l.Fallback)))
		}
		if _, err := d.Record(b.deed); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		act  step
		says string
	}{
		{step{"sent", Facts{Target: "spear-l1", To: "brackwater", Level: "driver"}}, ""},
		{step{"sent", Facts{Target: "spear-l1", To: "brackwater", Level: "show"}}, "sends spear-l1 to brackwater driver"},
		{step{"sent", Facts{Target: "spear-l1", To: "hollin", Level: "nice"}}, "sends spear-l1 to brackwater driver"},
		{step{"hung", Facts{Target: "spear-l-nos"}}, ""},
		{step{"hung", Facts{Target: "spear-l1", Grade: "70"}}, ""},
		{step{"sold", Facts{Target: "spear-l1"}}, "hangs spear-l1 in spear-left"},
		{step{"sold", Facts{Target: "spear-r1"}}, ""},
	} {
		d := recorderAt(t, demo(t))
		keep(d)
		err := strict(t, d, c.act)
		if (err != nil) != (c.says != "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %s: %v, want %q", c.act.name, c.act.facts.Target, err, c.says)
		}
	}
}

// TestHelpNamesSeveral: whatever befalls pieces of a lot takes several.
func TestHelpNamesSeveral(t *testing.T) {
	one := []string{"new", "cleared", "quoted", "ban"}
	for _, a := range Actions {
		if a.Target == "PIECE" && !slices.Contains(one, string(a.Name)) {
			t.Errorf("%s takes one piece", a.Name)
		}
	}
}

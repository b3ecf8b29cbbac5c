package record

import (
	"strings"
	"testing"
)

// TestBadValues: a bad value in any flag is refused with what is wrong with it and what to
// write instead, and nothing is written.
func TestBadValues(t *testing.T) {
	path := demo(t)
	for _, s := range []step{{"sent", Facts{Target: "crest-2", To: "pell", StripFirst: true}},
		{"bought", Facts{Target: "boxed-spears"}}, {"refused", Facts{Target: "crest-2"}},
		{"sent", Facts{Target: "drawer-grille", To: "pell", StripFirst: true}}} {
		if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
			t.Fatal(err)
		}
	}
	newPiece := func(change func(*Facts)) Facts {
		f := Facts{Target: "x-1", Fits: "crest", Kind: "original", Metal: "brass"}
		change(&f)
		return f
	}
	for _, c := range []struct {
		step
		says, instead string
	}{
		{step{"new", newPiece(func(f *Facts) { f.Fits = "crst" })}, `"crst"`, `"crest"`},
		{step{"new", newPiece(func(f *Facts) { f.Fits = "," })}, "fits nothing", "name a slot or a part"},
		{step{"new", newPiece(func(f *Facts) { f.Kind = "orignal" })}, `"orignal"`, `"original"`},
		{step{"new", newPiece(func(f *Facts) { f.Metal = "bras" })}, `"bras"`, `"brass"`},
		{step{"new", newPiece(func(f *Facts) { f.Owner = "tinshd" })}, `"tinshd"`, `"tinshed"`},
		{step{"new", newPiece(func(f *Facts) { f.Quantity = "0" })}, "quantity", "1"},
		{step{"new", newPiece(func(f *Facts) { f.Quantity = "two" })}, "quantity", "whole number"},
		{step{"new", newPiece(func(f *Facts) { f.Chance = "50" })}, "chance", "0 and 1"},
		{step{"new", newPiece(func(f *Facts) { f.Chance = "0,5" })}, "chance", "write 0.5"},
		{step{"new", newPiece(func(f *Facts) { f.Days = "-3" })}, "days", "0"},
		{step{"new", newPiece(func(f *Facts) { f.Days = "3.5" })}, "days", "whole"},
		{step{"new", newPiece(func(f *Facts) { f.Grade = "101" })}, "grade", "0 and 100"},
		{step{"new", newPiece(func(f *Facts) { f.Tone = "blueish" })}, "blueish", "bluish"},
		{step{"new", newPiece(func(f *Facts) { f.Value = "12,5" })}, "value", "12.50"},
		{step{"new", newPiece(func(f *Facts) { f.Cost = "40.00" })}, "whose it is", "--owner"},
		{step{"new", newPiece(func(f *Facts) { f.Owner, f.Cost = "tinshed", "4o" })}, "price", "write"},
		{step{"new", newPiece(func(f *Facts) { f.Target = "a,b" })}, "comma", "another name"},
		{step{"new", newPiece(func(f *Facts) { f.Target = "drawer-arm" })}, "there already", "another name"},
		{step{"new", newPiece(func(f *Facts) { f.Target = "job:x" })}, `"job:"`, "another name"},
		{step{"new", newPiece(func(f *Facts) { f.Target = strings.Repeat("x", 101) })}, "longer than 100", "another name"},
		{step{"found", Facts{Target: "arm-1", Defect: "hase"}}, `"hase"`, `"haze"`},
		{step{"found", Facts{Target: "arm-1", Defect: "haze", Severity: "bad"}}, `"bad"`, "severe"},
		{step{"found", Facts{Target: "arm-1", Defect: "haze", Extent: "1.5"}}, "extent", "0 and 1"},
		{step{"found", Facts{Target: "arm-1", Defect: "haze", Count: "0"}}, "count", "1"},
		{step{"found", Facts{Target: "arm-1", Defect: "haze", Where: "top"}}, `"top"`, "face"},
		{step{"cleared", Facts{Target: "arm-1", Defect: "hase"}}, `"hase"`, `"haze"`},
		{step{"graded", Facts{Target: "arm-1", Grade: "nise"}}, `"nise"`, `"nice"`},
		{step{"graded", Facts{Target: "arm-1", Grade: "NaN"}}, "NaN", "nice"},
		{step{"graded", Facts{Target: "arm-1", Grade: "1e1"}}, "1e1", "such as 85"},
		{step{"quoted", Facts{Target: "arm-1", To: "pel", Cost: "10.00"}}, `"pel"`, `"pell"`},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "1.234,00"}}, "comma", "1234.00"},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "10.00", Level: "shw"}}, `"shw"`, `"show"`},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "10.00", Work: "relate"}}, `"relate"`, `"replate"`},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "10.00", Firm: "frm"}}, `"frm"`, `"firm"`},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "10.00", Breakage: "4%"}}, "4%", "0.5"},
		{step{"quoted", Facts{Target: "arm-1", To: "pell", Cost: "10.00", Days: "soon"}}, "days", "whole number"},
		{step{"sent", Facts{Target: "bullet-1", To: "brackwater", Level: "drver"}}, "more than one thing",
			"--level driver, or"},
		{step{"sent", Facts{Target: "bullet-1", To: "brackwater", Slot: "bullet-lft"}}, `"bullet-lft"`, `"bullet-left"`},
		{step{"sent", Facts{Target: "bullet-1", To: "brackwater", Slot: "crest"}}, "doesn't fit crest", "leave --slot out"},
		{step{"sent", Facts{Target: "bullet-1", To: "brackwater", Level: "driver", Cost: "-4"}}, "negative", "4.00"},
		{step{"sent", Facts{Target: "bullet-1,", To: "brackwater"}}, "comma too many", "crest-1,crest-2"},
		{step{"sent", Facts{Target: "crank-1", To: "brackwater"}}, "no price", "record quoted crank-1"},
		{step{"priced", Facts{Target: "drawer-grille", Cost: "abc"}}, "--cost", "240.00"},
		{step{"priced", Facts{Target: "drawer-grille", Cost: "100.00", Breakage: "2"}}, "breakage", "0 and 1"},
		{step{"refused", Facts{Target: "drawer-grille", Cost: "1 000"}}, "space", "1000.00"},
		{step{"back", Facts{Target: "drawer-grille", Tone: "999"}}, "tone", "100"},
		{step{"hung", Facts{Target: "arm-1", Slot: "mirror-lft"}}, `"mirror-lft"`, `"mirror-left"`},
		{step{"hung", Facts{Target: "arm-1", Slot: "crest"}}, "doesn't fit crest", "mirror-left"},
		{step{"hung", Facts{Target: "vent-l1", Grade: "85%"}}, "85%", "such as 85"},
		{step{"broke", Facts{Target: "screws-old", Count: "some"}}, `"some"`, "from 1 to 11"},
		{step{"broke", Facts{Target: "arm-1", Count: "2"}}, "one arm-1", "leave --count out"},
		{step{"sold", Facts{Target: "arm-1", Credit: "25€"}}, "--credit", "25.00"},
		{step{"bought", Facts{Target: "letters-nos", Price: "1.5"}}, "--price", "1.50"},
		{step{"bought", Facts{Target: "letters-nos", Freight: "x"}}, "--freight", "240.00"},
		{step{"bought", Facts{Target: "crank-repro", Count: "9"}}, `"9"`, "from 1 to 4"},
		{step{"bought", Facts{Target: "boxed-spears"}}, "bought already", ""},
		{step{"bought", Facts{Target: "arm-1"}}, "the customer's already", "--price"},
		{step{"lock", Facts{Target: "crest", Piece: "crest-22"}}, `"crest-22"`, `"crest-2"`},
		{step{"lock", Facts{Target: "crest", To: "pel"}}, `"pel"`, `"pell"`},
		{step{"lock", Facts{Target: "crest", Work: "clen"}}, `"clen"`, `"clean"`},
		{step{"lock", Facts{Target: "crest", Work: "clean", To: "pell"}}, "done by no plater", "leave plater out"},
		{step{"lock", Facts{Target: "crest"}}, "say what is wanted", "--piece"},
		{step{"ban", Facts{Target: "crest-2", Slot: "crst"}}, `"crst"`, `"crest"`},
		{step{"unban", Facts{Target: "crest-1"}}, "no ban on crest-1", "no-cheap-crest"},
		{step{"spent", Facts{Target: "wax", Cost: "99999999999.00"}}, "more than", "smaller"},
		{step{"note", Facts{Target: strings.Repeat("long ", 500)}}, "longer than 2000", "a file of their own"},
		{step{"note", Facts{Target: "\x1b[31mred"}}, "U+001B, a control character", "delete it"},
		{step{"note", Facts{Target: "r\u202eed"}}, "U+202E, a mark that turns", "delete it"},
		{step{"new", newPiece(func(f *Facts) { f.Name = "cr\u200best" })}, "U+200B, a character that takes no room",
			"delete it"},
		{step{"note", Facts{Target: "x", On: "31.1.2031"}}, "no day", "2027-01-31"},
		{step{"graded", Facts{Target: "arm-1", Grade: "80", Reason: "\xff"}}, "reason", "leave them out"},
		{step{"stripped", Facts{Target: "arm-1", Severity: "severe"}}, "about a fault", "--defect"},
	} {
		before := journals(t, path)
		err := do(t, recorderAt(t, path), c.name, c.facts)
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.instead) {
			t.Errorf("%s %+v:\n%v\nwant %q and %q", c.name, c.facts, err, c.says, c.instead)
		}
		if journals(t, path) != before {
			t.Errorf("%s %s: something was written", c.name, c.facts.Target)
		}
	}
}

// TestNothingChanges: what would change nothing is refused, and a new price of a plater's
// takes the place of the one he named before, with the work and the level of that.
func TestNothingChanges(t *testing.T) {
	path := demo(t)
	for range 2 {
		err := do(t, recorderAt(t, path), "graded", Facts{Target: "arm-1", Grade: "80"})
		if err != nil && !strings.Contains(err.Error(), "things stand like that already") {
			t.Error(err)
		}
	}
	if n := len(recorderAt(t, path).State.Record.Entries); n != 1 {
		t.Errorf("%d entries", n)
	}
	if err := do(t, recorderAt(t, path), "quoted", Facts{Target: "crest-1", To: "pell", Cost: "230.00"}); err != nil {
		t.Fatal(err)
	}
	st := recorderAt(t, path).State
	i, _ := st.FindPiece("crest-1")
	if q := st.Pieces[i].Quotes; len(q) != 1 || q[0].Cost != 230_00 || q[0].Work != "repair-replate" ||
		q[0].Level != "show" {
		t.Errorf("%+v", q)
	}
}

package record

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestNamedPriceStays: the price a plater named is what he asks when the piece that was
// taken back from him is sent again; what is plated can't be taken back.
func TestNamedPriceStays(t *testing.T) {
	path := demo(t)
	for _, s := range []step{
		{"sent", Facts{Target: "crest-2", To: "pell", StripFirst: true}},
		{"priced", Facts{Target: "crest-2", Cost: "320.00", Grade: "90"}}, {"recalled", Facts{Target: "crest-2"}},
		{"sent", Facts{Target: "bullet-2", To: "brackwater", Level: "driver"}}, {"recalled", Facts{Target: "bullet-2"}},
		{"sent", Facts{Target: "bullet-1", To: "brackwater", Level: "driver"}}, {"approved", Facts{Target: "bullet-1"}},
		{"plated", Facts{Target: "bullet-1"}},
	} {
		if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
			t.Fatal(s.name, err)
		}
	}
	st := recorderAt(t, path).State
	i, _ := st.FindPiece("crest-2")
	var costs []string
	for _, choices := range choice.Choices(st) {
		for k := range choices {
			if c := &choices[k]; c.Piece == i && c.Plated() && st.Platers[c.Plater].ID == "pell" {
				costs = append(costs, fmt.Sprintf("%d grade %d refused %d", c.Plate, c.Grade, c.Refused))
			}
		}
	}
	if got := strings.Join(costs, ", "); got != "32000 grade 9000 refused 0" {
		t.Errorf("pell asks %s", got)
	}
	if i, _ = st.FindPiece("bullet-2"); len(st.Pieces[i].Quotes) != 0 {
		t.Errorf("a price that nobody named: %+v", st.Pieces[i].Quotes)
	}
	if err := do(t, recorderAt(t, path), "recalled", Facts{Target: "bullet-1"}); err == nil ||
		!strings.Contains(err.Error(), "is plated: nothing can be taken back") {
		t.Errorf("taken back when it was plated: %v", err)
	}
}

// TestMoneyOfWorks: what makers do before a piece is sent is paid for once, and fitting
// by hand when it hangs; a bundle that was bought is paid for.
func TestMoneyOfWorks(t *testing.T) {
	path := demo(t)
	edit(t, path, "\n[piece.handle]\nfits = [\"vent-left\"]\nkind = \"original\"\nmetal = \"pot metal\"\ngrade = 95\n"+
		"[piece.handle.fit.vent-right]\nhours = 1.5\nbreakage = 0.05\ncap = 85\n")
	edit(t, filepath.Join(filepath.Dir(path), "shop.toml"), "\n[bundle.tin]\nvendor = \"tinshed\"\nprice = \"30.00\"\n"+
		"[piece.tin-crest]\nfits = [\"crest\"]\nkind = \"original\"\nmetal = \"pot metal\"\ngrade = 99\nfresh = true\n"+
		"bundle = \"tin\"\n")
	for _, s := range []struct {
		step
		more catalog.Cents
	}{
		// the post, freight, up to the least lot
		{step{"sent", Facts{Target: "crest-2", To: "pell", StripFirst: true}}, 36_00 + 60_00 + 200_00 - 160_51},
		{step{"recalled", Facts{Target: "crest-2", Cost: "0.00"}}, 0},
		{step{"sent", Facts{Target: "crest-2", To: "pell", StripFirst: true}}, 60_00 + 200_00 - 160_51},
		{step{"hung", Facts{Target: "handle", Slot: "vent-right"}}, 78_00},
		{step{"hung", Facts{Target: "handle", Slot: "vent-right", Grade: "84"}}, 0},
		{step{"bought", Facts{Target: "tin"}}, 30_00},
	} {
		d := recorderAt(t, path)
		was := d.State.Job.SpentSum
		if err := do(t, d, s.name, s.facts); err != nil {
			t.Fatal(s.name, err)
		}
		if got := recorderAt(t, path).State.Job.SpentSum - was; got != s.more {
			t.Errorf("%s %s: %d spent, want %d", s.name, s.facts.Target, got, s.more)
		}
	}
	if err := do(t, recorderAt(t, path), "bought", Facts{Target: "boxed-spears", Count: "1"}); err == nil ||
		!strings.Contains(err.Error(), "bought whole") {
		t.Errorf("half a bundle: %v", err)
	}
	st := recorderAt(t, path).State
	pl, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !pl.Has {
		t.Fatal(err, pl.Reasons)
	}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeBundle {
			t.Errorf("a bundle that was bought is charged with %d", c.Cents)
		}
	}
	for _, l := range pl.Lines {
		if id := st.Slots[l.Slot].ID; id == "vent-right" && (l.Expected != 0 || l.Choice.Grade != 84_00) || id == "crest" &&
			st.Pieces[l.Choice.Piece].ID == "tin-crest" && l.Expected != 0 {
			t.Errorf("%s: %d, grade %d", id, l.Expected, l.Choice.Grade)
		}
	}
}

// TestMoneyOfBoxes: what is sold by the box is booked by whole boxes, 11.00 each; what is left of
// the offer is still sold so, and what was bought lies there, all of it.
func TestMoneyOfBoxes(t *testing.T) {
	path := demo(t)
	edit(t, path, "\n[slot.bolts]\nquantity = 36\n[piece.bolts]\nfits = [\"bolts\"]\nkind = \"reproduction\"\n"+
		"metal = \"brass\"\nowner = \"tinshed\"\nbox = 50\nquantity = 150\nprice = \"11.00\"\ngrade = 95\n")
	d := recorderAt(t, path)
	if err := do(t, d, "bought", Facts{Target: "bolts", Count: "36"}); err == nil ||
		!strings.Contains(err.Error(), "boxes of 50; write 50") {
		t.Errorf("part of a box: %v", err)
	}
	was := d.State.Job.SpentSum
	if err := do(t, d, "bought", Facts{Target: "bolts", Count: "100"}); err != nil {
		t.Fatal(err)
	}
	st := recorderAt(t, path).State
	if got := st.Job.SpentSum - was; got != 22_00 {
		t.Errorf("%d spent on two boxes, want 2200", got)
	}
	for id, want := range map[string][2]int{"bolts": {100, 0}, "bolts-2": {50, 50}} {
		i, ok := st.FindPiece(id)
		if !ok {
			t.Fatal(id)
		}
		p, box := &st.Pieces[i], 0
		if p.Bundle != catalog.None {
			box = st.Bundles[p.Bundle].Box
		}
		if p.Quantity != want[0] || box != want[1] || (box == 0) != (p.Side == catalog.Customers) {
			t.Errorf("%s: %d of it, in boxes of %d, side %d", id, p.Quantity, box, p.Side)
		}
	}
	if err := do(t, recorderAt(t, path), "new", Facts{Target: "nuts", Fits: "bolts", Kind: "reproduction", Metal: "brass",
		Owner: "tinshed", Cost: "9.00", Box: "40"}); err != nil {
		t.Fatal(err)
	}
	st = recorderAt(t, path).State
	if i, ok := st.FindPiece("nuts"); !ok || st.Pieces[i].Quantity != 40 || st.Bundles[st.Pieces[i].Bundle].Price != 9_00 {
		t.Error("an offer by the box is not what was recorded")
	}
	if err := do(t, recorderAt(t, path), "bought", Facts{Target: "nuts"}); err != nil {
		t.Fatal(err)
	}
	st = recorderAt(t, path).State
	if i, _ := st.FindPiece("nuts"); st.Pieces[i].Quantity != 40 || st.Pieces[i].Bundle != catalog.None {
		t.Errorf("a box of 40 was bought, and there are %d", st.Pieces[i].Quantity)
	}
}

// TestUsedUp: what a drawer's piece costs is spent once it is no more after work on it was begun, for the set as
// planned pays for it too; not if that happened before, nor if it was paid for already.
func TestUsedUp(t *testing.T) {
	sent := step{"sent", Facts{Target: "drawer-grille", To: "pell"}}
	for name, c := range map[string]struct {
		steps []step
		want  catalog.Cents
	}{
		"at the plater's":        {[]step{sent}, 45_00},
		"before it was sent":     {nil, 0},
		"paid for":               {[]step{{"bought", Facts{Target: "drawer-grille"}}, sent}, 0},
		"the customer's own":     {[]step{{"sent", Facts{Target: "crest-2", To: "pell"}}}, 0},
		"the shop's, taken back": {[]step{sent, {"recalled", Facts{Target: "drawer-grille"}}}, 0},
	} {
		path := demo(t)
		target := "drawer-grille"
		if name == "the customer's own" {
			target = "crest-2"
		}
		for _, s := range c.steps {
			if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
				t.Fatal(name, err)
			}
		}
		before := recorderAt(t, path).State.Job.SpentSum
		if err := do(t, recorderAt(t, path), "broke", Facts{Target: target}); err != nil {
			t.Fatal(name, err)
		}
		if got := recorderAt(t, path).State.Job.SpentSum - before; got != c.want {
			t.Errorf("%s: %d spent", name, got)
		}
	}
}

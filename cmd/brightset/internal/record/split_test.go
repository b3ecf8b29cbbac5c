package record

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// piecesOf tells of every piece whose id starts so how many there are and where.
func piecesOf(st *catalog.State, start string) string {
	var all []string
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !strings.HasPrefix(p.ID, start) {
			continue
		}
		text := fmt.Sprintf("%d %s %s", p.Quantity, p.ID, p.Stage)
		switch {
		case p.Stage == catalog.StageHung:
			text += " " + st.Slots[p.HungIn].ID
		case p.AtPlater():
			text += fmt.Sprintf(" %s %d", st.Platers[p.Sent.Plater].ID, p.Sent.Count)
		case p.Side != catalog.Customers:
			text += fmt.Sprintf(" for %s", catalog.FormatMoney(p.Price))
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

func keepPlan(t *testing.T, path string) { keepShared(t, path, nil) }

// keepShared keeps a plan, and what the job pays in it of what jobs have in common.
func keepShared(t *testing.T, path string, shares []catalog.KeptShare) {
	t.Helper()
	d := recorderAt(t, path)
	plan, err := program.Solve(context.Background(), d.State, solver.Settings{})
	if err != nil || !plan.Has {
		t.Fatal(err, plan.Status)
	}
	if _, err := d.Record(Keep(d, plan, shares)); err != nil {
		t.Fatal(err)
	}
}

// edit adds to a file of the job.
func edit(t *testing.T, path, text string) {
	t.Helper()
	old, err := os.ReadFile(path)
	if err == nil {
		err = os.WriteFile(path, append(old, text...), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// TestBagInTwoSlots: of a bag bought in part each slot takes its own, and nothing has
// changed against the plan that was kept.
func TestBagInTwoSlots(t *testing.T) {
	path := demo(t)
	keepPlan(t, path)
	steps := []struct {
		step
		want string
	}{
		{step{"bought", Facts{Target: "crank-repro"}}, "2 crank-repro seen; 2 crank-repro-2 seen for 34.00"},
		{step{"hung", Facts{Target: "crank-repro", Slot: "crank-left"}}, "1 crank-repro hung crank-left; 2 crank-repro-2 " +
			"seen for 34.00; 1 crank-repro-3 seen"},
		{step{"hung", Facts{Target: "crank-repro-3", Slot: "crank-right"}}, "1 crank-repro hung crank-left; 2 " +
			"crank-repro-2 seen for 34.00; 1 crank-repro-3 hung crank-right"},
	}
	for i, s := range steps {
		d := recorderAt(t, path)
		before := text0(t, d.State)
		if i == 2 {
			err := do(t, d, "hung", Facts{Target: "crank-repro", Slot: "crank-right"})
			if err == nil || !strings.Contains(err.Error(), "what was left of the bag is called crank-repro-3") {
				t.Errorf("hung a second time: %v", err)
			}
		}
		if err := do(t, d, s.name, s.facts); err != nil {
			t.Fatal(err)
		}
		if got := piecesOf(d.State, "crank-repro"); got != s.want {
			t.Errorf("%s: %s\nwant %s", s.name, got, s.want)
		}
		after := text0(t, d.State)
		if st, _, err := d.Undo(); err != nil || text0(t, st) != before {
			t.Errorf("%s: its undo gives another state (%v)", s.name, err)
		}
		if st, _, err := d.Redo(); err != nil || text0(t, st) != after {
			t.Errorf("%s: its redo gives another state (%v)", s.name, err)
		}
	}
	st := recorderAt(t, path).State
	if st.Job.SpentSum != 68_00 {
		t.Errorf("spent %d on two cranks", st.Job.SpentSum)
	}
	now, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !now.Has {
		t.Fatal(err, now.Reasons)
	}
	for _, l := range now.Lines {
		if strings.HasPrefix(st.Slots[l.Slot].ID, "crank") && l.Expected != 0 {
			t.Errorf("%s: %d left to pay", st.Slots[l.Slot].ID, l.Expected)
		}
	}
	for _, s := range plan.PlanChanges(st.Kept.Lines, st.Kept.Seq, now) {
		if strings.HasPrefix(s.Slot, "crank") {
			t.Errorf("%s is said to have changed: %+v", s.Slot, s)
		}
	}
}

// TestBagFollows: locks, bans and trades that are about a bag are about its rest too.
func TestBagFollows(t *testing.T) {
	path := demo(t)
	edit(t, path, "\n[lock.right]\nslot = \"crank-right\"\npiece = \"crank-repro\"\n[lock.crank-left]\npiece = "+
		"\"crank-repro\"\n"+
		"[ban.dear]\npiece = \"crank-repro\"\nplater = \"pell\"\nreason = \"too dear\"\n")
	if err := do(t, recorderAt(t, path), "hung", Facts{Target: "crank-repro", Slot: "crank-right"}); err != nil {
		t.Fatal(err)
	}
	err := do(t, recorderAt(t, path), "hung", Facts{Target: "vent-spares", Slot: "vent-left", Grade: "75"})
	if err != nil {
		t.Fatal(err)
	}
	st := recorderAt(t, path).State
	for _, l := range st.Locks {
		want := map[string]string{"crank-right": "crank-repro", "crank-left": "crank-repro-2"}[st.Slots[l.Slot].ID]
		if got := st.Pieces[l.Piece].ID; got != want {
			t.Errorf("the lock on %s is on %s", st.Slots[l.Slot].ID, got)
		}
	}
	banned := map[string]string{}
	for _, b := range st.Bans {
		if b.Piece != catalog.None {
			banned[st.Pieces[b.Piece].ID] = st.Platers[b.Plater].ID + ", " + b.Reason
		}
	}
	if banned["crank-repro"] != "pell, too dear" || banned["crank-repro-2"] != "pell, too dear" {
		t.Errorf("bans %v", banned)
	}
	if give := st.Pieces[st.Trades[0].Give].ID; give != "vent-spares-2" {
		t.Errorf("given in trade: %s", give)
	}
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !plan.Has {
		t.Errorf("%v %v %v", err, plan.Status, plan.Reasons)
	}
}

// TestBagSentInPart: only what goes is at the plater's; the rest of a bag of the shop's
// stays free for other jobs.
func TestBagSentInPart(t *testing.T) {
	path := demo(t)
	shop := filepath.Join(filepath.Dir(path), "shop.toml")
	edit(t, shop, "\n[piece.arms]\nfits = [\"mirror-arm\"]\nkind = \"original\"\nmetal = \"brass\"\nquantity = 5\nprice "+
		"= \"10.00\"\n[piece.arms.finding.a]\ndefect = \"scratches\"\n")
	for _, s := range []struct {
		facts Facts
		want  string
	}{
		{Facts{Target: "arms", To: "brackwater", Level: "driver", Slot: "mirror-left"},
			"1 arms seen brackwater 1; 4 arms-2 seen for 10.00"},
		{Facts{Target: "arms-2", To: "pell", Level: "show", Slot: "mirror-left", Count: "2"},
			"1 arms seen brackwater 1; 2 arms-2 seen pell 2; 2 arms-3 seen for 10.00"},
	} {
		d := recorderAt(t, path)
		before := text0(t, d.State)
		if err := do(t, d, "sent", s.facts); err != nil {
			t.Fatal(err)
		}
		if got := piecesOf(d.State, "arms"); got != s.want {
			t.Errorf("%s\nwant %s", got, s.want)
		}
		if st, _, err := d.Undo(); err != nil || text0(t, st) != before {
			t.Errorf("its undo gives another state (%v)", err)
		}
		if _, _, err := d.Redo(); err != nil {
			t.Error(err)
		}
	}
	st := recorderAt(t, path).State
	i, _ := st.FindPiece("arms-3")
	if p := &st.Pieces[i]; len(p.Findings) != 1 || !p.InShop || p.Sent.Was {
		t.Errorf("%+v", p)
	}
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !plan.Has {
		t.Fatal(err, plan.Reasons)
	}
	for _, l := range plan.Lines { // two platers and a drawer hold arms, each its own
		if c := l.Choice; strings.HasPrefix(st.Pieces[c.Piece].ID, "arms") && c.Sent != st.Pieces[c.Piece].AtPlater() {
			t.Errorf("%s: %+v", st.Slots[l.Slot].ID, c)
		}
	}
}

package paper

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
)

// TestBooksOfStages: what was sent is no lot, what is out of the drawer is not bought
// again, and what is gone is not left over.
func TestBooksOfStages(t *testing.T) {
	st := jobs.StagedJob()
	st.Pieces[5].Price = 0 // the hook is out of the drawer and hangs
	gone := st.Pieces[7]
	for i, stage := range []catalog.Stage{catalog.StageBroken, catalog.StageLost, catalog.StageSold} {
		p := gone
		p.ID, p.Stage = []string{"broken", "lost", "sold"}[i], stage
		st.Pieces = append(st.Pieces, p)
	}
	away := gone
	away.ID, away.InShop, away.Elsewhere = "away", true, true
	plated, sent, drawer := gone, gone, gone
	plated.ID, sent.ID, drawer.ID = "plated", "sent", "drawer"
	jobs.SentTo(&plated, 1, catalog.StagePlated)
	jobs.SentTo(&sent, 0, catalog.StageSeen)
	plated.Sent.Grade, sent.Sent.Grade = jobs.Given(catalog.Centi(10_00)), jobs.Given(catalog.Centi(10_00))
	drawer.InShop, drawer.Side, drawer.Days = true, catalog.Shops,
		catalog.Val[int]{Set: true, From: catalog.Origin{Source: catalog.Recorded}}
	drawer.Grade = jobs.Given(catalog.Centi(10_00))
	st.Pieces = append(st.Pieces, away, plated, sent, drawer)
	plan := solved.Cheapest(t, st)
	for _, lot := range Lots(plan) {
		for _, i := range lot.Lines {
			if plan.Lines[i].Choice.Sent {
				t.Errorf("a sent piece is in a lot that is to be sent: %+v", lot)
			}
		}
	}
	for _, p := range Purchases(plan) {
		if p.Side == catalog.Shops {
			t.Errorf("bought out of the drawers: %+v", p)
		}
	}
	advice := map[string]string{}
	for _, s := range Leftover(plan) {
		advice[st.Pieces[s.Piece].ID] = s.Advice
	}
	for _, id := range []string{"broken", "lost", "sold", "away"} {
		if text, there := advice[id]; there {
			t.Errorf("%s is left over: %s", id, text)
		}
	}
	for id, want := range map[string]string{"plated": "at south, plated: fetch it",
		"sent": "at north: take it back, or let him finish", "drawer": "paid for, out of the drawer"} {
		if !strings.HasPrefix(advice[id], want) {
			t.Errorf("%s: %q, want %q", id, advice[id], want)
		}
	}
}

package paper

import (
	"slices"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// sending is a plan that sends one piece to the first plater, for 8.00 of freight and 5.00
// that the lot lacks of his least charge.
func sending(st *catalog.State) *plan.Plan {
	return &plan.Plan{
		Of: st,
		Lines: []plan.Line{{
			Slot:   jobs.Left,
			Choice: &plan.Choice{Slot: jobs.Left, Piece: jobs.Sold, Plater: jobs.North, Work: catalog.WorkReplate, Plate: 50_00},
		}},
		Charges: []plan.Charge{{Kind: plan.ChargePlaterFreight, Of: jobs.North, Cents: 8_00},
			{Kind: plan.ChargeMinimum, Of: jobs.North, Cents: 5_00}},
	}
}

// TestOpenLots: a lot that went to the same plater on the day where the job stands can be
// joined; one of yesterday, one to somebody else and one that is back can't, and where a lot
// of its own costs nothing there is nothing to say.
func TestOpenLots(t *testing.T) {
	today := time.Date(2031, 3, 4, 0, 0, 0, 0, time.UTC)
	sent := func(plater int, on time.Time) catalog.Sent {
		return catalog.Sent{
			Was:   true,
			Lot:   "7",
			On:    catalog.Val[time.Time]{V: on, Set: true},
			Quote: catalog.Quote{Plater: plater},
		}
	}
	for name, c := range map[string]struct {
		sent  catalog.Sent
		stage catalog.Stage
		free  bool
		want  []OpenLot
	}{
		"today":          {sent: sent(jobs.North, today), want: []OpenLot{{jobs.North, "7", 13_00}}},
		"yesterday":      {sent: sent(jobs.North, today.AddDate(0, 0, -1))},
		"another":        {sent: sent(jobs.North+1, today)},
		"back":           {sent: sent(jobs.North, today), stage: catalog.StageBack},
		"free of charge": {sent: sent(jobs.North, today), free: true},
	} {
		st := jobs.Tiny()
		st.Job.AsOf = today
		st.Pieces[jobs.Other].Sent, st.Pieces[jobs.Other].Stage = c.sent, c.stage
		pl := sending(st)
		if c.free {
			pl.Charges = nil
		}
		if got := OpenLots(pl); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// TestHeldBack: a piece for the plater that nobody has held up to the object waits, once for
// all its slots; one that was, one that hangs as it is and one at the plater's don't.
func TestHeldBack(t *testing.T) {
	st := jobs.Tiny()
	pl := sending(st)
	pl.Lines = append(pl.Lines, pl.Lines[0])
	if got := HeldBack(pl); !slices.Equal(got, []Held{{jobs.Sold, pl.Lines[0].Slot, catalog.None}}) {
		t.Errorf("not tried: %v is held back", got)
	}
	for name, change := range map[string]func(c *plan.Choice){
		"tried":           func(*plan.Choice) { st.Pieces[jobs.Sold].Fitted = []int{jobs.Left} },
		"as it is":        func(c *plan.Choice) { c.Plater, c.Work = catalog.None, catalog.WorkAsIs },
		"at the plater's": func(c *plan.Choice) { c.Sent = true },
	} {
		st = jobs.Tiny()
		pl = sending(st)
		change(pl.Lines[0].Choice)
		if got := HeldBack(pl); len(got) > 0 {
			t.Errorf("%s: %v is held back", name, got)
		}
	}
}

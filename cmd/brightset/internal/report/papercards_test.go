package report

import (
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// handHunt is a hunt for two mirror arms and a badge, of two kinds of finds each.
func handHunt() *ask.Hunted {
	st := &catalog.State{Slots: []catalog.Slot{{Name: "left arm"}, {Name: "right arm"}, {Name: "badge"}}}
	st.Job.Start = catalog.Val[time.Time]{V: time.Date(2031, 1, 1, 0, 0, 0, 0, time.UTC), Set: true}
	st.Job.WithinDays = catalog.Val[int]{V: 10, Set: true}
	h := &ask.Hunted{Plan: &plan.Plan{Of: st, Has: true}, Whole: true}
	for slot, worth := range []catalog.Cents{40_00, 40_00, 41_00} {
		for _, name := range []string{"unused, grade 75 or better", "a reproduction, grade 75 or better"} {
			h.Finds = append(h.Finds, ask.Find{Slot: slot, Profile: ask.Profile{Name: name}, Worth: worth, Most: worth,
				Choice: &plan.Choice{Slot: slot, Work: catalog.WorkAsIs, Plater: catalog.None}})
		}
	}
	return h
}

// TestHuntCard: two positions for which a find is as good, at the same price, are one row.
func TestHuntCard(t *testing.T) {
	h := handHunt()
	rows := huntRows(h)
	if len(rows) != 2 || join(rows[0].slots) != "left arm, right arm" || join(rows[1].slots) != "badge" ||
		rows[0].look != "unused or a reproduction, grade 75 or better" || rows[0].by != "2031-01-11" {
		t.Errorf("%+v", rows)
	}
	h.Finds[2].Worth, h.Finds[2].Most = 39_00, 39_00 // unused on the right is worth less
	if rows = huntRows(h); len(rows) != 4 {
		t.Errorf("%+v", rows)
	}
}

package check

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// How far pieces have come, as the check sees it.

// isAtPlater says whether a piece is at a plater's now.
func isAtPlater(piece *catalog.Piece) bool {
	switch piece.Stage {
	case catalog.StageSeen, catalog.StageStripped, catalog.StagePriced, catalog.StageApproved, catalog.StagePlated:
		return piece.Sent.Was
	}
	return false
}

// isGone says whether nobody has the piece to hand any more.
func isGone(piece *catalog.Piece) bool {
	switch piece.Stage {
	case catalog.StageSold, catalog.StageLost, catalog.StageBroken:
		return true
	}
	return piece.Elsewhere
}

// stageAllows says which choices the stage of a piece, or of the one that hangs in the
// slot, leaves no room for.
func stageAllows(st *catalog.State, piece *catalog.Piece, c *plan.Choice) (rule, why string) {
	asIs := c.Work == catalog.WorkAsIs
	switch piece.Stage {
	case catalog.StageSold, catalog.StageLost, catalog.StageBroken:
		return "gone", fmt.Sprintf("piece %q is %s", piece.ID, piece.Stage)
	case catalog.StageHung:
		if piece.HungIn != c.Slot || !asIs {
			return "hung", fmt.Sprintf("piece %q hangs in slot %q", piece.ID, st.Slots[piece.HungIn].ID)
		}
	case catalog.StageStripped, catalog.StagePriced, catalog.StageApproved:
		if asIs || c.Work == catalog.WorkClean {
			return "stripped", fmt.Sprintf("piece %q is stripped", piece.ID)
		}
	}
	if piece.Elsewhere {
		return "gone", fmt.Sprintf("piece %q is in use on another job", piece.ID)
	}
	if isAtPlater(piece) && (c.Plater != piece.Sent.Plater || c.Quote != catalog.None) {
		return "sent", fmt.Sprintf("piece %q is at plater %q, on the terms agreed", piece.ID,
			st.Platers[piece.Sent.Plater].ID)
	}
	for i := range st.Pieces {
		other := &st.Pieces[i]
		if other != piece && other.Stage == catalog.StageHung && !other.Elsewhere && other.HungIn == c.Slot {
			return "hung", fmt.Sprintf("piece %q hangs there", other.ID)
		}
	}
	return "", ""
}

// platedBy is the plater whose finish is seen on what hangs: the choice's, or the
// one that the piece came back from.
func platedBy(st *catalog.State, c *plan.Choice) int {
	piece := &st.Pieces[c.Piece]
	came := piece.Stage == catalog.StageBack || piece.Stage == catalog.StageHung
	if c.Plater == catalog.None && piece.Sent.Was && came {
		return piece.Sent.Plater
	}
	return c.Plater
}

// keepsLock says whether a choice is what a lock is on, or what has come of it: the
// piece is back from the plater, or was cleaned and hangs.
func keepsLock(st *catalog.State, lock *catalog.Filter, c *plan.Choice) bool {
	piece := &st.Pieces[c.Piece]
	if matches(lock, c) {
		return true
	}
	if c.Work != catalog.WorkAsIs {
		return false
	}
	before := *c
	if plater := platedBy(st, c); plater != catalog.None {
		before.Work, before.Plater, before.Level = piece.Sent.Work, plater, piece.Sent.Level
	} else if piece.Stage == catalog.StageHung && lock.Work == catalog.WorkClean {
		before.Work = catalog.WorkClean
	}
	return matches(lock, &before)
}

// underWay is a piece that a plater has at the moment.
func underWay(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece,
	c *plan.Choice) (*doneTo, string, string) {
	sent := &piece.Sent
	plater := &st.Platers[sent.Plater]
	if sent.Work != c.Work || sent.Level != c.Level {
		return nil, "sent", fmt.Sprintf("piece %q was sent for %s", piece.ID, sent.Work)
	}
	one := &doneTo{
		work: sent.Work, level: sent.Level, plate: sent.Cost, breaks: sent.Breakage.V, refused: sent.Refused.V,
		grade: sent.Grade.V, tone: sent.Tone.V, fresh: sent.Fresh.Or(true), stripFee: plater.StripFee,
	}
	total := plater.Days
	if sent.Days.Set {
		total = sent.Days.V
	}
	one.days = max(total-sent.Since, 1)
	_, known := unknownFindings(piece, &sent.Quote)
	for _, f := range known.Findings {
		over := sent.Work == catalog.WorkReplate && unmended(st, piece, &f)
		one.growing = one.growing || over && st.Tables.Defects[f.Defect].Progressive
	}
	if why := cameToLight(st, slot, piece, one); why != "" && piece.Stage != catalog.StagePlated {
		return nil, "sent", why
	}
	switch piece.Stage {
	case catalog.StageApproved:
		one.plate -= sent.Cost
	case catalog.StagePlated:
		one.refused, one.plate, one.breaks = 0, one.plate-sent.Cost, 0
	}
	if why := payOwed(st, slot, piece, one); why != "" {
		return nil, "sent", why
	}
	return one, "", ""
}

// lotsDrift is by how much the tones of two pieces may be further apart than they are meant
// to be: what one plater does in two lots may differ by his drift, until both are back.
func lotsDrift(st *catalog.State, a, b *plan.Choice) catalog.Centi {
	q := platedBy(st, a)
	if q == catalog.None || platedBy(st, b) != q {
		return 0
	}
	first, second := &st.Pieces[a.Piece], &st.Pieces[b.Piece]
	toGo := func(c *plan.Choice, piece *catalog.Piece) bool { return c.Plater != catalog.None && !isAtPlater(piece) }
	switch {
	case a.Plater == catalog.None && b.Plater == catalog.None: // both can be seen
		return 0
	case toGo(a, first) && toGo(b, second):
		return 0
	case !toGo(a, first) && !toGo(b, second) && first.Sent.Lot == second.Sent.Lot:
		return 0
	}
	return st.Platers[q].Drift
}

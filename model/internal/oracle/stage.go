package oracle

import "brightset/catalog"

// Jobs under way: how far a piece has come leaves less to decide.

// atPlater says whether a plater has the piece now.
func atPlater(p *catalog.Piece) bool { return p.Sent.Was && p.Stage <= catalog.StagePlated }

// gone says whether there is no piece any more.
func gone(p *catalog.Piece) bool {
	return p.Elsewhere || p.Stage == catalog.StageSold || p.Stage == catalog.StageLost || p.Stage == catalog.StageBroken
}

// stripped says whether the old plating is off: it can't hang or be cleaned like that.
func stripped(p *catalog.Piece) bool {
	return p.Stage == catalog.StageStripped || p.Stage == catalog.StagePriced || p.Stage == catalog.StageApproved
}

// came says whether a piece came back from a plater, done.
func came(p *catalog.Piece) bool {
	return p.Sent.Was && (p.Stage == catalog.StageBack || p.Stage == catalog.StageHung)
}

// outOfReach says whether a piece is gone, hangs elsewhere, or is too late because another
// hangs in the slot.
func (r *Reader) outOfReach(slot, p int) bool {
	for i := range r.st.Pieces {
		if o := &r.st.Pieces[i]; i != p && o.Stage == catalog.StageHung && o.HungIn == slot && !o.Elsewhere {
			return true
		}
	}
	piece := &r.st.Pieces[p]
	return gone(piece) || piece.Stage == catalog.StageHung && piece.HungIn != slot
}

// underWay is a piece at a plater's, on the terms it was sent on. Once he was told to go
// ahead the price is spent, and once it is plated nothing can happen to it any more. What
// is left of his days is at least one.
func (r *Reader) underWay(slot, p int) []done {
	piece := &r.st.Pieces[p]
	s := &piece.Sent
	plater := &r.st.Platers[s.Plater]
	d := done{work: s.Work, plater: s.Plater, level: s.Level, quote: nothing, sent: true, strip: plater.StripFee,
		plate: s.Cost, breaks: or(s.Breakage, 0), refused: or(s.Refused, 0),
		grade: or(s.Grade, 0), tone: or(s.Tone, 0), fresh: or(s.Fresh, true)}
	if d.days = or(s.Days, plater.Days) - s.Since; d.days < 1 {
		d.days = 1
	}
	known, _ := sortOut(piece, &s.Quote)
	for i := range known.Findings {
		f := &known.Findings[i]
		d.growing = d.growing || s.Work == catalog.WorkReplate && r.bad(piece, f) && r.st.Tables.Defects[f.Defect].Progressive
	}
	if !r.toLight(slot, p, &d) && piece.Stage != catalog.StagePlated {
		return nil
	}
	switch piece.Stage {
	case catalog.StageApproved:
		d.plate -= s.Cost
	case catalog.StagePlated:
		d.plate, d.breaks, d.refused = d.plate-s.Cost, 0, 0
	}
	if d, ok := r.complete(slot, piece, d); ok {
		return []done{d}
	}
	return nil
}

// platedBy is the plater whose finish shows, None where nobody's does.
func (r *Reader) platedBy(c *Choice) int {
	if piece := &r.st.Pieces[c.Piece]; c.Plater < 0 && came(piece) {
		return piece.Sent.Plater
	}
	return c.Plater
}
